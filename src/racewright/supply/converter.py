"""What a converter, gear or generator loses at part load: a quadratic of its output."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.supply.door import not_negative, positive, power_row

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Converter:
    """Loss over rated power = idle + linear x + square x^2, x = output over rated power.

    Attributes
    ----------
    rated_power : float
        Output that is not passed, > 0 [W].
    idle, linear, square : float
        >= 0, over rated power [-].
    """

    rated_power: float
    idle: float
    linear: float
    square: float

    def __post_init__(self) -> None:
        positive("rated power of the converter", self.rated_power, "W", 5000.0)
        for name, value in (("idle", self.idle), ("linear", self.linear), ("square", self.square)):
            if not_negative(f"{name} loss of the converter", value, "of rated", 0.01) > 1.0:
                raise InputError(f"{name} loss of the converter is {value:g} of its rated power; wanted 1 at most")

    def efficiency(self, load_fraction: ArrayLike) -> Floats:
        """Output over input at load fractions of 0 to 1; greatest at sqrt(idle / square) [-]."""
        x = np.asarray(load_fraction, dtype=np.float64)
        if not (np.isfinite(x) & (x >= 0.0) & (x <= 1.0)).all():
            raise InputError("load fractions must lie between 0 and 1")
        into = x + self.idle + self.linear * x + self.square * x * x
        return np.divide(x, into, out=np.zeros_like(x), where=into > 0.0)

    def output(self, power: ArrayLike) -> Floats:
        """What comes out of powers put in [W], shape (n,).

        Nothing while the input does not cover the idle loss; no more than rated power: what is put in beyond that
        is not taken.
        """
        given = power_row("power into the converter", power, None) / self.rated_power
        above = np.maximum(given - self.idle, 0.0)
        slope = 1.0 + self.linear
        x = 2.0 * above / (slope + np.sqrt(slope * slope + 4.0 * self.square * above))
        found: Floats = self.rated_power * np.minimum(x, 1.0)
        return found
