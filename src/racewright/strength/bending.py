"""Stress over a section that is bent about any axis and pulled."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.safety import SafetyBasis, safety_basis
from racewright.strength.door import finite, within
from racewright.strength.section_area import SectionArea


@dataclass(frozen=True, slots=True)
class SectionStress:
    """Stress along the span over a section.

    Attributes
    ----------
    highest, lowest : float
        Largest tension and largest compression (negative), notch factor included [Pa].
    largest : float
        The larger of both by size [Pa].
    highest_x, highest_y, lowest_x, lowest_y : float
        Where they stand on the contour [m].
    notch_factor : float
        [-]
    safety : SafetyBasis
    """

    highest: float
    lowest: float
    largest: float
    highest_x: float
    highest_y: float
    lowest_x: float
    lowest_y: float
    notch_factor: float
    safety: SafetyBasis


def bending_stress(
    section: SectionArea,
    contour: ArrayLike,
    bending_x: float,
    bending_y: float,
    pull: float = 0.0,
    *,
    notch_factor: float = 1.0,
) -> SectionStress:
    """Stress of unsymmetric bending and pull, N/A + a x + b y with a, b from both moments.

    Parameters
    ----------
    section : SectionArea
        Of `contour`, its holes taken off.
    contour : array_like, shape (n, 2)
        Outer contour in the same axes [m].
    bending_x, bending_y : float
        Moments that bend the outer end towards +x and +y: loads on the outer span towards +x times their levers; they
        pull on the side of -x and -y [N m].
    pull : float
        Along the span, tension positive, through the centroid [N].
    notch_factor : float
        Stress at a fillet or weld over this nominal one, 1 to 10; the user's [-].

    Notes
    -----
    Shear and torsion are left out: on the solid roots of vanes and blades they are a small part.
    """
    points = np.asarray(contour, dtype=np.float64)
    if points.ndim != 2 or points.shape[1] != 2 or points.size == 0 or not np.all(np.isfinite(points)):
        raise InputError("the contour wants finite points x, y in m")
    for name, value in (("bending_x", bending_x), ("bending_y", bending_y)):
        finite(name, value, "N m", 100.0)
    finite("the pull", pull, "N", 0.0)
    within("the notch factor", notch_factor, 1.0, 10.0, "", 1.5)
    determinant = section.moment_xx * section.moment_yy - section.moment_xy**2
    slope_x = -(bending_x * section.moment_xx - bending_y * section.moment_xy) / determinant
    slope_y = -(bending_y * section.moment_yy - bending_x * section.moment_xy) / determinant
    about = points - np.array([section.centroid_x, section.centroid_y])
    stress = notch_factor * (pull / section.area + about @ np.array([slope_x, slope_y]))
    most, least = int(np.argmax(stress)), int(np.argmin(stress))
    highest, lowest = float(stress[most]), float(stress[least])
    return SectionStress(
        highest=highest,
        lowest=lowest,
        largest=max(abs(highest), abs(lowest)),
        highest_x=float(points[most, 0]),
        highest_y=float(points[most, 1]),
        lowest_x=float(points[least, 0]),
        lowest_y=float(points[least, 1]),
        notch_factor=notch_factor,
        safety=safety_basis(
            "structure",
            "beam theory, unsymmetric bending and pull; shear, torsion and taper left out",
            "closed form",
            "closed form",
        ),
    )
