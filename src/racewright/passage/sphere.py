"""Largest sphere that passes between neighbours of a row, hub and wall."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from racewright.machine.over_radius import row_at
from racewright.machine.row import Row
from racewright.machine.row_solid import outlines, surface

Floats = NDArray[np.float64]

_RADII, _STATIONS, _HALVINGS = 11, 17, 16
_FINE, _POINTS, _SIDE = 121, 100, 40


def largest_sphere(row: Row, hub_radius: float, wall_radius: float) -> tuple[float, float]:
    """Diameter of the largest sphere whose middle keeps its radius on the way through, and that radius [m].

    Every way through crosses each axial station between two neighbours; there the middle does best where it is as far
    from one as from the other. The least of these over the stations, hub and wall counted, is what passes at that
    radius. Distances are to points on the surfaces, about 1 % of the chord apart: the answer is up to 0.5 % too
    large.

    Parameters
    ----------
    row : Row
    hub_radius, wall_radius : float
        Of the annulus at the row [m].
    """
    fine = row_at(row, np.linspace(row.radius[0], row.radius[-1], _FINE))
    tree = cKDTree(surface(fine, _POINTS).reshape(-1, 3))
    low, high, best = hub_radius, wall_radius, (0.0, hub_radius)
    for _ in range(3):
        radius = np.linspace(low, high, _RADII + 2)[1:-1]
        free = 2.0 * np.minimum(_beside(row, tree, radius), np.minimum(radius - hub_radius, wall_radius - radius))
        at = int(np.argmax(free))
        best = max(best, (float(free[at]), float(radius[at])))
        step = (high - low) / (_RADII + 1)
        low, high = max(best[1] - step, hub_radius), min(best[1] + step, wall_radius)
    return best


def _beside(row: Row, tree: cKDTree, radius: Floats) -> Floats:
    """Least distance to the nearer neighbour on the best way at each radius."""
    pitch = 2.0 * math.pi / row.count
    x, start = _mean_lines(row, np.clip(radius, row.radius[0], row.radius[-1]))
    r = np.broadcast_to(radius[:, None], x.shape)
    low, high = start, start + pitch
    for _ in range(_HALVINGS):
        half = 0.5 * (low + high)
        nearer = _distance(tree, x, r, half) < _distance(tree, x, r, half - pitch)
        low, high = np.where(nearer, half, low), np.where(nearer, high, half)
    return np.asarray(_distance(tree, x, r, 0.5 * (low + high)).min(axis=1), dtype=np.float64)


def _mean_lines(row: Row, radius: Floats) -> tuple[Floats, Floats]:
    """Axial stations along the mean line of the section at each radius, and its angles about the axis there."""
    thin = replace(row_at(row, radius), thickness=np.full(radius.shape, 0.005))
    place, angle = [], []
    for r, line in zip(radius, outlines(thin, _SIDE), strict=True):
        middle = 0.5 * (line[: _SIDE + 1] + line[_SIDE : 2 * _SIDE + 1][::-1])
        order = np.argsort(middle[:, 0])
        place.append(np.linspace(middle[order[0], 0], middle[order[-1], 0], _STATIONS))
        angle.append(np.interp(place[-1], middle[order, 0], middle[order, 1]) / r)
    return np.stack(place), np.stack(angle)


def _distance(tree: cKDTree, x: Floats, radius: Floats, angle: Floats) -> Floats:
    points = np.stack([x, radius * np.cos(angle), radius * np.sin(angle)], axis=-1)
    return np.asarray(tree.query(points)[0], dtype=np.float64)
