"""What comes out of a converter whose losses are a quadratic of its output."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.supply.door import not_negative, positive, power_row

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Converter:
    """Losses over rated power: fixed + proportional x + quadratic x^2, x = output over rated power.

    The same form as `machine.drive_generator.efficiency_of_losses`, turned round: power in, power out.

    Attributes
    ----------
    rated_power : float
        Output that is not passed, > 0 [W].
    fixed, proportional, quadratic : float
        0 to 1, over rated power [-].
    """

    rated_power: float
    fixed: float
    proportional: float
    quadratic: float

    def __post_init__(self) -> None:
        positive("rated power of the converter", self.rated_power, "W", 5000.0)
        for name in ("fixed", "proportional", "quadratic"):
            loss = not_negative(f"{name} loss of the converter", getattr(self, name), "of rated", 0.01)
            if loss > 1.0:
                raise InputError(f"{name} loss of the converter is {loss:g} of its rated power; wanted 1 at most")

    def output(self, power: ArrayLike) -> Floats:
        """What comes out of powers put in [W], shape (n,).

        Nothing while the input does not cover the fixed loss; no more than rated power: what is put in beyond that
        is not taken.
        """
        given = power_row("power into the converter", power, None) / self.rated_power
        above = np.maximum(given - self.fixed, 0.0)
        slope = 1.0 + self.proportional
        x = 2.0 * above / (slope + np.sqrt(slope * slope + 4.0 * self.quadratic * above))
        found: Floats = self.rated_power * np.minimum(x, 1.0)
        return found
