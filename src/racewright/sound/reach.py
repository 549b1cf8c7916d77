"""How far a sound reaches before it falls to a level."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.sound.bands import level_sum
from racewright.sound.propagation import FARTHEST, propagation_loss

Floats = NDArray[np.float64]

_HALVINGS = 60


@dataclass(frozen=True, slots=True)
class Way:
    """A law of spreading, with the absorption of each band.

    Attributes
    ----------
    spreading : str
    water_depth : float or None
        [m]
    absorption : ndarray, shape (n,)
        [dB/m]
    """

    spreading: str
    water_depth: float | None
    absorption: Floats

    def received(self, levels: Floats, distance: Floats) -> Floats:
        """Levels after the way, shape (m, n), of source levels (n,) at distances (m,) [dB]."""
        loss = propagation_loss(self.spreading, distance[:, None], self.absorption, self.water_depth)
        return np.asarray(levels - loss, dtype=np.float64)

    def total(self, levels: Floats, distance: float) -> float:
        """Level of all bands together at a distance [dB]."""
        return float(level_sum(self.received(levels, np.array([distance]))[0]))

    def reach(self, levels: Floats, target: float) -> float:
        """Distance at which all bands together fall to a target level, by halving its logarithm [m].

        1 where they are no louder than it at 1 m; 1e6 where they are louder that far.
        """
        if self.total(levels, 1.0) <= target:
            return 1.0
        if self.total(levels, FARTHEST) >= target:
            return FARTHEST
        low, high = 0.0, math.log(FARTHEST)
        for _ in range(_HALVINGS):
            middle = 0.5 * (low + high)
            low, high = (middle, high) if self.total(levels, math.exp(middle)) > target else (low, middle)
        return math.exp(0.5 * (low + high))
