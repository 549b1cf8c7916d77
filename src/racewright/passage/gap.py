"""Free distances between neighbours of a row on a developed cylinder."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.machine.over_radius import row_at
from racewright.machine.row import Row
from racewright.machine.row_solid import outlines

Floats = NDArray[np.float64]

_SHIFTS = np.linspace(-1.0, 1.0, 9)


def neighbours(row: Row, radius: Floats, points_a_side: int = 60) -> tuple[Floats, Floats]:
    """Closed outlines of one section at each radius, (n, m, 2), and the pitches to the next, (n,) [m]."""
    here = np.asarray(radius, dtype=np.float64)
    return outlines(row_at(row, here), points_a_side), 2.0 * math.pi * here / row.count


def free_opening(outline: Floats, pitch: float) -> float:
    """Shortest distance from an outline, (m, 2), to the same outline one pitch on: the largest disc that passes [m].

    A disc that passes between two bodies in the plane is at most their distance, and one of that size does pass. For
    plates that overlap it is pitch x cos(stagger) - thickness.
    """
    other = outline + np.array([0.0, pitch])
    return min(_nearest(outline, other), _nearest(other, outline))


def free_stick(outline: Floats, pitch: float, angle: float, diameter: float, longest: float) -> float:
    """Longest straight round-ended stick that passes the gap while it keeps its angle [m].

    Two places of a stick of length l between neighbours A and B are parted when some a of A and b of B stand so
    near that the stick would touch both: the least of |along| - sqrt(d^2 - across^2) + d over all such pairs,
    measured along and across the stick, at nine places across. For a thin stick that is the shortest straight way
    along the angle from A to B. One that is thicker than the free opening does not pass: 0.

    Parameters
    ----------
    outline : ndarray, shape (m, 2)
        Axial place and arc [m].
    pitch : float
        [m]
    angle : float
        Of the stick from axial, positive in the direction of rotation [rad].
    diameter : float
        0 or more [m].
    longest : float
        Answer where nothing limits the length, or where the limit is longer [m].
    """
    if diameter > 0.0 and diameter >= free_opening(outline, pitch):
        return 0.0
    along = np.array([math.cos(angle), math.sin(angle)])
    across = np.array([-along[1], along[0]])
    frame = np.stack([along, across], axis=1)
    first, step = outline @ frame, np.array([0.0, pitch]) @ frame
    found = longest
    for shift in _SHIFTS * diameter if diameter > 0.0 else np.zeros(1):
        moved = first + step + np.array([0.0, shift])
        way = min(_along(first, moved), _along(moved, first))
        found = min(found, way - math.sqrt(diameter**2 - shift**2) + diameter)
    return max(found, 0.0)


def _nearest(points: Floats, outline: Floats) -> float:
    """Least distance from points to the segments of an outline."""
    start, step = outline[:-1], np.diff(outline, axis=0)
    size = np.maximum(np.sum(step**2, axis=1), 1e-300)
    apart = points[:, None, :] - start[None, :, :]
    part = np.clip(np.sum(apart * step, axis=2) / size, 0.0, 1.0)
    return float(np.sqrt(np.min(np.sum((apart - part[:, :, None] * step) ** 2, axis=2))))


def _along(points: Floats, outline: Floats) -> float:
    """Least distance along the first coordinate from points to the segments of an outline; inf where none is met."""
    low, high = outline[:-1], outline[1:]
    place = points[:, 1][:, None]
    rise = high[:, 1] - low[:, 1]
    met = (np.minimum(low[:, 1], high[:, 1]) <= place) & (place <= np.maximum(low[:, 1], high[:, 1])) & (rise != 0.0)
    part = (place - low[:, 1]) / np.where(rise == 0.0, 1.0, rise)
    way = np.abs(low[:, 0] + part * (high[:, 0] - low[:, 0]) - points[:, 0][:, None])
    return float(np.min(np.where(met, way, np.inf)))
