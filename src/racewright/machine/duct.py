"""The duct as a thing: an annular aerofoil around the throat."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Duct:
    """An annular aerofoil given by its throat, exit area ratio, length and thickness; inlet or camber if wanted.

    The section is a NACA 00tt thickness form with closed trailing edge (x^4 coefficient -0.1036) on a circular
    arc, its chord line turned about the leading edge so that the trailing edge lies further from the axis (a
    thick duct that hardly opens may need the turn the other way). Axial origin x = 0 is the duct's leading edge;
    x grows downstream. Throat, exit and camber fix the section, or throat, exit and inlet: then camber follows.

    Attributes
    ----------
    throat_radius : float
        Smallest inner radius, > 0 [m].
    exit_area_ratio : float
        (Trailing-edge radius / throat radius)^2, 1.0 to 3.0; both areas are full circles, the hub not
        deducted [-].
    length : float
        Chord of the section, > 0 [m].
    thickness : float
        Thickness over chord, 0.02 to 0.25 [-].
    inlet_area_ratio : float, optional
        (Leading-edge radius / throat radius)^2, 1.0 to 3.0, full circles; given instead of camber [-].
    camber : float
        Turning of the circular-arc mean line, -0.52 to 1.05; positive turns away from the axis, so that the line
        bulges towards it [rad].
    lip : float
        Nose radius over that of the plain four-digit thickness form, 0.5 to 2; 1 is the plain form [-].
    """

    throat_radius: float
    exit_area_ratio: float
    length: float
    thickness: float
    inlet_area_ratio: float | None = None
    camber: float = 0.0
    lip: float = 1.0
