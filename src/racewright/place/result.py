"""What the place gives: a record, a duration curve, a speed climate, depths at the machine."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Series:
    """A record of discharge or speed.

    Attributes
    ----------
    kind : {'discharge', 'speed'}
    time : ndarray of int64, shape (n,)
        Seconds since 1970-01-01 UTC, strictly growing.
    value : ndarray, shape (n,)
        Discharge [m3/s] or speed [m/s], finite, not negative.
    blank : int
        Blank values that were skipped.
    repeated : int
        Rows left out because the same stamp and value stood there already.
    backward : int
        Rows whose stamp was earlier than the one above; they were sorted.
    """

    kind: Literal["discharge", "speed"]
    time: NDArray[np.int64]
    value: Floats
    blank: int = 0
    repeated: int = 0
    backward: int = 0


@dataclass(frozen=True)
class DurationCurve:
    """Values in falling order with the fraction of time each is reached or passed, m/(N+1)."""

    value: Floats
    exceedance: Floats


@dataclass(frozen=True)
class SpeedClimate:
    """Share of the year by speed.

    Attributes
    ----------
    edge : ndarray, shape (b+1,)
        Bin edges of the cube-mean speed over the capture area, zero while the machine is aground or out of
        the water [m/s].
    share : ndarray, shape (b,)
        Fraction of time in each bin, sums to 1 [-].
    mean_speed, mean_cube_speed : float
        Mean, and cube root of the mean cube, over time [m/s].
    """

    edge: Floats
    share: Floats
    mean_speed: float
    mean_cube_speed: float


@dataclass(frozen=True)
class Calendar:
    """The speed climate split by year and by month, on one row of bins; all times UTC.

    Attributes
    ----------
    edge : ndarray, shape (b+1,)
        Bin edges of the cube-mean speed over the capture area [m/s].
    start_month : int
        1 for calendar years; 10 for water years from October, named by the year in which they end.
    year : ndarray of int64, shape (n,)
    covered : ndarray, shape (n,)
        Part of each year that the record's values stand for [-].
    year_share : ndarray, shape (n, b)
        Fraction of the covered time in each bin, rows sum to 1 [-].
    month_time : ndarray, shape (12,)
        Time that the record's values stand for in January to December, all years together [s].
    month_share : ndarray, shape (12, b)
        Fraction of that time in each bin; a month without values has zeros [-].
    """

    edge: Floats
    start_month: int
    year: NDArray[np.int64]
    covered: Floats
    year_share: Floats
    month_time: Floats
    month_share: Floats


@dataclass(frozen=True)
class OutageShare:
    """Recorded time that a cause keeps the machine out.

    Attributes
    ----------
    cause : str
    share : float
        Fraction of the recorded time; a time with several causes goes to the first, so that shares add up [-].
    """

    cause: str
    share: float


@dataclass(frozen=True)
class Standing:
    """Depths at the machine at one discharge.

    Attributes
    ----------
    label : str
        'low water (Q95)', 'median', 'high water (Q5)', 'fastest water', 'lowest water'.
    discharge, level, depth : float
        [m3/s], water level above the transect's datum [m], depth at the machine's place [m].
    cover, clearance : float
        Water above the duct's top, and between the duct's lowest point and the bed; negative = out of the
        water, or aground [m].
    speed : float
        Cube-mean speed over the capture area [m/s].
    """

    label: str
    discharge: float
    level: float
    depth: float
    cover: float
    clearance: float
    speed: float


@dataclass(frozen=True)
class Site:
    """The place as the machine sees it.

    Attributes
    ----------
    values : int
        Values in the record (0 when only a speed histogram was given).
    discharge_curve, speed_curve : DurationCurve or None
        Duration curves of discharge [m3/s] and of cube-mean speed at the machine [m/s]; of a long record, every
        so many ranks with both ends kept.
    climate : SpeedClimate
    standings : tuple of Standing
        At Q95, Q50, Q5 (empty without a rating and transect).
    years : float
        Length of the record [yr].
    remarks : tuple of Remark
        Grounding at low water, short record, cover against drawing air, ...
    calendar : Calendar or None
        `climate` by year and month; None where the place gives no stamps.
    outages : tuple of OutageShare
        Time the season keeps the machine out; `climate` counts no speed then.
    open_climate : SpeedClimate or None
        As `climate` but with the machine in all year; None without a season.
    open_calendar : Calendar or None
        As `calendar` but with the machine in all year; None without a season.
    fastest : Standing or None
        At the fastest value of the record, the machine afloat and in all year; None without a rating and transect.
    lowest : Standing or None
        At the lowest value of the record; None without a rating and transect.
    predicted : bool
        The speeds are those that a tide's constituents predict, not recorded ones.
    """

    values: int
    discharge_curve: DurationCurve | None
    speed_curve: DurationCurve | None
    climate: SpeedClimate
    standings: tuple[Standing, ...]
    years: float
    remarks: tuple[Remark, ...]
    calendar: Calendar | None = None
    outages: tuple[OutageShare, ...] = ()
    open_climate: SpeedClimate | None = None
    open_calendar: Calendar | None = None
    fastest: Standing | None = None
    lowest: Standing | None = None
    predicted: bool = False
