"""The watch circle: where the machine goes as the stream turns and quickens."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.holding.checked import Floats, array
from racewright.holding.layout import Layout
from racewright.holding.load_state import LoadState
from racewright.holding.safety import POSE_CAUTION, computed
from racewright.holding.statics import searched, told
from racewright.holding.statics_problem import Pose, Problem
from racewright.holding.stream import Stream
from racewright.safety import SafetyBasis
from racewright.tick import Tick, silent

_TURN = math.radians(10.0)
"""Greatest turn of the stream between two searches; more is passed in steps. Own choice [rad]."""


@dataclass(frozen=True, slots=True)
class WatchCircle:
    """Places of the body's origin over headings (h) and stream speeds (u). NaN where nothing settled.

    Attributes
    ----------
    heading : ndarray, shape (h,)
        [rad]
    stream_speed : ndarray, shape (u,)
        [m/s]
    x, y, height, yaw : ndarray, shape (h, u)
        Offsets from the intended place, height over the bed [m], heading of the axis [rad].
    settled, feasible : ndarray of bool, shape (h, u)
    reason : tuple of tuple of str
        First reason against each, '' without one.
    radius : float
        Greatest horizontal offset of the origin; NaN when nothing settled [m].
    swept_radius : float
        The same for the outline's outermost point [m].
    safety : SafetyBasis
    """

    heading: Floats
    stream_speed: Floats
    x: Floats
    y: Floats
    height: Floats
    yaw: Floats
    settled: NDArray[np.bool_]
    feasible: NDArray[np.bool_]
    reason: tuple[tuple[str, ...], ...]
    radius: float
    swept_radius: float
    safety: SafetyBasis


def watch_circle(
    layout: Layout,
    stream: Stream,
    state: LoadState,
    headings: ArrayLike,
    stream_speeds: ArrayLike,
    *,
    tick: Tick = silent,
) -> WatchCircle:
    """Offsets of the machine over headings and speeds of the stream.

    Parameters
    ----------
    layout : Layout
    stream : Stream
        Its speed and heading are not read.
    state : LoadState
    headings : array_like, shape (h,)
        In the order in which the stream takes them: each search starts from the pose before, the stream turned in
        steps of 10 degrees or less [rad].
    stream_speeds : array_like, shape (u,)
        [m/s]
    tick : Tick
    """
    turns = array("The headings", headings, (-1,))
    speeds = array("The stream speeds", stream_speeds, (-1,))
    shape = (turns.size, speeds.size)
    x, y, height, yaw, reach = (np.full(shape, np.nan) for _ in range(5))
    settled, feasible = np.zeros(shape, dtype=np.bool_), np.zeros(shape, dtype=np.bool_)
    why = [[""] * speeds.size for _ in range(turns.size)]
    problem = Problem(layout, stream, state)
    for u, speed in enumerate(speeds):
        pose: Pose | None = None
        last = float(turns[0])
        for h, turn in enumerate(turns):
            for heading in _steps(last, float(turn)):
                problem.meet(replace(stream, speed=float(speed), heading=heading), state)
                found = searched(problem, pose)
                pose = found.pose if found is not None and found.settled else pose
            last = float(turn)
            point = told(problem, found)
            settled[h, u], feasible[h, u] = point.settled, point.feasible
            why[h][u] = point.reason.code if point.reason else ""
            if point.settled and found is not None:
                off = found.pose.place - np.array(layout.position)
                x[h, u], y[h, u], height[h, u], yaw[h, u] = off[0], off[1], found.pose.place[2], point.yaw
                outer = off[:2] + (layout.body.outline @ found.pose.turn.T)[:, :2]
                reach[h, u] = float(np.hypot(outer[:, 0], outer[:, 1]).max())
            tick((u + (h + 1) / turns.size) / speeds.size)
    offset = np.hypot(x, y)
    known = bool(settled.any())
    return WatchCircle(
        turns,
        speeds,
        x,
        y,
        height,
        yaw,
        settled,
        feasible,
        tuple(tuple(row) for row in why),
        float(np.nanmax(offset)) if known else math.nan,
        float(np.nanmax(reach)) if known else math.nan,
        computed(POSE_CAUTION),
    )


def _steps(start: float, end: float) -> list[float]:
    """Headings from start to end, start left out unless both are the same [rad]."""
    count = max(1, math.ceil(abs(end - start) / _TURN))
    return [start + (end - start) * (k + 1) / count for k in range(count)]
