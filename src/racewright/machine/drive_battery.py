"""A battery behind a diode bridge: the voltage is fixed, so the generator's speed sets current and torque."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.machine.drive_checks import Floats, finite, number
from racewright.machine.drive_line import LineGenerator


@dataclass(frozen=True)
class Battery:
    """A battery or direct-current bus, its diode bridge and its cable.

    Attributes
    ----------
    voltage : float
        Held by the battery whatever the current, > 0 [V].
    diode_drop : float
        Forward drop of the two diodes in series, 0 to 10 [V].
    line_resistance : float
        Cable both ways, and the battery's own, >= 0 [ohm].
    """

    voltage: float
    diode_drop: float = 1.8
    line_resistance: float = 0.0

    def __post_init__(self) -> None:
        number("The battery's voltage", self.voltage, 1.0, 1e4, "V")
        number("The drop of the diodes", self.diode_drop, 0.0, 10.0, "V")
        number("The resistance of the line", self.line_resistance, 0.0, 1e4, "ohm")


@dataclass(frozen=True)
class BatteryLine:
    """Current and torque of a generator on a battery, over generator speed, shape (n,) each.

    Attributes
    ----------
    speed : ndarray
        Generator speed [rad/s].
    current : ndarray
        Direct current, 0 below the speed where the open voltage reaches the battery's and the diodes' [A].
    torque : ndarray
        Generator shaft torque [N m].
    battery_power, generator_loss, line_loss : ndarray
        Power into the battery, lost in the generator, lost in diodes and cable [W].
    answered : ndarray of bool
        False beyond the largest current or the generator's table.
    """

    speed: Floats
    current: Floats
    torque: Floats
    battery_power: Floats
    generator_loss: Floats
    line_loss: Floats
    answered: NDArray[np.bool_]


def battery_line(generator: LineGenerator, battery: Battery, speed: Floats) -> BatteryLine:
    """Work a generator against a battery.

    Parameters
    ----------
    generator : PermanentMagnet or GeneratorTable
    battery : Battery
    speed : ndarray, shape (n,)
        Generator speeds, 0 or more [rad/s].

    Notes
    -----
    Shaft power = battery power + generator loss + line loss, each found by its own route; the difference is that of
    the generator's own books.
    """
    speed = finite("The generator's speed", speed, least=0.0)
    points = generator.at_voltage(speed, battery.voltage + battery.diode_drop, battery.line_resistance)
    lost = battery.diode_drop * points.current + battery.line_resistance * points.current**2
    return BatteryLine(
        speed, points.current, points.torque, battery.voltage * points.current, points.loss, lost, points.answered
    )
