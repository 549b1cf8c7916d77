"""Intervals of equal length in UTC, and what local clocks show in them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta, tzinfo

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError

Whole = NDArray[np.int64]

_DAY = 86400
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_LONGEST = 40_000_000


@dataclass(frozen=True, slots=True)
class TimeGrid:
    """Intervals that follow one another.

    Attributes
    ----------
    start : int
        Start of the first [s since 1970-01-01 UTC].
    interval : int
        Length of each, 1 to 86400 [s].
    count : int
        How many, 1 or more.
    """

    start: int
    interval: int
    count: int

    def __post_init__(self) -> None:
        for name, value in (("start", self.start), ("interval", self.interval), ("count", self.count)):
            if isinstance(value, bool) or not isinstance(value, int):
                raise InputError(f"the {name} of the intervals is {value!r}; wanted a whole number")
        if not 1 <= self.interval <= _DAY:
            raise InputError(f"intervals are {self.interval} s long; wanted 1 to 86400 s, e.g. 3600 s")
        if not 1 <= self.count <= _LONGEST:
            raise InputError(f"{self.count} intervals; wanted 1 to {_LONGEST}, e.g. 8760")

    @property
    def duration(self) -> int:
        """All intervals together [s]."""
        return self.interval * self.count

    def edges(self) -> Whole:
        """Starts of all intervals and the end of the last, shape (count + 1,) [s since 1970-01-01 UTC]."""
        found: Whole = self.start + self.interval * np.arange(self.count + 1, dtype=np.int64)
        return found

    def middles(self) -> Whole:
        """Middle of each interval, rounded down, shape (count,) [s since 1970-01-01 UTC]."""
        found: Whole = self.edges()[:-1] + self.interval // 2
        return found


def year_grid(year: int, interval: int = 3600) -> TimeGrid:
    """The intervals of a calendar year in UTC; a leap year has 8784 hours.

    Parameters
    ----------
    year : int
        1900 to 2200.
    interval : int
        Must divide a day; default one hour, the usual step of an hourly balance [s].

    Raises
    ------
    InputError
        A year or interval outside its range.
    """
    if isinstance(year, bool) or not isinstance(year, int) or not 1900 <= year <= 2200:
        raise InputError(f"the year is {year!r}; wanted a whole number from 1900 to 2200")
    if not 1 <= interval <= _DAY or _DAY % interval:
        raise InputError(f"intervals of {interval!r} s do not divide a day of 86400 s; wanted e.g. 3600 or 900 s")
    start, end = (int((datetime(y, 1, 1, tzinfo=UTC) - _EPOCH).total_seconds()) for y in (year, year + 1))
    return TimeGrid(start, interval, (end - start) // interval)


def local_time(grid: TimeGrid, zone: tzinfo | None) -> Whole:
    """What the village's clocks show at the middle of each interval, shape (count,) [s since 1970-01-01 local].

    Parameters
    ----------
    grid : TimeGrid
    zone : tzinfo or None
        With its clock changes; None: the clocks show UTC.
    """
    middle = grid.middles()
    if zone is None:
        return middle
    return middle + offsets_at(middle, zone)


def offsets_at(utc: Whole, zone: tzinfo) -> Whole:
    """Local less UTC at instants [s since 1970-01-01 UTC], shape as given [s]."""
    found = (seconds((_EPOCH + timedelta(seconds=t)).astimezone(zone).utcoffset(), zone) for t in utc.tolist())
    return np.fromiter(found, dtype=np.int64, count=utc.size)


def seconds(offset: timedelta | None, zone: tzinfo) -> int:
    """An offset in whole seconds.

    Raises
    ------
    InputError
        The zone does not know its offset.
    """
    if offset is None:
        raise InputError(f"the zone {zone!s} does not say how far its clocks are from UTC")
    return int(offset.total_seconds())
