"""Where the draws of an uncertain result lie."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError


@dataclass(frozen=True, slots=True)
class Quantiles:
    """How a quantity lies over many draws [unit of the quantity].

    Attributes
    ----------
    mean, deviation : float
    p10, p50, p90 : float
        10, 50 and 90 % of the draws lie below them.
    """

    mean: float
    deviation: float
    p10: float
    p50: float
    p90: float


def quantiles(values: ArrayLike) -> Quantiles:
    """Of one or more finite numbers."""
    row = np.asarray(values, dtype=np.float64)
    if row.ndim != 1 or row.size == 0 or not np.isfinite(row).all():
        raise InputError("quantiles want a row of finite numbers, one or more")
    p10, p50, p90 = (float(q) for q in np.quantile(row, (0.1, 0.5, 0.9)))
    return Quantiles(float(row.mean()), float(row.std(ddof=1)) if row.size > 1 else 0.0, p10, p50, p90)
