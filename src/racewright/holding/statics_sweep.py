"""The statics over stream speeds and load states."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.holding.checked import Floats, array
from racewright.holding.layout import Layout
from racewright.holding.load_state import LoadState, still
from racewright.holding.safety import TENSION_CAUTION, computed
from racewright.holding.statics import searched, told
from racewright.holding.statics_problem import Pose, Problem
from racewright.holding.statics_result import Equilibrium
from racewright.holding.statics_solve import near, search
from racewright.holding.statics_table import StaticsTable
from racewright.holding.stream import Stream
from racewright.safety import SafetyBasis
from racewright.tick import Tick, part_of, silent

Followed = tuple[Equilibrium, Pose | None]
"""A point and its pose, None where it did not settle."""


@dataclass(frozen=True, slots=True)
class Statics(StaticsTable):
    """Equilibria over load states (s) and stream speeds (u), with lines (n). NaN where nothing settled.

    Attributes
    ----------
    slack : ndarray of bool, shape (s, u, n)
    points : tuple of tuple of Equilibrium
        All of it, by state, then by speed.
    safety : SafetyBasis
        Of the tensions; each point's lines carry the editions of their strengths.
    """

    slack: NDArray[np.bool_]
    points: tuple[tuple[Equilibrium, ...], ...]
    safety: SafetyBasis


def statics(
    layout: Layout,
    stream: Stream,
    states: tuple[LoadState, ...],
    stream_speeds: ArrayLike,
    *,
    lost: str = "",
    tick: Tick = silent,
) -> Statics:
    """Equilibria over load states and stream speeds, each speed's search starting from the one before.

    Parameters
    ----------
    layout : Layout
    stream : Stream
        Its speed is not read.
    states : tuple of LoadState
        One or more, names all different. Loss of load, clogged and held-tree states are entries like any other.
    stream_speeds : array_like, shape (u,)
        Growing, >= 0 [m/s].
    lost : str
        Tether that is missing; '' for none.
    tick : Tick
        Called after each state and speed.

    Raises
    ------
    InputError
        For no states, names twice, or speeds that do not grow.
    """
    speeds = array("The stream speeds", stream_speeds, (-1,))
    if speeds[0] < 0.0 or np.any(np.diff(speeds) <= 0.0):
        raise InputError("The stream speeds must be 0 m/s or more and grow from one to the next.")
    names = tuple(state.name for state in states)
    if not names or len(set(names)) != len(names):
        raise InputError(f"Wanted one or more load states with different names; found {list(names)}.")
    used = layout.without(lost) if lost else layout
    rest, first = at_rest(used, stream)
    points = []
    for place, state in enumerate(states):
        part = part_of(tick, place, len(states))
        points.append(tuple(point for point, _pose in over_speeds(used, stream, state, speeds, first, part)))
    return table_of(lost, names, tuple(t.name for t in used.tethers), speeds, rest, tuple(points))


def at_rest(layout: Layout, stream: Stream) -> tuple[Equilibrium, Pose | None]:
    """The equilibrium in still water, and its pose where it settled."""
    problem = Problem(layout, replace(stream, speed=0.0), still())
    found = searched(problem, None)
    return told(problem, found), found.pose if found is not None and found.settled else None


def over_speeds(
    layout: Layout,
    stream: Stream,
    state: LoadState,
    speeds: Floats,
    first: Pose | None,
    tick: Tick = silent,
    *,
    starts: Sequence[Pose | None] | None = None,
    close: bool = False,
) -> Iterator[Followed]:
    """Equilibria of one state over growing speeds, the first search from `first`, each next from the one before.

    Parameters
    ----------
    layout, stream, state, speeds, tick
        As `statics`.
    first : Pose or None
    starts : sequence of Pose or None, one a speed
        Poses known to be near, as of a stream or size a little other; each not None is searched from alone.
    close : bool
        They are close to the answers, which are given up soon where they are not.
    """
    problem, pose = Problem(layout, replace(stream, speed=0.0), state), first
    for step, speed in enumerate(speeds):
        problem.meet(replace(stream, speed=float(speed)), state)
        start = None if starts is None else starts[step]
        if start is None:
            found = searched(problem, pose)
        else:
            found = near(problem, start) if close else search(problem, start)
        settled = found is not None and found.settled
        if found is not None and settled:
            pose = found.pose
        yield told(problem, found), pose if settled else None
        tick((step + 1.0) / speeds.size)


def table_of(
    lost: str,
    names: tuple[str, ...],
    lines: tuple[str, ...],
    speeds: Floats,
    at_rest: Equilibrium,
    points: tuple[tuple[Equilibrium, ...], ...],
) -> Statics:
    """Arrays of points by state, then by speed; `at_rest` gives the height that knock-down counts from."""
    settled = np.array([[p.settled for p in row] for row in points])

    def each(name: str) -> Floats:
        values = np.array([[getattr(p, name) for p in row] for row in points], dtype=np.float64)
        return np.where(settled, values, np.nan)

    def of_lines(name: str) -> Floats:
        missing = [np.nan] * len(lines)
        return np.array(
            [[[getattr(line, name) for line in p.lines] if p.settled else missing for p in row] for row in points],
            dtype=np.float64,
        )

    height = np.array([[p.position[2] if p.settled else np.nan for p in row] for row in points], dtype=np.float64)
    slack = [[[line.form == "slack" for line in p.lines] or [False] * len(lines) for p in row] for row in points]
    return Statics(
        lost=lost,
        states=names,
        lines=lines,
        stream_speed=speeds,
        settled=settled,
        feasible=np.array([[p.feasible for p in row] for row in points]),
        reason=tuple(tuple(p.reason.code if p.reason else "" for p in row) for row in points),
        height=height,
        knock_down=at_rest.position[2] - height if at_rest.settled else np.full_like(height, np.nan),
        offset=each("offset"),
        roll=each("roll"),
        pitch=each("pitch"),
        yaw=each("yaw"),
        cover=each("cover"),
        bed_clearance=each("bed_clearance"),
        tension=of_lines("tension"),
        utilisation=of_lines("utilisation"),
        uplift=of_lines("uplift"),
        slack=np.array(slack),
        points=points,
        safety=computed(TENSION_CAUTION),
    )
