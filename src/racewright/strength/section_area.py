"""Properties of the area inside a closed contour: centroid, second moments, principal axes."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.machine.section_shape import crossing

Floats = NDArray[np.float64]
MOST_POINTS = 2001
"""Longest contour that is taken; the search for crossings grows with its square."""


@dataclass(frozen=True, slots=True)
class SectionArea:
    """Area, centroid and second moments about it.

    Attributes
    ----------
    area : float
        > 0 [m2].
    centroid_x, centroid_y : float
        In the contour's own axes [m].
    moment_xx, moment_yy, moment_xy : float
        Integrals of y^2, x^2 and x y over the area about the centroid: `moment_xx` resists bending towards y [m4].
    principal_large, principal_small : float
        Largest and smallest second moment [m4].
    long_axis : float
        Angle of the axis about which the second moment is smallest (a section's chord, nearly) from x towards y,
        above -pi/2 to pi/2; 0 when all axes are alike [rad].
    length, breadth : float
        Extent of the outer contour along the long axis and across it [m].
    modulus_small, modulus_large : float
        Principal second moments over the furthest distance of the contour from their axes [m3].
    """

    area: float
    centroid_x: float
    centroid_y: float
    moment_xx: float
    moment_yy: float
    moment_xy: float
    principal_large: float
    principal_small: float
    long_axis: float
    length: float
    breadth: float
    modulus_small: float
    modulus_large: float


def section_area(contour: ArrayLike, holes: Sequence[ArrayLike] = ()) -> SectionArea:
    """Properties of a plane section, exact for its polygon; of a smooth contour with N points the error is O(1/N^2).

    Parameters
    ----------
    contour : array_like, shape (n, 2)
        Points x, y in either direction, 3 to 2001; the first need not be repeated at the end [m].
    holes : sequence of array_like
        Contours of hollows inside it, as the outer one; they must not meet.

    Raises
    ------
    InputError
        NaN or infinity, fewer than 3 points, no area, a contour that crosses itself, a hole that is not inside.
    """
    outer = _closed("the contour", contour)
    inner = [_closed(f"hole {number}", hole) for number, hole in enumerate(holes, start=1)]
    for number, hole in enumerate(inner, start=1):
        if not _inside(hole[:-1], outer).all():
            raise InputError(f"hole {number} reaches outside the contour; a hollow lies wholly inside")
    origin = outer[:-1].mean(axis=0)
    sums = _integrals(outer - origin) - sum((_integrals(hole - origin) for hole in inner), np.zeros(6))
    area, first_x, first_y = (float(value) for value in sums[:3])
    if not area > 0.0:
        raise InputError("the holes take all of the area inside the contour")
    x, y = first_x / area, first_y / area
    xx = float(sums[3]) - area * y * y
    yy = float(sums[4]) - area * x * x
    xy = float(sums[5]) - area * x * y
    return _with_axes(outer - origin - np.array([x, y]), area, origin + np.array([x, y]), (xx, yy, xy))


def _with_axes(about: Floats, area: float, centroid: Floats, moments: tuple[float, float, float]) -> SectionArea:
    xx, yy, xy = moments
    middle, half = 0.5 * (xx + yy), math.hypot(0.5 * (yy - xx), xy)
    round_enough = half <= 1e-12 * middle
    angle = 0.0 if round_enough else 0.5 * math.atan2(2.0 * xy, yy - xx)
    if angle <= -0.5 * math.pi:
        angle += math.pi
    along = about @ np.array([math.cos(angle), math.sin(angle)])
    across = about @ np.array([-math.sin(angle), math.cos(angle)])
    return SectionArea(
        area=area,
        centroid_x=float(centroid[0]),
        centroid_y=float(centroid[1]),
        moment_xx=xx,
        moment_yy=yy,
        moment_xy=xy,
        principal_large=middle + half,
        principal_small=middle - half,
        long_axis=angle,
        length=float(np.ptp(along)),
        breadth=float(np.ptp(across)),
        modulus_small=(middle - half) / float(np.max(np.abs(across))),
        modulus_large=(middle + half) / float(np.max(np.abs(along))),
    )


def _closed(name: str, points: ArrayLike) -> Floats:
    found = np.array(points, dtype=np.float64)
    if found.ndim != 2 or found.shape[1] != 2 or not 3 <= found.shape[0] <= MOST_POINTS:
        raise InputError(f"{name} has the shape {found.shape}; wanted 3 to {MOST_POINTS} points x, y")
    if not np.all(np.isfinite(found)):
        raise InputError(f"{name} holds NaN or infinity; wanted finite points in m")
    if np.any(found[0] != found[-1]):
        found = np.vstack([found, found[:1]])
    shifted = found - found[:-1].mean(axis=0)
    if crossing(shifted[:, 0], shifted[:, 1]) is not None:
        raise InputError(f"{name} crosses itself; give its points in their order around the section")
    area, box = float(_integrals(shifted)[0]), float(np.prod(np.ptp(found, axis=0)))
    if not area > 1e-9 * box:
        raise InputError(f"{name} encloses no area")
    return found


def _integrals(points: Floats) -> Floats:
    """Integrals of 1, x, y, y^2, x^2, x y over the polygon, positive for either direction."""
    x, y = points.T
    a, b, p, q = x[:-1], y[:-1], x[1:], y[1:]
    cross = a * q - p * b
    found = np.array(
        [
            cross.sum() / 2.0,
            ((a + p) * cross).sum() / 6.0,
            ((b + q) * cross).sum() / 6.0,
            ((b * b + b * q + q * q) * cross).sum() / 12.0,
            ((a * a + a * p + p * p) * cross).sum() / 12.0,
            ((a * q + 2.0 * a * b + 2.0 * p * q + p * b) * cross).sum() / 24.0,
        ]
    )
    return found if found[0] >= 0.0 else -found


def _inside(points: Floats, contour: Floats) -> NDArray[np.bool_]:
    """Whether each point lies inside a closed contour, by counting the sides that a ray towards +x meets."""
    x, y = points[:, :1], points[:, 1:]
    a, b = contour[:-1], contour[1:]
    spans = (a[:, 1] > y) != (b[:, 1] > y)
    rise = np.where(b[:, 1] == a[:, 1], 1.0, b[:, 1] - a[:, 1])
    meets = spans & (x < a[:, 0] + (y - a[:, 1]) * (b[:, 0] - a[:, 0]) / rise)
    odd: NDArray[np.bool_] = meets.sum(axis=1) % 2 == 1
    return odd
