"""Springs and neaps, and the windows of slack between flood and ebb."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from racewright.errors import InputError
from racewright.place.result import Floats
from racewright.place.tide_stream import TidalStream

LUNAR_DAY = 24.0 * 3600.0 * 1.0350501
"""Two M2 periods [s]."""
FORTNIGHT = 14.765294 * 86400.0
"""From springs to springs: 360 degrees over S2 less M2 [s]."""


@dataclass(frozen=True)
class SpringNeap:
    """The strongest and the weakest lunar day of each fortnight, averaged.

    Attributes
    ----------
    spring_peak, neap_peak : float
        Largest speeds of that day's four half tides, their mean [m/s].
    spring_speed, neap_speed : float
        Mean speed of that day [m/s].
    spring_cube_speed, neap_cube_speed : float
        Cube root of the mean cube of that day [m/s].
    fortnights : int
        Averaged over.
    """

    spring_peak: float
    neap_peak: float
    spring_speed: float
    neap_speed: float
    spring_cube_speed: float
    neap_cube_speed: float
    fortnights: int


@dataclass(frozen=True)
class Slack:
    """Windows of slow water.

    Attributes
    ----------
    speed : float
        Below which water is slack [m/s].
    share : float
        Of the time [-].
    daily : float
        Windows a day [1/d].
    mean, short, long : float
        Length of a window: mean, passed by nine in ten, passed by one in ten [s].
    """

    speed: float
    share: float
    daily: float
    mean: float
    short: float
    long: float


def spring_neap(stream: TidalStream) -> SpringNeap:
    """Springs and neaps of even stamps that cover a fortnight or more.

    Raises
    ------
    InputError
        Less than one fortnight.
    """
    step = float(stream.time[1] - stream.time[0])
    size = int(LUNAR_DAY / step)
    days = stream.speed[: stream.speed.size // size * size].reshape(-1, size)
    group = (np.arange(days.shape[0]) * size * step // FORTNIGHT).astype(np.int64)
    whole = int(stream.time.size * step // FORTNIGHT)
    if whole < 1:
        raise InputError("springs and neaps want a prediction of a fortnight or more")
    cube: Floats = (days**3).mean(axis=1)
    strong = [int(np.flatnonzero(group == k)[np.argmax(cube[group == k])]) for k in range(whole)]
    weak = [int(np.flatnonzero(group == k)[np.argmin(cube[group == k])]) for k in range(whole)]
    peak = days[:, : size // 4 * 4].reshape(days.shape[0], 4, -1).max(axis=2).mean(axis=1)
    mean = days.mean(axis=1)
    return SpringNeap(
        spring_peak=float(peak[strong].mean()),
        neap_peak=float(peak[weak].mean()),
        spring_speed=float(mean[strong].mean()),
        neap_speed=float(mean[weak].mean()),
        spring_cube_speed=float(np.cbrt(cube[strong].mean())),
        neap_cube_speed=float(np.cbrt(cube[weak].mean())),
        fortnights=whole,
    )


def slack(stream: TidalStream, speed: float) -> Slack:
    """Windows in which the stream stays below `speed` [m/s]; those cut by either end are left out of the lengths."""
    step = float(stream.time[1] - stream.time[0])
    slow = stream.speed < speed
    edge = np.flatnonzero(np.diff(np.concatenate(([False], slow, [False])).astype(np.int8)))
    start, stop = edge[::2], edge[1::2]
    inside = (start > 0) & (stop < slow.size)
    length: Floats = step * (stop - start)[inside].astype(np.float64)
    some = length if length.size else np.zeros(1)
    return Slack(
        speed=speed,
        share=float(slow.mean()),
        daily=float(start.size) / (slow.size * step / 86400.0),
        mean=float(some.mean()),
        short=float(np.quantile(some, 0.1)),
        long=float(np.quantile(some, 0.9)),
    )
