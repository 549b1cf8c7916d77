"""A layout in one stream as points to draw: along the stream, across it, up from the bed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import ConvexHull, QhullError
from scipy.spatial.transform import Rotation

from racewright.holding.layout import Layout
from racewright.holding.statics_result import Equilibrium, LineLoad
from racewright.holding.tether import Bridle, Tether

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class LinePoints:
    """One line at equilibrium.

    Attributes
    ----------
    load : LineLoad
    main : ndarray, shape (k, 3)
        From its fixed point up: along the stream and across it from the intended place, over the bed [m].
    legs : tuple of ndarray, shape (2, 3)
        Of a bridle [m].
    lying : ndarray, shape (j, 3)
        The part of `main` that lies on the bed, empty when none does [m].
    on : str
        What the fixed point stands on.
    """

    load: LineLoad
    main: Floats
    legs: tuple[Floats, ...]
    lying: Floats
    on: str


@dataclass(frozen=True)
class Hung:
    """Machine and lines of one equilibrium.

    Attributes
    ----------
    found : Equilibrium
    outline : ndarray, shape (n, 3)
        The body's outline as `LinePoints.main` [m].
    axis : ndarray, shape (2, 3)
        Inlet and exit end of its axis [m].
    fairleads : ndarray, shape (m, 3)
        [m]
    lines : tuple of LinePoints
    """

    found: Equilibrium
    outline: Floats
    axis: Floats
    fairleads: Floats
    lines: tuple[LinePoints, ...]

    @property
    def every_point(self) -> Floats:
        """All of it, for the ends of a drawing [m]."""
        return np.concatenate([self.outline, *(line.main for line in self.lines)])


def hung(layout: Layout, found: Equilibrium) -> Hung:
    """Points of a layout at one equilibrium, turned so that its stream runs along the first axis."""
    turn = Rotation.from_euler("ZYX", [found.yaw, found.pitch, found.roll])
    place = np.array(found.position)

    def shown(points: Floats) -> Floats:
        return _turned(np.atleast_2d(points), np.array(layout.position), found.heading)

    def on_body(points: Floats) -> Floats:
        return shown(place + turn.apply(np.atleast_2d(points)))

    outline = layout.body.outline
    ends = np.array([[outline[:, 0].min(), 0.0, 0.0], [outline[:, 0].max(), 0.0, 0.0]])
    by_name = {line.name: line for line in found.lines}
    leads = [np.atleast_2d(_fairleads(t)) for t in layout.tethers]
    lines = tuple(
        _line(by_name[t.name], t, shown(by_name[t.name].shape), on_body(lead))
        for t, lead in zip(layout.tethers, leads, strict=True)
        if t.name in by_name
    )
    return Hung(found, on_body(outline), on_body(ends), on_body(np.concatenate(leads)), lines)


def hull(points: Floats) -> Floats:
    """Corners of the convex hull of points in a plane, anticlockwise; the points themselves where they are flat."""
    try:
        return points[ConvexHull(points).vertices]
    except QhullError:
        return points


def _line(load: LineLoad, tether: Tether, main: Floats, leads: Floats) -> LinePoints:
    legs = tuple(np.stack([main[-1], lead]) for lead in leads) if isinstance(tether.fairlead, Bridle) else ()
    step = np.linalg.norm(np.diff(main, axis=0), axis=1)
    count = int(np.searchsorted(np.cumsum(step), load.grounded_length * (1.0 - 1e-9))) + 1
    lying = main[: count + 1] if load.grounded_length > 0.0 else main[:0]
    return LinePoints(load, main, legs, lying, tether.fixed.on)


def _fairleads(tether: Tether) -> Floats:
    lead = tether.fairlead
    return np.array(lead.fairleads if isinstance(lead, Bridle) else [lead], dtype=np.float64)


def _turned(points: Floats, intended: Floats, heading: float) -> Floats:
    c, s = np.cos(heading), np.sin(heading)
    x, y = points[:, 0] - intended[0], points[:, 1] - intended[1]
    return np.stack([c * x + s * y, c * y - s * x, points[:, 2]], axis=1)
