"""Chance that a straight body that drifts through a row is touched by an edge: closed form."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers, whole

Floats = NDArray[np.float64]

MOST_EDGES = 200
LONGEST = 50.0
"""Longest body that is taken [m]."""


def strike_chance(
    count: int,
    rotor_speed: float,
    axial_speed: ArrayLike,
    radius: ArrayLike,
    length: ArrayLike,
    *,
    swirl: ArrayLike = 0.0,
    body_angle: ArrayLike = 0.0,
    body_width: ArrayLike = 0.0,
    edge_thickness: ArrayLike = 0.0,
) -> Floats:
    """Chance that the row's edges touch the body, 0 to 1 [-].

    On the developed cylinder the edges are discs of diameter t, one pitch s = 2 pi r/B apart, that move at Omega r;
    the body is an ellipse of axes L and w, at an angle a from axial, that drifts with the water at (V, Cth).
    Its shadow along the relative speed, widened by t, lies over the row's pitch:

        P = (sqrt(L^2 (sin a - cos a tan b)^2 + w^2 (cos a + sin a tan b)^2) + t/cos b)/s,  tan b = (Cth - Omega r)/V

    and at most 1. It is exact for edges that do not bend and a body that does not turn or steer. With w = t = 0 and
    a = 0 it is B L |Omega - Cth/r|/(2 pi V): swirl in the direction of rotation lowers it. With the body along the
    water, tan a = Cth/V, swirl enters through cos a only: B L Omega cos a/(2 pi V), von Raben's form (1957).

    Parameters
    ----------
    count : int
        B, edges in the row, 1 to 200.
    rotor_speed : float
        Omega, 0 for a row that stands [rad/s].
    axial_speed : array_like
        V, 1e-3 to 50 [m/s].
    radius : array_like
        r, 1e-3 to 100 [m].
    length : array_like
        L, 1e-4 to 50 [m].
    swirl : array_like
        Cth of the water that reaches the row, positive in the direction of rotation [m/s].
    body_angle : array_like
        a, from axial, positive in the direction of rotation, within a right angle [rad].
    body_width : array_like
        w in the plane of axis and rotation, 0 to L [m].
    edge_thickness : array_like
        t, 0 or more [m].

    Returns
    -------
    ndarray
        Shape of the arguments laid over each other.

    Raises
    ------
    InputError
        A value is not finite or outside its range.

    Examples
    --------
    >>> round(float(strike_chance(3, 16.0, 2.0, 0.5, 0.15)), 6)
    0.572958
    """
    whole("count", count, 1, MOST_EDGES, 3)
    speed = float(numbers("rotor_speed", rotor_speed, 0.0, 1e4, "rad/s"))
    axial = numbers("axial_speed", axial_speed, 1e-3, 50.0, "m/s")
    place = numbers("radius", radius, 1e-3, 100.0, "m")
    long = numbers("length", length, 1e-4, LONGEST, "m")
    around = numbers("swirl", swirl, -100.0, 100.0, "m/s")
    angle = numbers("body_angle", body_angle, -0.5 * math.pi, 0.5 * math.pi, "rad")
    wide = numbers("body_width", body_width, 0.0, LONGEST, "m")
    edge = numbers("edge_thickness", edge_thickness, 0.0, 1.0, "m")
    tangent = (around - speed * place) / axial
    across = long * (np.sin(angle) - np.cos(angle) * tangent)
    beside = wide * (np.cos(angle) + np.sin(angle) * tangent)
    shadow = np.hypot(across, beside) + edge * np.hypot(1.0, tangent)
    return np.asarray(np.minimum(1.0, shadow * count / (2.0 * math.pi * place)), dtype=np.float64)
