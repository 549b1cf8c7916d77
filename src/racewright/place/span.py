"""How much time a record covers, and how much of it each stamp stands for."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.result import Floats, Series
from racewright.record_rules import SHORTEST, too_short

DAY = 86400.0
"""[s]"""

YEAR = 365.25 * DAY
"""Mean calendar year of the Julian calendar, for lengths of records [s]."""


@dataclass(frozen=True)
class Span:
    """Time covered by a record.

    Attributes
    ----------
    weight : ndarray, shape (n,)
        Time each stamp stands for [s].
    years : float
        Sum of the weights, gaps left out [yr of 365.25 d].
    missing : float
        Fraction of the time from first to last stamp that no stamp stands for [-].
    """

    weight: Floats
    years: float
    missing: float


def span_of(series: Series) -> Span:
    """Weigh each stamp by the shorter of the intervals before and after it.

    In an even record all stamps weigh the same; at a gap the stamps on both sides keep their usual weight, so
    a gap is never filled from its neighbours; where the interval changes for good, each part keeps its own.
    No stamp stands for more than the record's median interval or one day, whichever is longer, so a lone
    stamp between two gaps stands for neither.

    Raises
    ------
    InputError
        Fewer than 19 values, stamps that do not grow, values that are negative or not finite.
    """
    time, value = series.time, series.value
    if time.shape != value.shape or time.ndim != 1:
        raise InputError(f"the record has {time.size} stamps but {value.size} values")
    if time.size < SHORTEST:
        raise InputError(too_short(time.size))
    if (np.diff(time) <= 0).any():
        raise InputError("the record's stamps must grow from one to the next")
    if not (np.isfinite(value) & (value >= 0.0)).all():
        raise InputError("the record holds a negative value or one that is not finite")
    return weigh(time)


def weigh(time: NDArray[np.int64]) -> Span:
    """As `span_of`, of stamps alone: two or more, strictly growing [s since 1970-01-01 UTC]."""
    step = np.diff(time).astype(np.float64)
    shorter = np.minimum(np.concatenate((step[:1], step)), np.concatenate((step, step[-1:])))
    weight = np.minimum(shorter, max(float(np.median(step)), DAY))
    whole = float(step.sum()) + 0.5 * float(weight[0] + weight[-1])
    total = float(weight.sum())
    return Span(weight=weight, years=total / YEAR, missing=max(0.0, 1.0 - total / whole))
