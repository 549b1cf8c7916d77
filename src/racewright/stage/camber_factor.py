"""Zero-lift direction of a slightly cambered section in its row, by the flat-plate row's exact map.

On the circle of the map (see `row_factor`) the plate is x(f) = (s/pi) [cos g atanh(e cos f) + sin g
atan((e/q) sin f)], e = tanh y, q = 1/cosh y, trailing edge at tan p = q tan g. A camber line of slope t(x)
puts the normal speed -t x'(f) on the circle; the tangential speed that it leaves at the trailing edge is
its conjugate there, and the circulation that takes it away is proportional to it. The ratio for t = x/c (a
circular arc of unit camber) and t = 1 (unit incidence) is the camber factor: 1/4 for the section alone,
towards 1/2 (the trailing-edge angle) in a dense row. Derived here from the map of Weinig and Merchant &
Collar; linear in camber.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
_POINTS = 256
_LEAST_Q = 0.05
"""Denser rows (q below this) keep the factor of this q: the trapezoid sum needs points in proportion to
1/q.
"""
_LEAST_Y = 1e-4


def camber_factor(map_y: Floats, stagger: Floats) -> Floats:
    """Zero-lift direction less stagger, over camber.

    Parameters
    ----------
    map_y : ndarray, shape (n,)
        Map parameter from `row_factor` [-].
    stagger : ndarray, shape (n,)
        [rad]

    Returns
    -------
    ndarray, shape (n,)
        0.25 (alone) to about 0.5 (dense) [-].
    """
    y = np.clip(map_y, _LEAST_Y, np.arccosh(1.0 / _LEAST_Q))[..., None]
    cos_g, sin_g = np.cos(stagger)[..., None], np.abs(np.sin(stagger))[..., None]
    e, q = np.tanh(y), 1.0 / np.cosh(y)
    edge = np.arctan2(q * sin_g, cos_g)
    half = (np.arange(_POINTS) + 0.5) * np.pi / _POINTS
    f = edge + 2.0 * half
    x = cos_g * np.arctanh(e * np.cos(f)) + sin_g * np.arctan(e / q * np.sin(f))
    slope = (q * sin_g * np.cos(f) - cos_g * np.sin(f)) / (q**2 + (e * np.sin(f)) ** 2)
    chord = 2.0 * (cos_g * np.arctanh(e * np.cos(edge)) + sin_g * np.arctan(e / q * np.sin(edge)))
    weight = slope / np.tan(half)
    return np.asarray(np.sum(x / chord * weight, axis=-1) / np.sum(weight, axis=-1), dtype=np.float64)
