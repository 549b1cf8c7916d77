"""Permanent-magnet generator with a diode bridge, seen from the direct-current side."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from racewright.machine.drive_checks import Floats, filled, growing, number
from racewright.machine.drive_generator import GeneratorOutput
from racewright.machine.drive_line import LinePoints
from racewright.machine.drive_table import GeneratorTable

BRIDGE_VOLTAGE = 3.0 * math.sqrt(2.0) / math.pi
"""Mean voltage of an ideal three-phase diode bridge over the line-to-line rms voltage, 1.350474 [-]."""


@dataclass(frozen=True)
class PermanentMagnet:
    """Equivalent circuit: V = (k - X I) w - R I, torque = (k - X I) I + h + e w + f w^2.

    The reactance term lowers voltage and torque alike and loses nothing (overlap of the diodes); it holds while it
    takes no more than a quarter of the open voltage, and current is limited to that.

    Attributes
    ----------
    voltage_constant : float
        k, open-circuit direct voltage over generator speed, > 0 [V s/rad].
    resistance : float
        R, from the direct-current side: two phases in series under a bridge, >= 0 [ohm].
    largest_current : float
        Direct current that the generator or its bridge may carry, > 0 [A].
    reactance : float
        X, drop by overlap over speed and current, 3 x pole pairs x phase inductance / pi, >= 0 [ohm s/rad].
    hysteresis_torque : float
        h, >= 0 [N m].
    eddy_torque : float
        e, >= 0 [N m s/rad].
    windage_torque : float
        f, >= 0 [N m s2/rad2].
    cogging_torque : float
        At the generator shaft, >= 0 [N m].
    """

    voltage_constant: float
    resistance: float
    largest_current: float
    reactance: float = 0.0
    hysteresis_torque: float = 0.0
    eddy_torque: float = 0.0
    windage_torque: float = 0.0
    cogging_torque: float = 0.0

    def __post_init__(self) -> None:
        number("The generator's voltage constant", self.voltage_constant, 1e-6, 1e6, "V s/rad")
        number("The generator's resistance", self.resistance, 0.0, 1e6, "ohm")
        number("The generator's largest current", self.largest_current, 1e-6, 1e6, "A")
        number("The generator's reactance", self.reactance, 0.0, 1e6, "ohm s/rad")
        number("The hysteresis torque", self.hysteresis_torque, 0.0, 1e8, "N m")
        number("The eddy torque", self.eddy_torque, 0.0, 1e8, "N m s/rad")
        number("The windage torque", self.windage_torque, 0.0, 1e8, "N m s2/rad2")
        number("The cogging torque", self.cogging_torque, 0.0, 1e8, "N m")

    @property
    def current_limit(self) -> float:
        """Largest current answered: the generator's own, or where overlap takes a quarter of the voltage [A]."""
        if self.reactance == 0.0:
            return self.largest_current
        return min(self.largest_current, 0.25 * self.voltage_constant / self.reactance)

    def idle_torque(self, speed: Floats) -> Floats:
        """Iron and windage torque without current [N m]."""
        found: Floats = self.hysteresis_torque + self.eddy_torque * speed + self.windage_torque * speed**2
        return found

    def torque(self, speed: Floats, current: Floats) -> Floats:
        """Shaft torque [N m]."""
        found: Floats = (self.voltage_constant - self.reactance * current) * current + self.idle_torque(speed)
        return found

    def voltage(self, speed: Floats, current: Floats) -> Floats:
        """Direct voltage behind the bridge, before the drop of its diodes [V]."""
        inner = (self.voltage_constant - self.reactance * current) * speed
        found: Floats = inner - self.resistance * current
        return found

    def loss(self, speed: Floats, current: Floats) -> Floats:
        """Copper, iron and windage loss [W]."""
        found: Floats = self.resistance * current**2 + self.idle_torque(speed) * speed
        return found

    def output(self, torque: Floats, speed: Floats) -> GeneratorOutput:
        """As `Generator.output`."""
        k, x = self.voltage_constant, self.reactance
        air = np.maximum(torque - self.idle_torque(speed), 0.0)
        root = k**2 - 4.0 * x * air
        current = 2.0 * air / (k + np.sqrt(np.maximum(root, 0.0)))
        answered = (root >= 0.0) & (current <= self.current_limit * (1.0 + 1e-12))
        electrical = self.voltage(speed, current) * current
        answered = answered & (electrical >= 0.0)
        lost = np.where(current > 0.0, self.loss(speed, current), torque * speed)
        return GeneratorOutput(np.where(answered, electrical, 0.0), np.where(answered, lost, 0.0), answered)

    def at_voltage(self, speed: Floats, voltage: float, series_resistance: float) -> LinePoints:
        """Working against a fixed voltage [V] through a resistance [ohm], at speeds [rad/s]; never taking current."""
        inner = self.resistance + series_resistance + self.reactance * speed
        spare = np.maximum(self.voltage_constant * speed - voltage, 0.0)
        current = spare / np.where(inner > 0.0, inner, 1.0)
        answered = (current <= self.current_limit * (1.0 + 1e-12)) & ((inner > 0.0) | (spare == 0.0))
        return LinePoints(
            speed,
            current,
            self.voltage(speed, current),
            self.torque(speed, current),
            self.loss(speed, current),
            answered,
        )

    def open_voltage(self, speed: Floats) -> Floats:
        """As `LineGenerator.open_voltage`."""
        found: Floats = self.voltage_constant * speed
        return found

    def table(self, speed: Floats, current: Floats) -> GeneratorTable:
        """The same generator as a table over speeds [rad/s] and currents from 0 [A]."""
        turning = growing("The generator table's speed", speed)[:, None]
        flowing = growing("The generator table's current", current)[None, :]
        shape = (turning.size, flowing.size)
        return GeneratorTable(
            turning[:, 0],
            flowing[0],
            self.torque(turning, flowing),
            self.voltage(turning, flowing),
            filled("loss", self.loss(turning, flowing), shape),
            self.cogging_torque,
        )


