"""A machine's power curve with the limits it runs between, and its mean power in a climate."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.supply.curve import Pieces, cut, sampled
from racewright.supply.door import fraction, not_negative, positive

Floats = NDArray[np.float64]

_SUM_TOLERANCE = 1e-6


@dataclass(frozen=True)
class PowerTable:
    """Electrical power against stream speed.

    Attributes
    ----------
    speed : ndarray, shape (n,)
        Growing stream speeds, n >= 2 [m/s].
    power : ndarray, shape (n,)
        Electrical power, >= 0; linear between, 0 below cut-in and outside the speeds [W].
    cut_in_speed : float
        >= 0 [m/s].
    rated_power : float
        > 0 [W].
    availability : float
        Share of time able to run, evenly over all speeds; 0 to 1, default 1 [-].
    """

    speed: Floats
    power: Floats
    cut_in_speed: float
    rated_power: float
    availability: float = 1.0

    def __post_init__(self) -> None:
        speed = np.array(self.speed, dtype=np.float64)
        if speed.ndim != 1 or speed.size < 2 or not np.isfinite(speed).all() or (np.diff(speed) <= 0.0).any():
            raise InputError("speeds of the power curve must be finite and growing, two or more of them")
        object.__setattr__(self, "speed", speed)
        object.__setattr__(self, "power", sampled("power", self.power, speed.size).copy())
        not_negative("cut-in speed", self.cut_in_speed, "m/s", 0.7)
        positive("rated power", self.rated_power, "W", 5000.0)
        fraction("availability", self.availability, 0.95)

    def over(self, edge: Floats, share: Floats) -> Pieces:
        """The climate cut at this curve's speeds, after its door.

        Raises
        ------
        InputError
            Edges or shares of the climate that break the rules of `yearly_energy`.
        """
        return cut(*climate(edge, share), self.speed, self.cut_in_speed)

    def mean_power(self, edge: Floats, share: Floats) -> float:
        """Mean power in a climate, after availability [W]."""
        return self.availability * float(np.sum(self.over(edge, share).integral(self.speed, self.power)))


def climate(edges: Floats, shares: Floats) -> tuple[Floats, Floats]:
    """Edges and shares as arrays, or InputError: growing edges from 0 up, shares that sum to 1 within 1e-6."""
    edge, share = np.asarray(edges, dtype=np.float64), np.asarray(shares, dtype=np.float64)
    if edge.ndim != 1 or share.ndim != 1 or edge.size != share.size + 1 or share.size == 0:
        raise InputError(
            f"the climate has {edge.size} edges and {share.size} shares; wanted one edge more than shares"
        )
    if not np.isfinite(edge).all() or edge[0] < 0.0 or (np.diff(edge) <= 0.0).any():
        raise InputError("climate edges must be finite, 0 or more and growing, e.g. 0, 0.25, 0.5 m/s")
    if not np.isfinite(share).all() or (share < 0.0).any() or abs(float(share.sum()) - 1.0) > _SUM_TOLERANCE:
        raise InputError(f"climate shares sum to {float(share.sum())!r}; wanted 0 or more each and 1 in all")
    return edge, share
