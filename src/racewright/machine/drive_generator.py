"""The generator seam, and the two plainest generators: a constant efficiency and an efficiency curve."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.drive_checks import Floats, filled, growing, number
from racewright.machine.drive_surface import Surface


@dataclass(frozen=True)
class GeneratorOutput:
    """What a generator gives at a shaft torque and speed, shape (n,) each.

    Attributes
    ----------
    electrical_power, loss : ndarray
        Electrical power and power lost [W]; 0 where not answered.
    answered : ndarray of bool
        False beyond the generator's table, curve or largest current.
    """

    electrical_power: Floats
    loss: Floats
    answered: NDArray[np.bool_]


class Generator(Protocol):
    """What the drive asks of any generator."""

    @property
    def cogging_torque(self) -> float:
        """Largest torque of the magnets against the teeth at standstill, at the generator shaft [N m]."""
        ...

    def output(self, torque: Floats, speed: Floats) -> GeneratorOutput:
        """Electrical power and loss at shaft torques >= 0 [N m] and speeds >= 0 [rad/s] of the generator."""
        ...

    def idle_torque(self, speed: Floats) -> Floats:
        """Torque [N m] to turn it without current at speeds [rad/s]."""
        ...


@dataclass(frozen=True)
class ConstantGenerator:
    """A generator of one efficiency at every load and speed.

    Attributes
    ----------
    efficiency : float
        Electrical over shaft power, 0.05 to 1 [-].
    cogging_torque : float
        At the generator shaft, >= 0 [N m].
    """

    efficiency: float
    cogging_torque: float = 0.0

    def __post_init__(self) -> None:
        number("The generator's efficiency", self.efficiency, 0.05, 1.0)
        number("The cogging torque", self.cogging_torque, 0.0, 1e8, "N m")

    def output(self, torque: Floats, speed: Floats) -> GeneratorOutput:
        """As `Generator.output`."""
        power = torque * speed
        return GeneratorOutput(self.efficiency * power, (1.0 - self.efficiency) * power, np.ones(power.shape, bool))

    def idle_torque(self, speed: Floats) -> Floats:
        """No torque: all its loss goes with the load."""
        return np.zeros_like(speed)


@dataclass(frozen=True)
class EfficiencyCurve:
    """A generator known by its efficiency over load, or over speed and load.

    Below the least load the power lost stays what it is there, so that light loads are not flattered. Above the
    largest load, or outside the speeds where they are given, it does not answer.

    Attributes
    ----------
    load : ndarray, shape (m,)
        Shaft power over rated shaft power, growing, > 0 [-].
    efficiency : ndarray, shape (m,) or (n, m)
        Electrical over shaft power, above 0 to 1 [-]; a row for each speed when speeds are given.
    rated_shaft_power : float
        Shaft power at load 1, > 0 [W].
    speed : ndarray, shape (n,), or empty
        Generator speeds, growing; empty: the curve holds at every speed [rad/s].
    cogging_torque : float
        At the generator shaft, >= 0 [N m].
    """

    load: Floats
    efficiency: Floats
    rated_shaft_power: float
    speed: Floats = field(default_factory=lambda: np.zeros(0))
    cogging_torque: float = 0.0

    def __post_init__(self) -> None:
        load = growing("The efficiency curve's load", self.load)
        number("The efficiency curve's least load", float(load[0]), 1e-6, 10.0)
        shape: tuple[int, ...] = (load.size,)
        if self.speed.size:
            shape = (growing("The efficiency curve's speed", self.speed).size, load.size)
        values = filled("The generator's efficiency", self.efficiency, shape)
        if np.any(values <= 0.0) or np.any(values > 1.0):
            raise InputError("The generator's efficiency must lie above 0 and not above 1 everywhere.")
        number("The generator's rated shaft power", self.rated_shaft_power, 1e-3, 1e9, "W")
        number("The cogging torque", self.cogging_torque, 0.0, 1e8, "N m")

    @cached_property
    def _surface(self) -> Surface:
        if self.speed.size:
            return Surface(self.speed, self.load, self.efficiency)
        return Surface(np.array([0.0, 1.0]), self.load, np.stack([self.efficiency, self.efficiency]))

    def output(self, torque: Floats, speed: Floats) -> GeneratorOutput:
        """As `Generator.output`."""
        power = torque * speed
        load = power / self.rated_shaft_power
        at = speed if self.speed.size else np.zeros_like(speed)
        least = float(self.load[0])
        efficiency = self._surface.at(at, np.maximum(load, least))
        answered = np.isfinite(efficiency)
        efficiency = np.where(answered, efficiency, 0.0)
        lost = (1.0 - efficiency) * np.where(load < least, least * self.rated_shaft_power, power)
        lost = np.where(answered, np.minimum(lost, power), 0.0)
        return GeneratorOutput(np.where(answered, power - lost, 0.0), lost, answered)

    def idle_torque(self, speed: Floats) -> Floats:
        """Torque of the loss at the least load [N m], held below the slowest speed; 0 when no speeds are given,
        for a curve over load alone does not tell it."""
        if not self.speed.size:
            return np.zeros_like(speed)
        least = float(self.load[0])
        at = np.clip(speed, self.speed[0], self.speed[-1])
        lost = (1.0 - self._surface.at(at, np.full(speed.shape, least))) * least * self.rated_shaft_power
        return np.where(at > 0.0, lost / np.where(at > 0.0, at, 1.0), 0.0)


def efficiency_of_losses(load: Floats, fixed: float, proportional: float, quadratic: float) -> Floats:
    """Efficiency at a load x (output over rated output): x / (x + l0 + l1 x + l2 x^2).

    Highest at x = sqrt(l0/l2). Common form for generators and gears, e.g. in electrical-machine textbooks.

    Parameters
    ----------
    load : ndarray
        > 0 [-].
    fixed, proportional, quadratic : float
        Losses at full load over rated output, >= 0: no-load, friction-like, copper [-].
    """
    for name, value in (("fixed", fixed), ("proportional", proportional), ("quadratic", quadratic)):
        number(f"The {name} loss", value, 0.0, 10.0)
    x = growing("The load", load, least=1)
    number("The least load", float(x[0]), 1e-9, 1e3)
    found: Floats = x / (x + fixed + proportional * x + quadratic * x**2)
    return found
