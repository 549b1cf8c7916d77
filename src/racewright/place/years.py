"""The speed climate by year and by month, in UTC."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.result import Calendar, Floats

Whole = NDArray[np.int64]

BLOCK = 1 << 19
"""Stamps sorted at a time, so that the steps between take little memory."""


def calendar_of(time: Whole, speed: Floats, weight: Floats, edge: Floats, start_month: int = 1) -> Calendar:
    """Split weighted speeds by year and by month.

    Parameters
    ----------
    time : ndarray of int64, shape (n,)
        Seconds since 1970-01-01 UTC, growing.
    speed : ndarray, shape (n,)
        Counted speed at each stamp, within the edges [m/s].
    weight : ndarray, shape (n,)
        Time each stamp stands for, > 0 [s].
    edge : ndarray, shape (b+1,)
        Growing bin edges [m/s].
    start_month : int
        First month of the year, 1 to 12; a year that does not start in January is named by the one in which
        it ends.

    Raises
    ------
    InputError
        A start month outside 1 to 12, speeds outside the edges.
    """
    if start_month not in range(1, 13):
        raise InputError(f"the year's first month is {start_month!r}; wanted 1 (January) to 12")
    if speed.min() < edge[0] or speed.max() > edge[-1]:
        raise InputError(f"a speed lies outside the bins, {edge[0]:g} to {edge[-1]:g} m/s")
    bins = edge.size - 1
    first = int(_year_of(time[:1], start_month)[0])
    count = int(_year_of(time[-1:], start_month)[0]) - first + 1
    by_year, by_month = np.zeros(count * bins), np.zeros(12 * bins)
    for start in range(0, time.size, BLOCK):
        part = slice(start, start + BLOCK)
        here = np.minimum(np.searchsorted(edge, speed[part], side="right") - 1, bins - 1)
        year = _year_of(time[part], start_month) - first
        by_year += np.bincount(year * bins + here, weights=weight[part], minlength=by_year.size)
        month = month_of(time[part]) - 1
        by_month += np.bincount(month * bins + here, weights=weight[part], minlength=by_month.size)
    years, months = by_year.reshape(count, bins), by_month.reshape(12, bins)
    label = first + np.arange(count, dtype=np.int64)
    held = years.sum(axis=1) > 0.0
    length = year_seconds(label, start_month)
    month_time: Floats = months.sum(axis=1)
    return Calendar(
        edge=edge,
        start_month=start_month,
        year=label[held],
        covered=np.minimum(years.sum(axis=1) / length, 1.0)[held],
        year_share=_shares(years[held]),
        month_time=month_time,
        month_share=_shares(months),
    )


def month_of(time: Whole) -> Whole:
    """Month of each stamp in UTC, 1 to 12."""
    month: Whole = time.astype("datetime64[s]").astype("datetime64[M]").astype(np.int64) % 12 + 1
    return month


def year_seconds(label: Whole, start_month: int) -> Floats:
    """Length of each named year [s]."""
    shift = 0 if start_month == 1 else -1
    start = (label - 1970 + shift) * 12 + (start_month - 1)
    days = [m.astype("datetime64[M]").astype("datetime64[D]").astype(np.float64) for m in (start, start + 12)]
    length: Floats = 86400.0 * (days[1] - days[0])
    return length


def _year_of(time: Whole, start_month: int) -> Whole:
    """Name of the year each stamp lies in."""
    months = time.astype("datetime64[s]").astype("datetime64[M]").astype(np.int64)
    shift = 0 if start_month == 1 else 13 - start_month
    year: Whole = (months + shift) // 12 + 1970
    return year


def _shares(time: Floats) -> Floats:
    """Rows over their sums; an empty row stays zero."""
    whole = time.sum(axis=1, keepdims=True)
    return time / np.where(whole > 0.0, whole, 1.0)