def magnets_behind_bridge(
    line_voltage_constant: float,
    phase_resistance: float,
    largest_current: float,
    *,
    phase_inductance: float = 0.0,
    pole_pairs: int = 1,
    hysteresis_torque: float = 0.0,
    eddy_torque: float = 0.0,
    windage_torque: float = 0.0,
    cogging_torque: float = 0.0,
) -> PermanentMagnet:
    """The circuit from what is measured at the generator's three terminals.

    Parameters
    ----------
    line_voltage_constant : float
        Open line-to-line rms voltage over generator speed [V s/rad].
    phase_resistance, phase_inductance : float
        Of one phase in star [ohm], [H].
    largest_current : float
        Direct current behind the bridge [A].
    pole_pairs : int
        1 or more [-].
    hysteresis_torque, eddy_torque, windage_torque, cogging_torque : float
        As `PermanentMagnet`.

    Notes
    -----
    Mean bridge voltage 3 sqrt(2)/pi, two phases in series, drop by overlap 3 w L/pi x current: the usual bridge
    formulas for smooth direct current (power-electronics textbooks; from memory).
    """
    number("The pole pairs", pole_pairs, 1, 1000)
    number("The phase inductance", phase_inductance, 0.0, 1e3, "H")
    return PermanentMagnet(
        BRIDGE_VOLTAGE * number("The line voltage constant", line_voltage_constant, 1e-6, 1e6, "V s/rad"),
        2.0 * number("The phase resistance", phase_resistance, 0.0, 1e6, "ohm"),
        largest_current,
        3.0 * pole_pairs * phase_inductance / math.pi,
        hysteresis_torque,
        eddy_torque,
        windage_torque,
        cogging_torque,
    )
