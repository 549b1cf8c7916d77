"""A village's load: from a daily shape for each season and the yearly energy, or from its meter."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import tzinfo

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.supply.door import SECONDS_PER_YEAR, positive
from racewright.supply.even_series import EvenSeries, onto
from racewright.supply.time_grid import TimeGrid, local_time

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class DayShape:
    """How the load goes over a day in some months.

    Attributes
    ----------
    season : str
        Such as 'winter'.
    months : tuple of int
        1 to 12.
    hours : ndarray, shape (24,)
        Load in each hour of the village's clock from midnight, >= 0, in any unit: only the ratios count, between
        seasons too, so that a winter with twice the numbers has twice the load.
    rest_hours : ndarray, shape (24,), or None
        The same on days of rest; None when they are as other days.
    """

    season: str
    months: tuple[int, ...]
    hours: Floats
    rest_hours: Floats | None = None

    def __post_init__(self) -> None:
        for month in self.months:
            if month not in range(1, 13):
                raise InputError(f"the season {self.season} names month {month!r}; wanted 1 to 12")
        object.__setattr__(self, "hours", self._row(self.hours))
        if self.rest_hours is not None:
            object.__setattr__(self, "rest_hours", self._row(self.rest_hours))

    def _row(self, hours: Floats) -> Floats:
        row = np.array(hours, dtype=np.float64)
        if row.shape != (24,) or not np.isfinite(row).all() or (row < 0.0).any():
            raise InputError(f"the season {self.season} wants 24 finite numbers of 0 or more, one for each hour")
        return row


def load_from_profile(
    shapes: tuple[DayShape, ...],
    yearly_energy: float,
    grid: TimeGrid,
    zone: tzinfo | None = None,
    rest_days: tuple[int, ...] = (),
) -> Floats:
    """Load of each interval of a year [W], shape (count,).

    The mean power is the yearly energy over 8760 h, also in a leap year, which therefore uses one day's more. People
    keep their clock: on the days of clock change an hour of the shape is left out or comes twice.

    Parameters
    ----------
    shapes : tuple of DayShape
        Every month in exactly one.
    yearly_energy : float
        In 8760 h, > 0 [J].
    grid : TimeGrid
        365 or 366 days.
    zone : tzinfo or None
        Of the village's clock, clock changes included; None: UTC.
    rest_days : tuple of int
        Days of the week on which `rest_hours` hold, 0 Monday to 6 Sunday.

    Raises
    ------
    InputError
        A month in no shape or in two, shapes of zeros only, intervals that are no year.
    """
    positive("yearly energy of the village", yearly_energy, "J", 2.5e11)
    if grid.duration not in (365 * 86400, 366 * 86400):
        raise InputError(
            f"the intervals cover {grid.duration / 86400:.6g} days; a profile wants a year of 365 or 366"
        )
    if any(day not in range(7) for day in rest_days):
        raise InputError(f"days of rest are {rest_days!r}; wanted numbers from 0, Monday, to 6, Sunday")
    months = sorted(month for shape in shapes for month in shape.months)
    if months != list(range(1, 13)):
        raise InputError(f"the seasons name the months {months}; wanted each of 1 to 12 exactly once")
    hour, weekday, month = _clock(local_time(grid, zone))
    rest = np.isin(weekday, rest_days)
    relative = np.zeros(grid.count)
    for shape in shapes:
        here = np.isin(month, shape.months)
        resting = shape.hours if shape.rest_hours is None else shape.rest_hours
        relative[here] = np.where(rest, resting[hour], shape.hours[hour])[here]
    mean = float(relative.mean())
    if mean <= 0.0:
        raise InputError("the daily shapes hold zeros only; wanted a load in some hour")
    found: Floats = relative * (yearly_energy / SECONDS_PER_YEAR / mean)
    return found


def load_from_meter(series: EvenSeries, grid: TimeGrid) -> Floats:
    """Load of each interval from a metered series [W], shape (count,).

    Raises
    ------
    InputError
        Intervals for which nothing was recorded: fill the series first, or choose the time that it covers.
    """
    found = onto(series, grid)
    if found.gaps:
        missing = sum(gap.duration for gap in found.gaps) / 3600.0
        raise InputError(
            f"the meter has no value for {missing:.6g} h of the year wanted, in {len(found.gaps)} gap(s); fill them "
            "first, or choose a year that it covers"
        )
    return found.value


def _clock(local: Whole) -> tuple[Whole, Whole, Whole]:
    """Hour of the day, day of the week (0 Monday) and month that local stamps show."""
    day = local // 86400
    month = day.astype("datetime64[D]").astype("datetime64[M]").astype(np.int64) % 12 + 1
    hour: Whole = local % 86400 // 3600
    weekday: Whole = (day + 3) % 7
    return hour, weekday, month
