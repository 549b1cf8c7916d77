"""Simple radial equilibrium: the axial speed that swirl and unequal total head ask for, mean flow kept.

c dc/dr = dH/dr - (Cth/r) d(r Cth)/dr integrates, with the pressure's dp/dr = rho Cth^2/r, to
c^2/2 = c0^2/2 + H - Cth^2/2 - integral(Cth^2/r dr) + constant: integrals only, so that kinks in the swirl do no
harm. c0 is what the duct alone gives at the same radius; the constant keeps the flow.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

from racewright.errors import InputError

Floats = NDArray[np.float64]


def radial_equilibrium(radius: Floats, swirl_speed: Floats, total_head: Floats, mean_speed: float) -> Floats:
    """Axial speed over an annulus far from any row, its area mean given.

    Parameters
    ----------
    radius : ndarray, shape (m,)
        Growing from above 0, 4 or more [m].
    swirl_speed : ndarray, shape (m,)
        Cth [m/s].
    total_head : ndarray, shape (m,)
        Total head per unit mass, up to a constant [J/kg].
    mean_speed : float
        > 0 [m/s].

    Returns
    -------
    ndarray, shape (m,)
        [m/s]; positive: where the equations ask for flow that turns back, a slow flow stands for it.

    Raises
    ------
    InputError
        For values outside these ranges.
    """
    values = (radius, swirl_speed, total_head)
    if not all(np.all(np.isfinite(v)) and v.shape == radius.shape for v in values) or radius.size < 4:
        raise InputError("Radial equilibrium needs four or more radii with swirl and head at each, all numbers.")
    if radius[0] <= 0.0 or np.any(np.diff(radius) <= 0.0) or not mean_speed > 0.0:
        raise InputError("Radial equilibrium needs growing radii and a mean speed, above 0.")
    pressure = CubicSpline(radius, swirl_speed**2 / radius).antiderivative()(radius)
    weight = CubicSpline(radius, np.eye(radius.size)).integrate(float(radius[0]), float(radius[-1]))
    area = np.asarray(weight) * radius
    gain = total_head - 0.5 * swirl_speed**2 - pressure
    found: Floats = kept_flow(np.full((1, radius.size), mean_speed), gain[None, :], area)[0]
    return found


def kept_flow(base: Floats, gain: Floats, area: Floats) -> Floats:
    """Speeds with c^2 = base^2 + 2 (gain + constant), the constant such that the flow is that of `base`.

    Parameters
    ----------
    base, gain : ndarray, shape (p, n)
        [m/s], [J/kg]
    area : ndarray, shape (n,)
        Weights of the flow; only its ratios matter.

    Returns
    -------
    ndarray, shape (p, n)
        Each row the same to the byte whichever others stand beside it [m/s].
    """
    from racewright.stage.kept_flow_kernel import kept

    found: Floats = kept(np.ascontiguousarray(base), np.ascontiguousarray(gain), area)
    return found


def over(values: Floats) -> Floats:
    """Sum over the last axis, row by row: the same to the byte for any number of rows."""
    return np.asarray(np.add.reduce(np.ascontiguousarray(values), axis=-1))
