"""Where a record has gaps: how many, the longest, and when it began."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.place.result import Floats, Series

WIDER = 1.5
"""An interval that many times the usual one near it is a gap: one missing stamp makes 2."""

_NEAR = 5
"""Intervals among which the usual one is the median: two gaps side by side do not hide each other."""


@dataclass(frozen=True)
class Gaps:
    """Gaps of a record.

    Attributes
    ----------
    count : int
    longest : float
        Time between the stamps on both sides of the longest gap [s]; 0 without gaps.
    since : int or None
        Stamp before the longest gap, the first of several equal [s since 1970-01-01 UTC].
    """

    count: int
    longest: float
    since: int | None


def gaps_of(series: Series) -> Gaps:
    """Intervals longer than 1.5 times the median of the five intervals around them.

    The record may change its interval for good; that is no gap. How much time is missing is told by
    `place.span.span_of`, not here.
    """
    step = np.diff(series.time).astype(np.float64)
    where = _wide(step)
    if where.size == 0:
        return Gaps(0, 0.0, None)
    longest = where[int(np.argmax(step[where]))]
    return Gaps(int(where.size), float(step[longest]), int(series.time[longest]))


def _wide(step: Floats) -> NDArray[np.intp]:
    """Places of the gaps among the intervals."""
    if step.size <= _NEAR:
        return np.flatnonzero(step > WIDER * np.median(step)) if step.size else np.zeros(0, dtype=np.intp)
    smallest = step.copy()
    for k in range(1, _NEAR):
        np.minimum(smallest[k:], step[:-k], out=smallest[k:])
        np.minimum(smallest[:-k], step[k:], out=smallest[:-k])
    likely = np.flatnonzero(step > WIDER * smallest)
    first = np.clip(likely - _NEAR // 2, 0, step.size - _NEAR)
    usual = np.median(step[first[:, None] + np.arange(_NEAR)], axis=1)
    found: NDArray[np.intp] = likely[step[likely] > WIDER * usual]
    return found
