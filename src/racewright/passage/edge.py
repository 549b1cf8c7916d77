"""Leading edges of a row: how thick, and how slanted to the water that meets them."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.machine.over_radius import row_at
from racewright.machine.row import Row, stacking_line
from racewright.machine.sections import checked_family

Floats = NDArray[np.float64]

_STEP = 1e-3
"""Of the span, over which the edge's direction is taken."""


def edge_thickness(row: Row, radius: Floats) -> Floats:
    """Twice the leading-edge radius of the sections at other radii, 0 for a sharp family, shape of radius [m]."""
    here = row_at(row, np.asarray(radius, dtype=np.float64))
    nose = np.array([checked_family(row.family).nose_radius(float(t)) for t in here.thickness])
    return np.asarray(2.0 * nose * here.chord, dtype=np.float64)


def edge_slant(row: Row, radius: Floats, axial_speed: Floats, relative_swirl: Floats) -> Floats:
    """Angle between the leading edge and the relative speed, 0 to pi/2; pi/2 is square-on, shape of radius [rad].

    Parameters
    ----------
    row : Row
        Its twist, sweep, lean and taper turn the edge's line in space.
    radius : ndarray, shape (n,)
        Within the row [m].
    axial_speed, relative_swirl : ndarray, shape (n,)
        Of the water against the edge; the second positive in the direction of rotation [m/s].
    """
    step = _STEP * float(row.radius[-1] - row.radius[0])
    ends = [_edge(row, np.clip(radius + side * step, row.radius[0], row.radius[-1])) for side in (-1.0, 1.0)]
    along, out, around = (after - before for before, after in zip(*ends, strict=True))
    dot = along * axial_speed + around * radius * relative_swirl
    size = np.sqrt(along**2 + out**2 + (around * radius) ** 2) * np.hypot(axial_speed, relative_swirl)
    return np.asarray(np.arccos(np.clip(np.abs(dot) / size, 0.0, 1.0)), dtype=np.float64)


def _edge(row: Row, radius: Floats) -> tuple[Floats, Floats, Floats]:
    """Axial place, radius and angle about the axis of the leading edge."""
    grid = np.unique(np.concatenate([np.linspace(row.radius[0], row.radius[-1], 201), radius]))
    fine = row_at(row, grid)
    middle, around = stacking_line(fine)
    axial = middle - 0.5 * fine.chord * np.cos(fine.stagger)
    angle = around - 0.5 * fine.chord * np.sin(fine.stagger) / grid
    at = np.searchsorted(grid, radius)
    return axial[at], radius, angle[at]


SQUARE = 0.5 * math.pi
"""Square-on [rad]."""
