"""A row as a solid: its sections laid on their cylinders, one vane or blade as points in space."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.machine.row import Row, stacking_line
from racewright.machine.sections import section_points

Floats = NDArray[np.float64]


def outlines(row: Row, points_a_side: int = 40) -> Floats:
    """Closed outlines of the sections on their developed cylinders.

    Parameters
    ----------
    row : Row
    points_a_side : int
        10 to 2000; see `section_points`.

    Returns
    -------
    ndarray, shape (n, m, 2)
        Axial place from the duct's leading edge and arc in the direction of rotation from the innermost
        section's mid-chord; first and last point of each outline are the same [m].
    """
    middle, around = stacking_line(row)
    found = []
    for i, radius in enumerate(row.radius):
        points = section_points(row.family, float(row.camber[i]), float(row.thickness[i]), points_a_side)
        if np.any(points[0] != points[-1]):
            points = np.vstack([points, points[:1]])
        along, across = row.chord[i] * (points[:, 0] - 0.5), row.chord[i] * points[:, 1]
        cosine, sine = np.cos(row.stagger[i]), np.sin(row.stagger[i])
        axial = middle[i] + along * cosine - across * sine
        found.append(np.column_stack([axial, around[i] * radius + along * sine + across * cosine]))
    return np.stack(found)


def extent(row: Row) -> tuple[Floats, Floats]:
    """Foremost and rearmost axial places of the sections, shape (n,) each [m]."""
    axial = outlines(row)[:, :, 0]
    return axial.min(axis=1), axial.max(axis=1)


def surface(row: Row, points_a_side: int = 40) -> Floats:
    """One vane or blade as outlines in space, shape (n, m, 3): x downstream, y up at angle 0, z [m].

    The angle about the axis runs from y to z in the direction of rotation.
    """
    flat = outlines(row, points_a_side)
    radius = row.radius[:, None]
    angle = flat[:, :, 1] / radius
    return np.stack([flat[:, :, 0], radius * np.cos(angle), radius * np.sin(angle)], axis=2)
