"""An annular aerofoil section: thickness on a circular arc, turned about its leading edge, as points (x, r)."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.mean_lines import circular_arc
from racewright.machine.section_shape import check_shape
from racewright.machine.thickness_forms import half_thickness

Floats = NDArray[np.float64]


TURN_SHARE = 0.2
"""Share of the panels that is spent evenly on the turn of the surface; the rest is spent on the chord."""


@dataclass(frozen=True)
class AnnularSection:
    """Where a section stands in the meridional plane; its leading edge is at x = 0.

    Attributes
    ----------
    leading_edge_radius : float
        Radius of the leading edge, > 0 [m].
    angle : float
        Turn of the chord line, positive when the trailing edge lies further from the axis [rad].
    length : float
        Chord, > 0 [m].
    thickness : float
        Thickness over chord [-].
    camber : float
        Turning of the circular-arc mean line, positive when it turns away from the axis and so bulges towards
        it; the thickness stands across the mean line [rad].
    lip : float
        Nose radius over that of the plain four-digit form [-].
    """

    leading_edge_radius: float
    angle: float
    length: float
    thickness: float
    camber: float = 0.0
    lip: float = 1.0

    def side(self, root: Floats, outwards: float) -> tuple[Floats, Floats]:
        """(x, r) on the outer (+1) or inner (-1) side; `root` is sqrt(distance along the chord / chord)."""
        along = self.length * root * root
        across = outwards * self.length * half_thickness(root, self.thickness, self.lip)
        if self.camber:
            rise, turn = circular_arc(root * root, self.camber)
            along, across = along - across * np.sin(turn), self.length * rise + across * np.cos(turn)
        x = along * math.cos(self.angle) - across * math.sin(self.angle)
        r = self.leading_edge_radius + along * math.sin(self.angle) + across * math.cos(self.angle)
        return x, r


def side_places(thickness: float, panels: int, lip: float = 1.0) -> Floats:
    """sqrt(x / chord) of the panel ends on one side, from leading to trailing edge, shape (panels + 1,).

    A weighted mean of two counts grows evenly: the angle of the half circle over the chord, and the turn of
    the surface. The first makes both edges fine, the second follows a thin nose, whose suction carries force.
    """
    angle = 0.5 * np.pi * np.linspace(0.0, 1.0, 6001) ** 3
    root = np.sin(angle)
    rise = (half_thickness(root[1:] * (1 + 1e-6), thickness, lip) - half_thickness(root[1:], thickness, lip)) / 1e-6
    turn = np.concatenate([[0.0], np.pi / 2 - np.arctan(rise / (2.0 * root[1:] ** 2))])
    count = (1.0 - TURN_SHARE) * angle * 2.0 / np.pi + TURN_SHARE * turn / turn[-1]
    places = np.sin(np.interp(np.linspace(0.0, 1.0, panels + 1), count, angle))
    places[-1] = 1.0
    return places


def section_contour(section: AnnularSection, panels_a_side: int) -> tuple[Floats, Floats]:
    """Closed contour of panel end points: trailing edge, inner side, leading edge, outer side, trailing edge.

    Parameters
    ----------
    section : AnnularSection
    panels_a_side : int
        Panels on each side, 10 to 1000, short at both edges and where the nose turns (see `side_places`).

    Returns
    -------
    x, r : ndarray, shape (2 panels_a_side + 1,)
        First and last points are both the trailing edge, to the last bit [m].

    Raises
    ------
    InputError
        The count is out of range, the section reaches the axis, or its shape is none (see `check_shape`).
    """
    if not 10 <= panels_a_side <= 1000:
        raise InputError(f"{panels_a_side} is outside 10 to 1000; try 80", key="panels_a_side")
    root = side_places(section.thickness, panels_a_side, section.lip)
    inner_x, inner_r = section.side(root, -1.0)
    outer_x, outer_r = section.side(root, 1.0)
    x = np.concatenate([inner_x[::-1], outer_x[1:]])
    r = np.concatenate([inner_r[::-1], outer_r[1:]])
    x[-1], r[-1] = x[0], r[0]
    if r.min() <= 0.0:
        raise InputError("the section reaches the axis; a larger radius keeps it clear", key="leading_edge_radius")
    if section.camber:
        check_shape(x, r)
    return x, r
