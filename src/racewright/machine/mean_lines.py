"""Mean lines of sections over chord, given by the turning from their leading to their trailing edge."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

HIGHEST = 0.4
"""Place of the four-digit mean line's largest rise over chord, as in the published sections 24tt and 44tt."""


def circular_arc(x: Floats, camber: float | Floats) -> tuple[Floats, Floats]:
    """Rise and angle of a circular arc over the chord from 0 to 1.

    Parameters
    ----------
    x : ndarray
        Place along the chord [-].
    camber : float or ndarray
        Turning, one for all places or one each; positive turns towards positive rise, so that the line bulges the
        other way [rad].

    Returns
    -------
    rise, angle : ndarray, shape of x
        Offset from the chord line over chord [-], and angle of the line from it [rad].

    Closed form: curvature k = 2 sin(camber/2), sine of the angle k (x - 1/2); largest rise tan(camber/4)/2.
    """
    curvature = 2.0 * np.sin(0.5 * camber)
    sine = curvature * (x - 0.5)
    rise = curvature * x * (x - 1.0) / (np.sqrt(1.0 - sine * sine) + np.cos(0.5 * camber))
    return rise, np.arcsin(sine)


def four_digit_line(x: Floats, camber: float | Floats) -> tuple[Floats, Floats]:
    """Rise and angle of the four-digit mean line whose largest rise stands at 0.4; arguments as `circular_arc`.

    Two parabolas, m/p^2 (2 p x - x^2) ahead of p = 0.4 and m/(1-p)^2 ((1 - 2p) + 2 p x - x^2) behind it; its
    turning is atan(2 m/p) + atan(2 m/(1 - p)).

    Source: NACA Report 460 (1933), from memory.
    """
    height = four_digit_height(camber)
    ahead = x < HIGHEST
    aft = 1.0 - HIGHEST
    rise = height * np.where(
        ahead, (2.0 * HIGHEST - x) * x / HIGHEST**2, (1.0 - 2.0 * HIGHEST + (2.0 * HIGHEST - x) * x) / aft**2
    )
    slope = 2.0 * height * (HIGHEST - x) / np.where(ahead, HIGHEST**2, aft**2)
    return -rise, -np.arctan(slope)


def four_digit_height(camber: float | Floats) -> float | Floats:
    """Largest rise over chord of the four-digit mean line of a turning; negative for a negative one [-]."""
    front, back = 2.0 / HIGHEST, 2.0 / (1.0 - HIGHEST)
    tangent = np.tan(camber)
    return 2.0 * tangent / (front + back + np.sqrt((front + back) ** 2 + 4.0 * front * back * tangent**2))
