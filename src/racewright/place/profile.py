"""The vertical profile of speed: a power law from bed to surface, and its cube mean over a disc."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.place.guard import within
from racewright.place.result import Floats

RIVER_N = 6.0
"""Exponent 1/6, the first-order fit to 47 measured profiles of rivers, canals and flumes [-].

Neary, Gunawan & Sale 2013, Renewable and Sustainable Energy Reviews 26:437-445 (abstract).
"""

_NODE, _WEIGHT = np.polynomial.legendre.leggauss(32)
_T, _TW = 0.5 * (_NODE + 1.0), 0.5 * _WEIGHT


def speed_at(depth_mean_speed: ArrayLike, depth: ArrayLike, height: ArrayLike, n: float = RIVER_N) -> Floats:
    """Speed at a height above the bed, u = U (1 + 1/n) (z/d)^(1/n).

    Parameters
    ----------
    depth_mean_speed : array_like
        U, mean over the vertical [m/s].
    depth : array_like
        d, water over the bed, > 0 [m].
    height : array_like
        z, above the bed, 0 to d [m].
    n : float
        The exponent is 1/n; 2 to 20, default `RIVER_N` [-].

    Raises
    ------
    InputError
        Depth not above zero, height outside the water, n outside its range.
    """
    within("the profile's n", n, 2.0, 20.0, "[-]")
    d, z = np.asarray(depth, dtype=np.float64), np.asarray(height, dtype=np.float64)
    if not (d > 0.0).all() or not ((z >= 0.0) & (z <= d)).all():
        raise InputError("the height must lie in the water, between 0 m and a depth above 0 m")
    speed: Floats = np.asarray(depth_mean_speed) * (1.0 + 1.0 / n) * (z / d) ** (1.0 / n)
    return speed


def cube_mean_speed(
    depth_mean_speed: ArrayLike, depth: ArrayLike, hub_height: ArrayLike, radius: float, n: float = RIVER_N
) -> Floats:
    """Cube root of the mean of speed^3 over an upright disc in the power-law profile.

    The mean is over the part of the disc that lies between bed and surface; it is zero where no part does.
    Whether the whole disc is in the water is for the caller to check.

    Parameters
    ----------
    depth_mean_speed : array_like
        Mean over the vertical, >= 0 [m/s].
    depth : array_like
        Water over the bed [m]; zero or less is dry.
    hub_height : array_like
        The disc's centre above the bed [m].
    radius : float
        Of the disc, > 0 [m].
    n : float
        The exponent is 1/n; 2 to 20, default `RIVER_N` [-].

    Returns
    -------
    ndarray
        Of the arguments' common shape [m/s], quadrature error below 1e-6 of the speed.

    Notes
    -----
    With z = hub height - radius cos(a), the weight is sin(a)^2; 32 Gauss-Legendre points in the root of a,
    which softens the power law's vertical tangent where the disc touches or cuts the bed.
    """
    within("the profile's n", n, 2.0, 20.0, "[-]")
    within("the capture radius", radius, 1e-3, 100.0, "m")
    speed, d, h = np.broadcast_arrays(
        *(np.asarray(v, dtype=np.float64) for v in (depth_mean_speed, depth, hub_height))
    )
    if not (np.isfinite(speed) & np.isfinite(d) & np.isfinite(h)).all():
        raise InputError("speed, depth and hub height must be finite")
    water = np.maximum(d, 0.0)
    low = np.arccos(np.clip(h / radius, -1.0, 1.0))
    high = np.maximum(np.arccos(np.clip((h - water) / radius, -1.0, 1.0)), low)
    area = 0.5 * (high - low) - 0.25 * (np.sin(2.0 * high) - np.sin(2.0 * low))
    wet = area > 1e-12
    safe = np.where(wet, water, 1.0)
    total = np.zeros_like(area)
    for t, weight in zip(_T, _TW, strict=True):
        angle = low + (high - low) * t**2
        z = np.maximum(h - radius * np.cos(angle), 0.0)
        total += (weight * 2.0 * t) * np.sin(angle) ** 2 * (z / safe) ** (3.0 / n)
    mean_cube = np.where(wet, total * (high - low) / np.where(wet, area, 1.0), 0.0)
    result: Floats = speed * (1.0 + 1.0 / n) * np.cbrt(mean_cube)
    return result
