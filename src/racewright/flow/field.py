"""Velocity and stream function anywhere around a computed load."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.flow.contours import inner_side
from racewright.flow.kernels import field_sum
from racewright.flow.result import Axisymmetric
from racewright.flow.vorticity import elements_of

Floats = NDArray[np.float64]


def velocity(flow: Axisymmetric, load_index: int, x: Floats, r: Floats) -> tuple[Floats, Floats]:
    """Axial and radial velocity over the stream speed at points of the water.

    Within one panel's length of a wall or of the free sheet the panels' constant strength shows; on a sheet
    the mean of both sides is returned, inside a wall about zero.

    Parameters
    ----------
    flow : Axisymmetric
    load_index : int
        Which load.
    x, r : ndarray, same shape
        Points, r >= 0 [length].

    Returns
    -------
    axial, radial : ndarray, shape of x
        [-]

    Raises
    ------
    InputError
        A point is not finite or has r < 0, or there is no such load.
    """
    sums = _sums(flow, load_index, x, r)
    return 1.0 + sums[..., 1], sums[..., 2]


def pressure(flow: Axisymmetric, load_index: int, x: Floats, r: Floats) -> Floats:
    """Pressure coefficient (p - p0)/(rho U^2/2) at points of the water, p0 that of the stream, shape of x [-].

    Bernoulli: 1 - V^2, less CH where the water has passed the disc, which is behind it and within duct and sheet.
    Parameters, errors and the panels' nearness as in `velocity`; InputError also where the disc's place is unknown.
    """
    axial, radial = velocity(flow, load_index, x, r)
    if not math.isfinite(flow.rotor_x):
        raise InputError("the flow does not say where its disc stands", key="rotor_x")
    x, r = np.asarray(x, dtype=np.float64), np.asarray(r, dtype=np.float64)
    wall_x, wall_r = inner_side(flow.duct_x, flow.duct_r)
    sheet = np.interp(x, flow.wake_x[load_index], flow.wake_r[load_index])
    edge = np.where(x < wall_x[-1], np.interp(x, wall_x, wall_r), sheet)
    lower = np.where((x > flow.rotor_x) & (r < edge), flow.head_coefficient[load_index], 0.0)
    return np.asarray(1.0 - axial**2 - radial**2 - lower, dtype=np.float64)


def stream_function(flow: Axisymmetric, load_index: int, x: Floats, r: Floats) -> Floats:
    """Stokes stream function over the stream speed [length^2], 0 on the axis and r^2/2 far upstream.

    Parameters and errors as in `velocity`. 2 pi times it is the flow through the circle of radius r at x.
    """
    return 0.5 * np.asarray(r, dtype=np.float64) ** 2 + _sums(flow, load_index, x, r)[..., 0]


def _sums(flow: Axisymmetric, load_index: int, x: Floats, r: Floats) -> Floats:
    x, r = np.asarray(x, dtype=np.float64), np.asarray(r, dtype=np.float64)
    if x.shape != r.shape:
        raise InputError(f"x and r must have one shape; found {x.shape} and {r.shape}", key="x")
    if not np.all(np.isfinite(x) & np.isfinite(r)) or np.any(r < 0.0):
        raise InputError("points must be finite, with r 0 or more", key="r")
    ends, shapes, strength, far = elements_of(flow, load_index)
    return field_sum(x.ravel(), r.ravel(), ends, shapes, strength, far).reshape((*x.shape, 3))
