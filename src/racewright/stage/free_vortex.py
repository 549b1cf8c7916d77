"""Velocity triangles of a free vortex at given radii."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.stage.result import Triangles

Floats = NDArray[np.float64]


def triangles(
    radius: Floats, rotor_speed: float, axial_speed: Floats | float, swirl_in: Floats, swirl_out: Floats
) -> Triangles:
    """Triangles from speeds.

    Parameters
    ----------
    radius : ndarray, shape (n,)
        > 0 [m].
    rotor_speed : float
        [rad/s].
    axial_speed : ndarray, shape (n,), or float
        > 0 [m/s].
    swirl_in, swirl_out : ndarray, shape (n,)
        Swirl speed before and behind the rotor [m/s].
    """
    axial = np.broadcast_to(np.asarray(axial_speed, dtype=np.float64), radius.shape).copy()
    if not np.all(np.isfinite(radius)) or np.any(radius <= 0.0) or not np.all(axial > 0.0):
        raise InputError("Triangles need radii and axial speeds above 0.")
    blade_speed = rotor_speed * radius
    return Triangles(
        radius,
        blade_speed,
        axial,
        swirl_in,
        swirl_out,
        np.arctan2(swirl_in, axial),
        np.arctan2(swirl_in - blade_speed, axial),
        np.arctan2(swirl_out - blade_speed, axial),
    )


def free_vortex(
    radius: Floats, rotor_speed: float, axial_speed: Floats | float, swirl_k: float, exit_k: float = 0.0
) -> Triangles:
    """Triangles of r Cth = `swirl_k` before and `exit_k` behind the rotor [m2/s]; other arguments as
    `triangles`.
    """
    return triangles(radius, rotor_speed, axial_speed, swirl_k / radius, exit_k / radius)
