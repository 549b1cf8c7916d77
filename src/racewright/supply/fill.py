"""Fill the gaps of a metered load from its own neighbours, and say how much was filled."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from racewright.errors import InputError, NoAnswerError
from racewright.remark import Remark
from racewright.supply.door import fraction
from racewright.supply.even_series import EvenSeries, Floats, gaps_in

SHORT = 3
"""Gaps of so many intervals or fewer are bridged by a straight line (own choice)."""

DAYS = 14
"""Days before and after a longer gap that may lend their value of the same time of day (own choice)."""


def filled(series: EvenSeries, most_filled: float = 0.25) -> EvenSeries:
    """Fill short gaps by a straight line, longer ones from the same time of the nearest days.

    The nearest recorded days before and after lend the mean of their values; where none of two weeks has one, the
    mean over all days at that time, at last the mean of the record. Filled values are no measurement: a remark says
    how many there are.

    Parameters
    ----------
    series : EvenSeries
        Its interval must divide a day.
    most_filled : float
        A larger part missing is refused, 0 to 1; default one quarter, own choice [-].

    Raises
    ------
    InputError
        An interval that does not divide a day.
    NoAnswerError
        More is missing than may be filled, or everything.
    """
    fraction("the part that may be filled", most_filled, 0.25)
    missing = 1.0 - series.recorded
    if missing == 0.0:
        return series
    if missing > most_filled or missing == 1.0:
        raise NoAnswerError(
            f"{100.0 * missing:.3g} % of the record is missing and at most {100.0 * most_filled:.3g} % may be "
            "filled: give a longer record, or a profile of the load"
        )
    if 86400 % series.grid.interval:
        raise InputError(f"intervals of {series.grid.interval} s do not divide a day; wanted e.g. 3600 or 900 s")
    value = _bridged(series)
    value = _from_days(value, 86400 // series.grid.interval)
    told = f"{100.0 * missing:.2g} % of the record is missing and was filled from hours and days about it."
    return replace(series, value=value, remarks=(*series.remarks, Remark("caution", told, "filled")))


def _bridged(series: EvenSeries) -> Floats:
    value, grid = series.value.copy(), series.grid
    for gap in gaps_in(grid, value):
        first = (gap.start - grid.start) // grid.interval
        last = first + gap.duration // grid.interval
        if last - first <= SHORT and first > 0 and last < grid.count:
            value[first:last] = np.linspace(value[first - 1], value[last], last - first + 2)[1:-1]
    return value


def _from_days(value: Floats, per_day: int) -> Floats:
    known = np.isfinite(value)
    found = value.copy()
    open_places = np.flatnonzero(~known)
    for day in range(1, DAYS + 1):
        if open_places.size == 0:
            return found
        total, count = np.zeros(open_places.size), np.zeros(open_places.size)
        for step in (-day * per_day, day * per_day):
            there = open_places + step
            inside = (there >= 0) & (there < value.size)
            lent = np.where(inside, value[np.clip(there, 0, value.size - 1)], np.nan)
            total += np.where(np.isfinite(lent), lent, 0.0)
            count += np.isfinite(lent)
        got = count > 0.0
        found[open_places[got]] = total[got] / count[got]
        open_places = open_places[~got]
    clock = np.arange(value.size) % per_day
    at_time = np.bincount(clock[known], weights=value[known], minlength=per_day)
    days = np.bincount(clock[known], minlength=per_day)
    mean = np.full(per_day, float(value[known].mean()))
    np.divide(at_time, days, out=mean, where=days > 0)
    found[open_places] = mean[clock[open_places]]
    return found
