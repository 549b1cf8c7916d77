"""Axial forces on duct and hub from surface speeds by Bernoulli's equation, and what momentum asks for."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

Floats = NDArray[np.float64]


def pressure_force(x: Floats, r: Floats, speed: Floats) -> float:
    """Axial force of the pressure 1 - speed^2 on a contour with the water on its left, positive downstream.

    Over half rho U^2 [length^2]; total head that of the stream everywhere. On a panel pressure is that of its
    mid-point.
    """
    area = np.pi * (r[1:] ** 2 - r[:-1] ** 2)
    return float(np.sum((1.0 - speed**2) * area))


def smooth_pressure_force(r: Floats, speed: Floats) -> float:
    """As `pressure_force` on a smooth closed wall, whose radius is a spline over the count of its points.

    A panel's share of area is the spline's rate at its middle, not the difference over its ends: on a closed
    wall the mid-point rule over the count then leaves next to nothing of its own error. Over half rho U^2 [length^2].
    """
    count = np.arange(r.size, dtype=np.float64)
    radius = CubicSpline(count, r)
    middle = count[:-1] + 0.5
    return float(np.sum((1.0 - speed**2) * 2.0 * np.pi * radius(middle) * radius(middle, 1)))


def lower_head_force(head_coefficient: float, radius_at_disc: float, radius_at_end: float) -> float:
    """Further force on a wall that bounds the water behind the disc, where total head is lower by dh.

    The wall runs from the disc to its end (the trailing edge, or 0 for the hub's tail); exact for any shape.
    Positive downstream for a duct that widens. Over half rho U^2 [length^2].
    """
    return head_coefficient * float(np.pi) * (radius_at_end**2 - radius_at_disc**2)


def momentum_force(head_coefficient: Floats, speed_ratio: Floats) -> Floats:
    """CT of duct and hub that momentum asks for: (1 - w)(2 u - 1 - w), w = sqrt(1 - CH) [-].

    From thrust on the disc CH = 1 - w^2 and on everything 2 u (1 - w).
    """
    w = np.sqrt(1.0 - head_coefficient)
    return (1.0 - w) * (2.0 * speed_ratio - 1.0 - w)
