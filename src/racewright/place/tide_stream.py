"""The stream of a tide: magnitude, and signed along the axis on which flood and ebb run."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.place.result import Floats
from racewright.place.tide_predict import predict
from racewright.place.tide_result import Tide
from racewright.tick import Tick, silent

FULL_TURN = 2.0 * math.pi


@dataclass(frozen=True)
class TidalStream:
    """Predicted speeds at even stamps.

    Attributes
    ----------
    time : ndarray of int64, shape (n,)
        Seconds since 1970-01-01 UTC.
    speed : ndarray, shape (n,)
        Magnitude [m/s].
    along : ndarray, shape (n,)
        On the axis, flood positive [m/s].
    east, north : ndarray or None, shape (n,)
        [m/s]; None where only the speed along the channel is known.
    axis : float or None
        Direction that the flood's end of the axis points to, clockwise from true north [rad].
    """

    time: NDArray[np.int64]
    speed: Floats
    along: Floats
    east: Floats | None
    north: Floats | None
    axis: float | None


def stream_of(
    tide: Tide,
    time: NDArray[np.int64],
    *,
    flood_direction: float | None = None,
    factor: float = 1.0,
    tick: Tick = silent,
) -> TidalStream:
    """Predict speeds and lay the axis on which the mean cube is largest.

    Parameters
    ----------
    tide : Tide
        Of speeds.
    time : ndarray of int64, shape (n,)
        Growing [s since 1970-01-01 UTC].
    flood_direction : float, optional
        About where the flood runs to, clockwise from true north, 0 to 2 pi; within 80 degrees of the axis. Needed
        with speeds to east and north, kept as the axis with speeds along the channel [rad].
    factor : float
        Speed at the machine over speed where the record was made, 0.05 to 5, default 1 [-].

    Raises
    ------
    InputError
        A tide of levels; no flood direction where one is needed, or one that lies across the axis.
    """
    if tide.kind == "level":
        raise InputError(
            "a record of level tells when the stream turns, not how fast it runs; wanted a record of speed"
        )
    within("the speed factor", factor, 0.05, 5.0, "[-]")
    if flood_direction is not None:
        within("the flood's direction", flood_direction, 0.0, FULL_TURN, "rad")
    value = factor * predict(tide, time, tick=tick)
    if tide.kind == "along":
        return TidalStream(time, np.abs(value[:, 0]), value[:, 0].copy(), None, None, flood_direction)
    if flood_direction is None:
        raise InputError(
            "speeds to east and north do not say which way is flood; wanted its direction, e.g. '60 deg'"
        )
    east, north = value[:, 0].copy(), value[:, 1].copy()
    axis = _oriented(_axis(east, north), flood_direction)
    return TidalStream(time, np.hypot(east, north), component(east, north, axis), east, north, axis)


def component(east: Floats, north: Floats, direction: float) -> Floats:
    """Part of a stream that runs towards a direction, clockwise from true north [rad]."""
    return east * math.sin(direction) + north * math.cos(direction)


def _axis(east: Floats, north: Floats) -> float:
    """Line on which the mean cube of the component is largest, to a thousandth of a radian [rad]."""
    thin = max(1, east.size // 20_000)
    e, n = east[::thin], north[::thin]
    best, width = 0.5 * math.pi, 0.5 * math.pi
    while width > 5e-4:
        tried = best + width * np.linspace(-1.0, 1.0, 13)
        cube = [float((np.abs(component(e, n, one)) ** 3).mean()) for one in tried]
        best, width = float(tried[int(np.argmax(cube))]), width / 4.0
    return best % FULL_TURN


def _oriented(axis: float, flood: float) -> float:
    """The end of the axis that lies nearer to the flood."""
    off = abs((axis - flood + math.pi) % FULL_TURN - math.pi)
    if abs(off - 0.5 * math.pi) < math.radians(10.0):
        raise InputError(
            f"the flood's direction, {math.degrees(flood):.0f} deg, lies across the stream's axis, "
            f"{math.degrees(axis) % 180.0:.0f} or {math.degrees(axis) % 180.0 + 180.0:.0f} deg: which end is flood?"
        )
    return axis if off < 0.5 * math.pi else (axis + math.pi) % FULL_TURN
