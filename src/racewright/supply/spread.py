"""Spread of yearly energies: P50, P90, and how well the long-term mean is known."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import stdtr, stdtrit

from racewright.errors import InputError

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Spread:
    """Statistics of one quantity over years, each year one draw from a normal distribution.

    Attributes
    ----------
    years : int
        Number of values, 2 or more.
    mean : float
        [unit of the values]
    deviation : float
        Standard deviation with n - 1 [unit of the values].
    relative : float
        Deviation over mean; 0 for a mean of 0 [-].
    lag_one : float
        Correlation of each year with the next [-].
    effective_years : float
        Years that count as independent, n (1 - r) / (1 + r) when the lag-one correlation r is above 1.645 /
        sqrt(n), else n; at least 2 [-].
    standard_error : float
        Of the long-term mean: deviation / sqrt(effective years) [unit of the values].
    p50 : float
        The mean: passed in half of all years [unit of the values].
    p90_year : float
        Passed in nine years of ten: mean - t deviation sqrt(1 + 1 / effective years), not below 0 [unit of the
        values].
    p90_mean : float
        Passed by the long-term mean with 90 % confidence: mean - t standard error, not below 0 [unit of the
        values].
    trend : float
        Slope of a straight line over the years, over the mean [1/yr].
    trend_chance : float
        Two-sided chance of a slope that steep or steeper without a trend; 1 with fewer than 3 years [-].
    """

    years: int
    mean: float
    deviation: float
    relative: float
    lag_one: float
    effective_years: float
    standard_error: float
    p50: float
    p90_year: float
    p90_mean: float
    trend: float
    trend_chance: float


def spread(year: ArrayLike, value: ArrayLike) -> Spread:
    """Spread of yearly values; t is the 90 % quantile of Student's distribution with (effective years - 1).

    With many years t tends to the normal 1.2816; with few it is larger (3.078 with two years).

    Parameters
    ----------
    year : array_like, shape (n,)
        Growing years.
    value : array_like, shape (n,)
        One value per year, n >= 2, >= 0.

    Raises
    ------
    InputError
        Fewer than two, unequal lengths, NaN, infinity, negative values, years that do not grow.
    """
    when, v = np.asarray(year, dtype=np.float64), np.asarray(value, dtype=np.float64)
    if v.ndim != 1 or when.shape != v.shape or v.size < 2:
        raise InputError(f"a spread wants two or more years with one value each; there are {when.size} and {v.size}")
    if not np.isfinite(v).all() or (v < 0.0).any() or not np.isfinite(when).all() or (np.diff(when) <= 0.0).any():
        raise InputError("yearly values must be finite and 0 or more, and their years growing")
    n, mean, deviation = v.size, float(v.mean()), float(v.std(ddof=1))
    lag = _lag_one(when, v)
    effective = float(n) if lag <= 1.645 / math.sqrt(n) else max(2.0, n * (1.0 - lag) / (1.0 + lag))
    t = float(stdtrit(effective - 1.0, 0.9))
    error = deviation / math.sqrt(effective)
    slope, chance = _trend(when, v)
    return Spread(
        years=n,
        mean=mean,
        deviation=deviation,
        relative=deviation / mean if mean > 0.0 else 0.0,
        lag_one=lag,
        effective_years=effective,
        standard_error=error,
        p50=mean,
        p90_year=max(0.0, mean - t * deviation * math.sqrt(1.0 + 1.0 / effective)),
        p90_mean=max(0.0, mean - t * error),
        trend=slope / mean if mean > 0.0 else 0.0,
        trend_chance=chance,
    )


def _lag_one(year: Floats, value: Floats) -> float:
    """Correlation of neighbours one year apart, sum of n - 1 products over n variances; 0 with fewer than 3 pairs."""
    follows = np.diff(year) == 1.0
    away = value - value.mean()
    variance = float(away @ away) / value.size
    if np.count_nonzero(follows) < 3 or variance == 0.0:
        return 0.0
    return float(np.mean((away[:-1] * away[1:])[follows])) / variance * (1.0 - 1.0 / value.size)


def _trend(year: Floats, value: Floats) -> tuple[float, float]:
    """Least-squares slope per year and its two-sided chance by Student's t."""
    if value.size < 3:
        return 0.0, 1.0
    x = year - year.mean()
    slope = float(x @ value) / float(x @ x)
    residual = value - value.mean() - slope * x
    error = math.sqrt(float(residual @ residual) / (value.size - 2) / float(x @ x))
    if error == 0.0:
        return slope, 0.0 if slope else 1.0
    return slope, float(2.0 * stdtr(value.size - 2, -abs(slope) / error))
