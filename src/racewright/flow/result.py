"""What the axisymmetric flow solver returns."""

from __future__ import annotations

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark

Floats = NDArray[np.float64]


def _nothing() -> Floats:
    return np.empty(0)


@dataclass(frozen=True)
class Axisymmetric:
    """Flow through duct and hub at a ladder of head coefficients; speeds are over the stream speed.

    Lengths are in the unit of the contours given. `m` loads, `k` rotor stations, `s` wake nodes.

    Attributes
    ----------
    head_coefficient : ndarray, shape (m,)
        CH of each load, growing from 0 [-].
    far_wake_speed : ndarray, shape (m,)
        w = sqrt(1 - CH), in a channel sqrt(u_b^2 - CH) with the bypass speed u_b [-].
    speed_ratio : ndarray, shape (m,)
        u, area-mean axial speed over the rotor annulus / U [-].
    exit_speed_ratio : ndarray, shape (m,)
        Area-mean axial speed over the exit circle (or annulus) at the duct's trailing edge / U [-].
    station_radius : ndarray, shape (k,)
        Radii of the rotor stations, hub to throat wall [length].
    profile : ndarray, shape (m, k)
        Axial speed at the stations / its area mean [-].
    duct_force, hub_force : ndarray, shape (m,)
        Axial force from surface pressures, positive downstream, over half rho U^2 times annulus area [-].
    residual : ndarray, shape (m,)
        Largest scaled residual of the wake equations at the end [-].
    converged : ndarray of bool, shape (m,)
        True where the residual met the tolerance.
    iterations : ndarray of int, shape (m,)
        Newton steps taken.
    duct_x, duct_r, hub_x, hub_r : ndarray
        Panel end points of the surfaces (hub arrays empty without a hub) [length].
    duct_speed, hub_speed : ndarray, shape (m, panels)
        Surface speed / U at panel mid-points, signed along the contour's direction [-].
    wake_x, wake_r : ndarray, shape (m, s)
        Nodes of the free vortex sheet [length].
    wake_strength : ndarray, shape (m, s-1)
        Sheet strength / U on each wake panel; `far_strength` (m,) on the closing semi-infinite cylinder [-].
    annulus_area : float
        Rotor annulus area, the reference for coefficients [length^2].
    remarks : tuple of Remark
        Validity and convergence, said in words.
    rotor_x : float
        Axial place of the disc; NaN when unknown [length].
    channel_radius : float
        Radius of the channel's rigid round wall; 0 in an open stream [length].
    channel_x : ndarray, shape (p,)
        Panel ends of that wall, empty in an open stream [length].
    channel_strength : ndarray, shape (m, p-1)
        Its sheet strength / U [-].
    bypass_speed : ndarray, shape (m,)
        Far speed between wake and wall / U; empty in an open stream, where it is 1 [-].
    """

    head_coefficient: Floats
    far_wake_speed: Floats
    speed_ratio: Floats
    exit_speed_ratio: Floats
    station_radius: Floats
    profile: Floats
    duct_force: Floats
    hub_force: Floats
    residual: Floats
    converged: NDArray[np.bool_]
    iterations: NDArray[np.int64]
    duct_x: Floats
    duct_r: Floats
    hub_x: Floats
    hub_r: Floats
    duct_speed: Floats
    hub_speed: Floats
    wake_x: Floats
    wake_r: Floats
    wake_strength: Floats
    far_strength: Floats
    annulus_area: float
    remarks: tuple[Remark, ...]
    rotor_x: float = math.nan
    channel_radius: float = 0.0
    channel_x: Floats = field(default_factory=_nothing)
    channel_strength: Floats = field(default_factory=_nothing)
    bypass_speed: Floats = field(default_factory=_nothing)


@dataclass(frozen=True)
class Streamlines:
    """Lines of constant stream function and the speed along them.

    Attributes
    ----------
    x, r : tuple of ndarray
        Points of each line [length].
    speed : tuple of ndarray
        Local speed / U at the points [-].
    captured : tuple of bool
        True for a line that passes the rotor.
    """

    x: tuple[Floats, ...]
    r: tuple[Floats, ...]
    speed: tuple[Floats, ...]
    captured: tuple[bool, ...]
