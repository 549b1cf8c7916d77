"""The mean of some years by resampling whole years: a check on the formula, with a seed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError


@dataclass(frozen=True)
class Resampled:
    """Means of years drawn with replacement.

    Attributes
    ----------
    p90, p50, p10 : float
        Passed by 90, 50 and 10 % of the resampled means [unit of the values].
    standard_error : float
        Standard deviation of the resampled means; tends to deviation sqrt((n - 1) / n) / sqrt(n), so below the
        formula's with few years [unit of the values].
    draws, seed : int
    """

    p90: float
    p50: float
    p10: float
    standard_error: float
    draws: int
    seed: int


def resampled_mean(value: ArrayLike, seed: int, draws: int = 4000) -> Resampled:
    """Draw as many years as there are, with replacement, and take their mean, again and again.

    Parameters
    ----------
    value : array_like, shape (n,)
        One value per year, n >= 2.
    seed : int
        0 or more; the same seed gives the same answer.
    draws : int
        100 to 100000, default 4000: standard error within about 1 %.

    Raises
    ------
    InputError
        Fewer than two values, NaN, infinity, a negative seed, draws outside their range.
    """
    v = np.asarray(value, dtype=np.float64)
    if v.ndim != 1 or v.size < 2 or not np.isfinite(v).all():
        raise InputError("resampling wants two or more finite yearly values")
    if seed < 0 or not 100 <= draws <= 100_000:
        raise InputError(f"seed {seed} and {draws} draws; wanted a seed of 0 or more and 100 to 100000 draws")
    chance = np.random.default_rng(seed)
    means = np.array([v[chance.integers(0, v.size, v.size)].mean() for _ in range(draws)])
    p90, p50, p10 = (float(q) for q in np.quantile(means, (0.1, 0.5, 0.9)))
    return Resampled(p90, p50, p10, float(means.std(ddof=1)), draws, seed)
