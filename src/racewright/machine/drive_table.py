"""A generator as it was measured: torque, voltage and loss over speed and current."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from racewright.errors import InputError
from racewright.machine.drive_checks import Floats, filled, growing, number
from racewright.machine.drive_generator import GeneratorOutput
from racewright.machine.drive_line import LinePoints
from racewright.machine.drive_surface import Surface

_STEPS = 60
LEAST_CLOSED = 0.1
"""A table whose books miss by more than this share of the largest shaft power is refused (no source)."""


@dataclass(frozen=True)
class GeneratorTable:
    """Torque, voltage and loss on a grid of speed and current; monotone between the nodes.

    Shaft power, electrical power and loss are three separate columns: that they close is found out, not assumed.

    Attributes
    ----------
    speed : ndarray, shape (n,)
        Generator speeds, growing, two or more [rad/s].
    current : ndarray, shape (m,)
        Direct currents, growing from 0, two or more [A].
    torque : ndarray, shape (n, m)
        Shaft torque, growing with current [N m].
    voltage : ndarray, shape (n, m)
        Direct voltage, growing with speed, never growing with current [V].
    loss : ndarray, shape (n, m)
        Power lost in the generator, >= 0 [W].
    cogging_torque : float
        At the generator shaft, >= 0 [N m].
    torque_measured : bool
        False when torque was reckoned from the other columns, so that the books close by construction.
    """

    speed: Floats
    current: Floats
    torque: Floats
    voltage: Floats
    loss: Floats
    cogging_torque: float = 0.0
    torque_measured: bool = True

    def __post_init__(self) -> None:
        speed = growing("The generator table's speed", self.speed)
        current = growing("The generator table's current", self.current)
        if current[0] != 0.0:
            raise InputError("The generator table's current must begin at 0 A (turning without load).")
        shape = (speed.size, current.size)
        torque = filled("The generator table's torque", self.torque, shape)
        voltage = filled("The generator table's voltage", self.voltage, shape)
        if np.any(filled("The generator table's loss", self.loss, shape) < 0.0):
            raise InputError("The generator table holds a negative loss.")
        if np.any(np.diff(torque, axis=1) <= 0.0):
            raise InputError("The generator table's torque must grow with current at every speed.")
        if np.any(np.diff(voltage, axis=0) <= 0.0) or np.any(np.diff(voltage, axis=1) > 0.0):
            raise InputError("The generator table's voltage must grow with speed and must not grow with current.")
        number("The cogging torque", self.cogging_torque, 0.0, 1e8, "N m")
        if self.closure > LEAST_CLOSED:
            raise InputError(
                f"The generator table does not close: shaft power differs from electrical power and loss by "
                f"{100.0 * self.closure:.0f} % of the largest shaft power. Check units, and that loss is in W."
            )

    @cached_property
    def closure(self) -> float:
        """Largest |shaft power - electrical power - loss| over the largest shaft power [-]."""
        shaft = self.torque * self.speed[:, None]
        missing = shaft - self.voltage * self.current[None, :] - self.loss
        return float(np.max(np.abs(missing)) / np.max(shaft))

    @cached_property
    def _surfaces(self) -> tuple[Surface, Surface, Surface]:
        torque, voltage, loss = (Surface(self.speed, self.current, z) for z in (self.torque, self.voltage, self.loss))
        return torque, voltage, loss

    def idle_torque(self, speed: Floats) -> Floats:
        """Torque without current [N m]; that of the slowest or fastest row beyond the rows."""
        at = np.clip(speed, self.speed[0], self.speed[-1])
        return self._surfaces[0].at(at, np.zeros_like(at))

    def output(self, torque: Floats, speed: Floats) -> GeneratorOutput:
        """As `Generator.output`."""
        torque, speed = np.broadcast_arrays(torque, speed)
        wanted, volts, lost = self._surfaces
        inside = (speed >= self.speed[0]) & (speed <= self.speed[-1])
        at = np.clip(speed, self.speed[0], self.speed[-1])
        top = np.full(at.shape, self.current[-1])
        idle = torque <= self.idle_torque(at)
        current = self._falling(lambda i: torque - wanted.at(at, i), at)
        answered = inside & (idle | (torque <= wanted.at(at, top) * (1.0 + 1e-12)))
        current = np.where(idle, 0.0, current)
        electrical = volts.at(at, current) * current
        answered = answered & (electrical >= 0.0)
        loss = np.where(idle, torque * speed, lost.at(at, current))
        return GeneratorOutput(np.where(answered, electrical, 0.0), np.where(answered, loss, 0.0), answered)

    def at_voltage(self, speed: Floats, voltage: float, series_resistance: float) -> LinePoints:
        """As `LineGenerator.at_voltage`; slower than the table there is no current while its slowest row has none."""
        wanted, volts, lost = self._surfaces
        at = np.clip(speed, self.speed[0], self.speed[-1])
        none, top = np.zeros_like(at), np.full(at.shape, self.current[-1])
        open_voltage = volts.at(at, none)
        idle = open_voltage <= voltage
        current = self._falling(lambda i: volts.at(at, i) - series_resistance * i - voltage, at)
        current = np.where(idle, 0.0, current)
        too_much = volts.at(at, top) - series_resistance * top > voltage
        inside = (speed <= self.speed[-1]) & ((speed >= self.speed[0]) | idle)
        loss = np.where(idle, wanted.at(at, none) * speed, lost.at(at, current))
        return LinePoints(speed, current, volts.at(at, current), wanted.at(at, current), loss, inside & ~too_much)

    def open_voltage(self, speed: Floats) -> Floats:
        """As `LineGenerator.open_voltage`; in proportion to speed beyond the table's fastest row."""
        at = np.clip(speed, self.speed[0], self.speed[-1])
        found: Floats = self._surfaces[1].at(at, np.zeros_like(at)) * np.maximum(speed / self.speed[-1], 1.0)
        return found

    def _falling(self, excess: Callable[[Floats], Floats], at: Floats) -> Floats:
        """Currents where a falling `excess` passes 0; an end of the table where it does not.

        Regula falsi in its Illinois form, held in the bracket of the whole table.
        """
        low, high = np.zeros(at.shape), np.full(at.shape, self.current[-1])
        above, below = excess(low), excess(high)
        scale = float(np.max(np.abs(above) + np.abs(below), initial=0.0))
        found = np.where(above <= 0.0, low, high)
        open_ = (above > 0.0) & (below < 0.0)
        side = np.zeros(at.shape)
        for _ in range(_STEPS):
            if not open_.any():
                break
            fall = np.where(open_, above - below, 1.0)
            middle = np.where(open_, low + (high - low) * above / fall, found)
            value = excess(middle)
            found = np.where(open_, middle, found)
            right = value > 0.0
            below = np.where(right, np.where(side > 0.0, 0.5 * below, below), value)
            above = np.where(right, value, np.where(side < 0.0, 0.5 * above, above))
            low, high = np.where(right, middle, low), np.where(right, high, middle)
            side = np.where(right, 1.0, -1.0)
            open_ = open_ & (np.abs(value) > 1e-13 * scale) & (high - low > 1e-14 * self.current[-1])
        return found
