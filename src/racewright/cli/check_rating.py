"""The rating of a place, stated or as its gaugings give it, for `racewright check`. Loads no numerical library."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

_NEAREST, _FARTHEST, _TRIED = 1e-4, 1e2, 121
"""Search for the zero level, below the lowest gauging by these parts of the gauged range, as the fit does [-]."""


@dataclass(frozen=True)
class Curve:
    """Discharge = coefficient x (level - zero_level)^exponent, in m3/s and m."""

    coefficient: float
    zero_level: float
    exponent: float

    def level(self, discharge: float) -> float:
        """[m]"""
        return self.zero_level + float((discharge / self.coefficient) ** (1.0 / self.exponent))

    def discharge(self, level: float) -> float:
        """Nought at and below the zero level [m3/s]."""
        return float(self.coefficient * max(level - self.zero_level, 0.0) ** self.exponent)


def curve_of(place: Any, gaugings: tuple[Sequence[float], Sequence[float]]) -> Curve | None:
    """The rating that is stated, or least squares on ln(discharge); None where there is none or none fits.

    Parameters
    ----------
    place : PlaceTable
    gaugings : tuple of two sequences of float
        Levels, above the zero level where that is stated, and discharges above 0 [m], [m3/s].
    """
    if place.rating is not None:
        return Curve(place.rating.coefficient, place.rating.zero_level, place.rating.exponent)
    if place.gaugings is None:
        return None
    level, y = gaugings[0], [math.log(q) for q in gaugings[1]]
    zero = place.gaugings.zero_level
    if zero is None:
        zero = _zero_level(level, y)
    if zero is None:
        return None
    intercept, slope, _residual = _line(level, y, zero)
    return Curve(math.exp(intercept), zero, slope) if slope > 0.0 else None


def _line(level: Sequence[float], y: Sequence[float], zero: float) -> tuple[float, float, list[float]]:
    """Intercept, slope and residuals of ln discharge on ln head."""
    x = [math.log(h - zero) for h in level]
    x_mean, y_mean = math.fsum(x) / len(x), math.fsum(y) / len(y)
    square = math.fsum((a - x_mean) ** 2 for a in x)
    slope = math.fsum((a - x_mean) * (b - y_mean) for a, b in zip(x, y, strict=True)) / square
    intercept = y_mean - slope * x_mean
    return intercept, slope, [b - intercept - slope * a for a, b in zip(x, y, strict=True)]


def _zero_level(level: Sequence[float], y: Sequence[float]) -> float | None:
    """The zero level with the least sum of squares below the lowest gauging; None where it lies at an end."""
    lowest, reach = min(level), max(level) - min(level)
    step = math.log(_FARTHEST / _NEAREST) / (_TRIED - 1)
    below = [lowest - reach * _NEAREST * math.exp(step * k) for k in range(_TRIED)]
    squares = [math.fsum(r * r for r in _line(level, y, zero)[2]) for zero in below]
    best = squares.index(min(squares))
    if best in (0, _TRIED - 1):
        return None

    def slope(zero: float) -> float:
        return math.fsum(r / (h - zero) for r, h in zip(_line(level, y, zero)[2], level, strict=True))

    low, high = below[best + 1], below[best - 1]
    rising = slope(high) > 0.0
    while low < (middle := 0.5 * (low + high)) < high:
        low, high = (low, middle) if (slope(middle) > 0.0) == rising else (middle, high)
    return middle
