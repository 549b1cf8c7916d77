"""When the machine is out of the water: ice, floods, maintenance, too little depth or too much speed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.place.result import Floats, OutageShare

_DAYS = (31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


@dataclass(frozen=True)
class Closure:
    """A span of every year with the machine out, in UTC; it may run over the new year.

    Attributes
    ----------
    cause : str
        Such as 'ice'.
    first, last : tuple of int
        Month and day of the first and the last day out, both counted.
    """

    cause: str
    first: tuple[int, int]
    last: tuple[int, int]

    def __post_init__(self) -> None:
        for month, day in (self.first, self.last):
            if month not in range(1, 13) or day not in range(1, _DAYS[month - 1] + 1):
                raise InputError(f"the closure for {self.cause} names day {day} of month {month}; no such day")


def months_closed(cause: str, months: tuple[int, ...]) -> tuple[Closure, ...]:
    """A closure for each whole month, 1 to 12."""
    if len(set(months)) != len(months):
        raise InputError(f"the closure for {cause} names a month twice")
    for month in months:
        if month not in range(1, 13):
            raise InputError(f"the closure for {cause} names month {month!r}; wanted 1 to 12")
    return tuple(Closure(cause, (month, 1), (month, _DAYS[month - 1])) for month in months)


@dataclass(frozen=True)
class Season:
    """When the machine is out.

    Attributes
    ----------
    closures : tuple of Closure
        Every year's spans.
    least_depth : float or None
        Out while the water at the machine is shallower, 0 to 1000 [m].
    least_speed, greatest_speed : float or None
        Out while the cube-mean speed lies below, or above (floods), 0 to 20 [m/s].
    """

    closures: tuple[Closure, ...] = ()
    least_depth: float | None = None
    least_speed: float | None = None
    greatest_speed: float | None = None

    def __post_init__(self) -> None:
        if self.least_depth is not None:
            within("the least depth", self.least_depth, 0.0, 1e3, "m")
        if self.least_speed is not None:
            within("the least speed", self.least_speed, 0.0, 20.0, "m/s")
        if self.greatest_speed is not None:
            within("the greatest speed", self.greatest_speed, self.least_speed or 0.0, 20.0, "m/s")


def outages(
    season: Season, time: NDArray[np.int64], speed: Floats, depth: Floats | None, weight: Floats
) -> tuple[NDArray[np.bool_], tuple[OutageShare, ...]]:
    """Stamps with the machine out, and the share of time by cause.

    Parameters
    ----------
    season : Season
    time : ndarray of int64, shape (n,)
        [s since 1970-01-01 UTC]
    speed, weight : ndarray, shape (n,)
        [m/s]; time each stamp stands for [s].
    depth : ndarray, shape (n,), or None
        At the machine, None where unknown [m].

    Raises
    ------
    InputError
        A least depth where no depth is known.
    """
    if season.least_depth is not None and depth is None:
        raise InputError("a least depth wants the depth over time: a discharge record with rating and transect")
    causes: dict[str, NDArray[np.bool_]] = {}
    if season.closures:
        day = _month_and_day(time)
        for closure in season.closures:
            first, last = (100 * month + d for month, d in (closure.first, closure.last))
            inside = (day >= first) & (day <= last) if first <= last else (day >= first) | (day <= last)
            causes[closure.cause] = causes.get(closure.cause, np.zeros(time.size, dtype=np.bool_)) | inside
    if season.least_depth is not None and depth is not None:
        causes[f"less than {season.least_depth:g} m deep"] = depth < season.least_depth
    if season.least_speed is not None:
        causes[f"slower than {season.least_speed:g} m/s"] = speed < season.least_speed
    if season.greatest_speed is not None:
        causes[f"faster than {season.greatest_speed:g} m/s"] = speed > season.greatest_speed
    out, shares, whole = np.zeros(time.size, dtype=np.bool_), [], float(weight.sum())
    for cause, when in causes.items():
        shares.append(OutageShare(cause, float(weight[when & ~out].sum()) / whole))
        out |= when
    return out, tuple(shares)


def _month_and_day(time: NDArray[np.int64]) -> NDArray[np.int64]:
    """100 x month + day of each stamp in UTC."""
    stamp = time.astype("datetime64[s]")
    month = stamp.astype("datetime64[M]")
    day = (stamp.astype("datetime64[D]") - month.astype("datetime64[D]")).astype(np.int64) + 1
    found: NDArray[np.int64] = 100 * (month.astype(np.int64) % 12 + 1) + day
    return found
