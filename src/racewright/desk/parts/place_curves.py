"""Curves of a place for the screen: few enough points to draw, with every extreme kept."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.place.lateral import local_ratio
from racewright.place.profile import speed_at
from racewright.place.reach import Reach, flow_at
from racewright.place.result import DurationCurve, Series, Standing

Floats = NDArray[np.float64]

STRETCHES = 600
"""Stretches of time that a record is drawn in."""
POINTS = 300
"""Points that a duration curve is drawn with."""


@dataclass(frozen=True)
class RecordStretches:
    """A record in even stretches of time.

    Attributes
    ----------
    start : ndarray of int64, shape (n,)
        Seconds since 1970-01-01 UTC [s].
    least, mean, most : ndarray, shape (n,)
        Of the values in each stretch [m3/s or m/s, as `kind` says].
    kind : str
        'discharge' or 'speed'.
    """

    start: NDArray[np.int64]
    least: Floats
    mean: Floats
    most: Floats
    kind: str


@dataclass(frozen=True)
class DrawnCurve:
    """A duration curve: value reached or passed for a share of the year [-]."""

    share: Floats
    value: Floats
    kind: str


@dataclass(frozen=True)
class DepthYear:
    """Depth at the machine by month of the year [m].

    Attributes
    ----------
    month : ndarray of int64, shape (m,)
        1 to 12; months without values are left out [-].
    low, median, high : ndarray, shape (m,)
        Depth that is passed 95, 50 and 5 % of the month's time [m].
    """

    month: NDArray[np.int64]
    low: Floats
    median: Floats
    high: Floats


@dataclass(frozen=True)
class SpeedProfile:
    """Speed over height at the machine's place, at one standing.

    Attributes
    ----------
    label : str
        Of the standing.
    height : ndarray, shape (n,)
        Above the bed [m].
    speed : ndarray, shape (n,)
        [m/s]
    """

    label: str
    height: Floats
    speed: Floats


UNITS = {
    "RecordStretches": {"start": "s", "least": "-", "mean": "-", "most": "-"},
    "DrawnCurve": {"share": "-", "value": "-"},
    "DepthYear": {"month": "-", "low": "m", "median": "m", "high": "m"},
    "SpeedProfile": {"height": "m", "speed": "m/s"},
}


def stretches(series: Series, most: int = STRETCHES) -> RecordStretches:
    """A record of any length in at most so many stretches."""
    time, value = series.time, series.value
    edges = np.linspace(time[0], time[-1] + 1, min(most, time.size) + 1)
    first = np.unique(np.searchsorted(time, edges[:-1]))
    count = np.diff(np.append(first, time.size))
    return RecordStretches(
        time[first],
        np.minimum.reduceat(value, first),
        np.add.reduceat(value, first) / count,
        np.maximum.reduceat(value, first),
        series.kind,
    )


def drawn(curve: DurationCurve, kind: str, most: int = POINTS) -> DrawnCurve:
    """A duration curve with both ends kept."""
    pick = np.unique(np.linspace(0, curve.value.size - 1, min(most, curve.value.size)).astype(np.int64))
    return DrawnCurve(curve.exceedance[pick], curve.value[pick], kind)


def depth_year(series: Series, reach: Reach) -> DepthYear:
    """Depth at the machine through the year, from a record of discharge."""
    depth = flow_at(reach, series.value).depth
    month = (series.time.astype("datetime64[s]").astype("datetime64[M]").astype(np.int64) % 12) + 1
    there = np.unique(month)
    low, median, high = (np.array([np.quantile(depth[month == m], q) for m in there]) for q in (0.05, 0.5, 0.95))
    return DepthYear(there, low, median, high)


def profiles(reach: Reach, standings: tuple[Standing, ...]) -> tuple[SpeedProfile, ...]:
    """Speed over height at each standing with water in it."""
    found = []
    for standing in standings:
        if standing.depth <= 0.0:
            continue
        flow = flow_at(reach, np.array([standing.discharge]))
        ratio = reach.speed_factor
        if ratio is None:
            ratio = float(local_ratio(reach.transect, reach.placement.position, flow.level)[0])
        height = np.linspace(0.0, standing.depth, 41)
        mean = float(flow.mean_speed[0]) * ratio
        found.append(SpeedProfile(standing.label, height, speed_at(mean, standing.depth, height, reach.profile_n)))
    return tuple(found)
