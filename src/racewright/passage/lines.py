"""Lines of the water that passes the rotor, at an operating point's own load."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.door import within
from racewright.errors import InputError, NoAnswerError
from racewright.flow.result import Axisymmetric, Streamlines
from racewright.flow.streamlines import streamlines

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class ThroughLines:
    """k streamlines through the rotor at s stations; without swirl, which the rows add.

    Attributes
    ----------
    x : ndarray, shape (s,)
        From the duct's leading edge [m].
    radius : ndarray, shape (k, s)
        [m]
    speed : ndarray, shape (k, s)
        Meridional speed over the stream speed [-].
    far_radius : ndarray, shape (k,)
        Radius of each line far upstream [m].
    share : ndarray, shape (k,)
        Of the flow through the rotor that each line stands for; sums to 1 [-].
    within : ndarray, shape (k,)
        Share of that flow that passes nearer to the axis [-].
    load : float
        At which they were found; below the point's own where the flow was not solved so far [-].
    """

    x: Floats
    radius: Floats
    speed: Floats
    far_radius: Floats
    share: Floats
    within: Floats
    load: float


def through_lines(flow: Axisymmetric, load: float, *, count: int = 8) -> ThroughLines:
    """Lines at any load, each blended between those of the two solved loads about it.

    A line keeps its share of the flow, so that lines of two loads belong together; the blend is linear in CH. Above
    the highest solved load that load's lines answer.

    Parameters
    ----------
    flow : Axisymmetric
        In an open stream or a channel [m].
    load : float
        CH that the free sheet sees, 0 to 2 [-].
    count : int
        Lines, 4 to 40.

    Raises
    ------
    InputError
        Load or count out of range.
    NoAnswerError
        No load of the flow converged.
    """
    within("load", load, 0.0, 2.0, "", 0.6)
    if not 4 <= count <= 40:
        raise InputError(f"{count} is outside 4 to 40; try 8", key="count")
    known = np.flatnonzero(flow.converged)
    if known.size == 0:
        raise NoAnswerError("no load of the flow converged; there are no streamlines to follow")
    loads = flow.head_coefficient[known]
    place = float(np.clip(load, loads[0], loads[-1]))
    above = min(max(int(np.searchsorted(loads, place)), 1), known.size - 1)
    below = max(above - 1, 0)
    part = 0.0 if above == below else (place - loads[below]) / (loads[above] - loads[below])
    first, last = (_at(flow, int(known[i]), count) for i in (below, above))
    radius, speed = ((1.0 - part) * a + part * b for a, b in zip(_table(first), _table(last), strict=True))
    capture = (1.0 - part) * _capture(flow, int(known[below])) + part * _capture(flow, int(known[above]))
    middle = (np.arange(count) + 0.5) / count
    return ThroughLines(
        first.x[0],
        radius,
        speed,
        capture * middle,
        2.0 * middle / count,
        middle**2,
        float(loads[0] if not above else place),
    )


def _at(flow: Axisymmetric, index: int, count: int) -> Streamlines:
    front, back = float(flow.duct_x.min()), float(flow.duct_x[0])
    length = back - front
    return streamlines(flow, index, count, 0, front - 3.0 * length, back + length)


def _table(lines: Streamlines) -> tuple[Floats, Floats]:
    return np.stack(lines.r), np.stack(lines.speed)


def _capture(flow: Axisymmetric, index: int) -> float:
    """Radius far upstream of the water that passes the rotor [m]."""
    return float(np.sqrt(flow.speed_ratio[index] * flow.annulus_area / np.pi))
