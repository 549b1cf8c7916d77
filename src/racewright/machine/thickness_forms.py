"""Half thickness of sections over chord, against the root of the distance along the chord."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

NOSE = 0.2969
"""Coefficient of the root of x in the four-digit form of thickness 0.2; nose radius over chord = NOSE^2/2."""

THICKEST = 0.3
"""Nominal place of the largest thickness of the plain four-digit form, over chord."""

EDGE = 0.01
"""Half thickness of the modified form at its trailing edge over thickness."""

MODIFIED_PLACE = 0.4
"""Place of the largest thickness of the modified form over chord; its nose is that of the plain form."""

_EDGE_RATE = {0.2: 0.200, 0.3: 0.234, 0.4: 0.315, 0.5: 0.465, 0.6: 0.700}
"""Coefficient of 1 - x in the modified form, by the place of its largest thickness."""


def half_thickness(root: Floats, thickness: float | Floats, lip: float = 1.0) -> Floats:
    """Half thickness over chord of NACA 00tt with closed trailing edge, at root = sqrt(x / chord).

    Another nose radius adds the difference of two four-digit-modified forms whose largest thickness stands at
    0.3: a root term and a cubic, both with value, slope and curvature 0 there. With z = sqrt(x / 0.3) it is
    z (1 - z)^3 (1 + 9 z / 8 + 3 z^2 / 8), nothing behind 0.3.

    Parameters
    ----------
    root : ndarray
        0 to 1 [-].
    thickness : float or ndarray
        Thickness over chord, one for all places or one each [-].
    lip : float
        Nose radius over that of the plain form, > 0 [-].

    Source: four-digit thickness form, NACA Report 460 (1933), with the x^4 coefficient -0.1036 that closes
    the trailing edge; modified forms, NACA Report 492 (1934), equations as in NASA TM X-3284 (1975). From memory.
    """
    s = root * root
    form = NOSE * root + s * (-0.1260 + s * (-0.3516 + s * (0.2843 - 0.1036 * s)))
    if lip != 1.0:
        z = np.minimum(root / np.sqrt(THICKEST), 1.0)
        more = z * (1.0 - z) ** 3 * (1.0 + 1.125 * z + 0.375 * z * z)
        form = form + NOSE * np.sqrt(THICKEST) * (np.sqrt(lip) - 1.0) * more
    return thickness / 0.2 * form


def modified_half_thickness(
    root: Floats, thickness: float | Floats, place: float = MODIFIED_PLACE, nose: float = 6.0
) -> Floats:
    """Half thickness over chord of the four-digit-modified form: two cubics that meet at the largest thickness.

    The trailing edge stays open by 2 % of the thickness.

    Parameters
    ----------
    root : ndarray
        sqrt(x / chord), 0 to 1 [-].
    thickness : float or ndarray
        Thickness over chord, one for all places or one each [-].
    place : float
        Where the section is thickest over chord: 0.2, 0.3, 0.4, 0.5 or 0.6 [-].
    nose : float
        Nose index; the nose radius goes as its square, 6 is that of the plain form [-].

    Source: NACA Report 492 (1934); coefficients as in NASA TM X-3284 (1975). From memory.
    """
    rate, aft = _EDGE_RATE[place], 1.0 - place
    back = (0.002, rate, (0.294 - 2.0 * aft * rate) / aft**2, (-0.196 + aft * rate) / aft**3)
    bend = 0.2 * aft**2 / (0.588 - 2.0 * rate * aft)
    first = 0.296904 * nose / 6.0
    front = (
        0.3 / place - 1.875 * first / np.sqrt(place) - place / (10.0 * bend),
        -0.3 / place**2 + 1.25 * first / place**1.5 + 1.0 / (5.0 * bend),
        0.1 / place**3 - 0.375 * first / place**2.5 - 1.0 / (10.0 * bend * place),
    )
    x = root * root
    left = 1.0 - x
    ahead = first * root + x * (front[0] + x * (front[1] + x * front[2]))
    behind = back[0] + left * (back[1] + left * (back[2] + left * back[3]))
    return thickness / 0.2 * np.where(x < place, ahead, behind)


def plate_half_thickness(root: Floats, thickness: float | Floats) -> Floats:
    """Half thickness over chord of a plate with a half-round nose, parallel sides and a square end.

    Closed form: the nose is a half circle of radius thickness/2.
    """
    x = np.minimum(root * root, 0.5 * thickness)
    return np.sqrt(x * (thickness - x))


def biconvex_half_thickness(root: Floats, thickness: float | Floats) -> Floats:
    """Half thickness over chord between two equal circular arcs that meet at both edges.

    Closed form: an arc of rise h = thickness/2 over the chord has the radius (1 + 4 h^2)/(8 h).
    """
    x = root * root
    rise = 0.5 * thickness
    radius = (1.0 + 4.0 * rise**2) / (8.0 * rise)
    apart = x - 0.5
    return (x * (1.0 - x)) / (np.sqrt(radius**2 - apart**2) + (radius - rise))
