"""One vane or blade as triangles that keep a chord height."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError
from racewright.machine.row_ends import Line, StandingRow
from racewright.machine.row_surface import SQUARE
from racewright.machine.solid import Patch, Solid, grid_faces, sewn, volume

Floats = NDArray[np.float64]

FIRST = (16, 6)
"""Cells along a side and along the span to begin with."""
MOST = 4000
"""Cells that either may come to."""
VOLUME_SHARE = 5e-4
"""Largest share of its volume that a vane or blade may lose to flat faces, whatever the chord height. Own choice."""
_GROWTH = 1.3


def row_solid(stands: StandingRow, exact: float, tolerance: float, name: str) -> Solid:
    """The vane or blade at angle 0 of its row, closed at both ends.

    Parameters
    ----------
    stands : StandingRow
    exact : float
        Its volume by `standing_volume` [m3].
    tolerance : float
        Largest distance between a triangle and the surface, > 0 [m].
    name : str

    Raises
    ------
    NoAnswerError
        More than 4000 cells would be needed one way.
    """
    side, span = _cells(stands, tolerance, FIRST)
    while True:
        solid = _built(stands, side, span, tolerance, name)
        if abs(volume(solid.points, solid.faces) / exact - 1.0) <= VOLUME_SHARE:
            return solid
        side, span = math.ceil(_GROWTH * side), math.ceil(_GROWTH * span)
        _checked(side, span)


def _checked(side: int, span: int) -> None:
    if max(side, span) > MOST:
        raise NoAnswerError(
            f"the rows would need more than {MOST} triangles along chord or span; a coarser tolerance will do"
        )


def _cells(stands: StandingRow, tolerance: float, first: tuple[int, int]) -> tuple[int, int]:
    """Cells along a side and along the span at which chords keep half the tolerance and diagonals all of it."""
    side, span = first
    while True:
        grown = [side, span]
        for which, (off, allowed) in enumerate(zip(_heights(stands, side, span), (0.5, 0.5, 1.0), strict=True)):
            if off > allowed * tolerance:
                factor = min(max(1.05 * math.sqrt(off / (allowed * tolerance)), 1.1), 4.0)
                for k in (0, 1) if which == 2 else (which,):
                    grown[k] = max(grown[k], math.ceil(factor * (side, span)[k]))
        if grown == [side, span]:
            return side, span
        side, span = grown
        _checked(side, span)


def _heights(stands: StandingRow, side: int, span: int) -> tuple[float, float, float]:
    """Largest distance of the surface from chords along the outline, along the span, and from diagonals [m]."""
    fine = _grid(stands, _places(2 * side), 2 * span)
    corner = fine[::2, ::2]
    along = _from_chord(corner[:-1], corner[1:], fine[1::2, ::2])
    out = _from_chord(corner[:, :-1], corner[:, 1:], fine[::2, 1::2])
    normal = np.cross(corner[1:, 1:] - corner[:-1, :-1], corner[:-1, 1:] - corner[1:, :-1])
    normal /= np.linalg.norm(normal, axis=-1, keepdims=True)
    centre = fine[1::2, 1::2]
    diagonals = [0.5 * (corner[:-1, :-1] + corner[1:, 1:]), 0.5 * (corner[1:, :-1] + corner[:-1, 1:])]
    across = max(float(np.abs(np.sum((centre - one) * normal, axis=-1)).max()) for one in diagonals)
    return along, out, across


def _from_chord(start: Floats, end: Floats, middle: Floats) -> float:
    along = end - start
    length = np.linalg.norm(along, axis=-1)
    off = np.linalg.norm(np.cross(along, middle - start), axis=-1)
    return float(np.max(off / np.where(length > 0.0, length, 1.0)))


def _places(side: int) -> Floats:
    """Places on the outline from trailing edge to trailing edge, denser at both edges (half circle)."""
    root = np.sin(0.5 * np.linspace(0.0, np.pi, side + 1))
    root[-1] = 1.0
    return np.concatenate([-root[:0:-1], root])


def _radii(stands: StandingRow, place: Floats, span: int) -> Floats:
    inner, outer = stands.ends(place)
    return inner[:, None] + np.linspace(0.0, 1.0, span + 1) * (outer - inner)[:, None]


def row_grid(stands: StandingRow, side: int, span: int) -> Floats:
    """Points of the surface at steps along each side and along its length, shape (2 side + 1, span + 1, 3) [m]."""
    return _grid(stands, _places(side), span)


def _grid(stands: StandingRow, place: Floats, span: int) -> Floats:
    return stands.surface.point(place[:, None], _radii(stands, place, span))


def _built(stands: StandingRow, side: int, span: int, tolerance: float, name: str) -> Solid:
    surface = stands.surface
    place = _places(side)
    radius = _radii(stands, place, span)
    points = surface.point(place[:, None], radius)
    across = _across(stands, points, tolerance)
    if surface.closed:
        points[-1] = points[0]
        edge = np.repeat(points[:1], across + 1, axis=0)
        patches = []
    else:
        v = np.linspace(1.0, SQUARE, across + 1)
        v_radius = _radii(stands, v, span)
        edge = surface.point(v[:, None], v_radius)
        edge[0], edge[-1] = points[-1], points[0]
        normals = surface.normal(v[:, None], v_radius, 1.0, SQUARE)
        patches = [Patch(edge, normals, grid_faces(across + 1, span + 1))]
    crossed = np.arange(side)  # the negative side's diagonals mirror those of the positive side
    pieces = [(-1.0, 0.0), (0.0, 1.0)] if surface.sharp else [(-1.0, 1.0)]
    for first, last in pieces:
        on = (place >= first) & (place <= last)
        cells = int(on.sum())
        normals = surface.normal(place[on][:, None], radius[on], first, last)
        turned = crossed if first < 0.0 else None
        patches.append(Patch(points[on], normals, grid_faces(cells, span + 1, crossed=turned)))
    for column, end, outwards in ((0, stands.inner, False), (span, stands.outer, True)):
        patches.append(_cap(points[:, column], edge[:, column], end, outwards))
    return sewn(name, patches)


def _across(stands: StandingRow, points: Floats, tolerance: float) -> int:
    """Cells from side to side on the end faces, which are parts of surfaces of revolution."""
    half = points.shape[0] // 2
    width = np.linalg.norm(points[half:] - points[half::-1], axis=-1)
    least = float(np.hypot(points[..., 1], points[..., 2]).min())
    return max(1, math.ceil(float(width.max()) / math.sqrt(4.0 * least * tolerance)))


def _cap(outline: Floats, edge: Floats, end: Line, outwards: bool) -> Patch:
    """The face at one end: from the negative to the positive side at each place along the chord."""
    half, across = outline.shape[0] // 2, edge.shape[0] - 1
    low, high = outline[half::-1], outline[half:]
    share = np.linspace(0.0, 1.0, across + 1)[None, :]
    x = low[:, :1] + share * (high[:, :1] - low[:, :1])
    first, last = (np.unwrap(np.arctan2(one[:, 2], one[:, 1])) for one in (low, high))
    last = last + 2.0 * np.pi * np.round((first[0] - last[0]) / (2.0 * np.pi))
    angle = first[:, None] + share * (last - first)[:, None]
    radius = end(x)
    points = np.stack([x, radius * np.cos(angle), radius * np.sin(angle)], axis=-1)
    points[0] = outline[half]
    points[:, 0], points[:, -1] = low, high
    points[-1] = edge[::-1]
    step = 1e-4 * float(np.ptp(x))
    slope = (end(x + step) - end(x - step)) / (2.0 * step)
    normals = np.stack([-slope, np.cos(angle), np.sin(angle)], axis=-1) / np.hypot(1.0, slope)[..., None]
    faces = grid_faces(half + 1, across + 1, flip=outwards)
    return Patch(points, normals if outwards else -normals, faces)
