"""A duct as a ring: its section's contour gives radius, area and the moment that keeps it round."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.strength.ring import Ring
from racewright.strength.section_area import section_area


def duct_ring(contour: ArrayLike, elasticity: float, poisson: float = 0.3, holes: Sequence[ArrayLike] = ()) -> Ring:
    """The ring of a duct's section that bends about its own centroid, its shape kept.

    Parameters
    ----------
    contour : array_like, shape (n, 2)
        Axial place and radius of the section's outline, radii > 0 [m].
    elasticity : float
        > 0 [Pa].
    poisson : float
        0 to 0.5 [-].
    holes : sequence of array_like
        Hollows of the section, as the contour [m].

    Notes
    -----
    Bending is taken about the axial line through the centroid, as if the section could not turn: a slanting section
    turns a little and is softer.
    """
    section = section_area(contour, holes)
    points = np.asarray(contour, dtype=np.float64)
    if np.any(points[:, 1] <= 0.0):
        raise InputError("the duct's section reaches the axis; its radii must be above 0")
    return Ring(
        radius=section.centroid_y,
        width=float(np.ptp(points[:, 0])),
        area=section.area,
        second_moment=section.moment_xx,
        fibre=float(np.max(np.abs(points[:, 1] - section.centroid_y))),
        elasticity=elasticity,
        poisson=poisson,
    )
