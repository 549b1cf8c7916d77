"""Radii at which the stage is computed, and their shares of the annulus."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

from racewright.errors import InputError
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.stage.radial_equilibrium import over
from racewright.stage.span import Span, apply, span

Floats = NDArray[np.float64]
_BLADE_POINTS = 8
_GAP_POINTS = 2


@dataclass(frozen=True)
class Annulus:
    """Stations between hub and wall: Gauss points for the integrals, then the radii that are shown.

    Attributes
    ----------
    radius : ndarray, shape (n,)
        [m]
    area : ndarray, shape (n,)
        Share of the annulus area at each radius, 0 for the radii that are only shown; sums to the whole [m2].
    shown : slice
        Where the shown radii lie.
    profile_of : ndarray, shape (n, k)
        Takes the flow's profile at its stations to the profile here.
    span : Span
        Integrals and slopes over the blades' span, from its Gauss points, which are the first stations.
    length, wall : float
        Hub to wall, and the wall's radius [m].
    """

    radius: Floats
    area: Floats
    shown: slice
    profile_of: Floats
    span: Span
    length: float
    wall: float

    def axial_speed(self, profile: Floats, mean_speed: Floats) -> Floats:
        """Axial speed at the radii [m/s], shape (p, n), of area means `mean_speed` (p,).

        `profile` at the flow's stations, shape (p, k) [-].
        """
        here = apply(self.profile_of, profile)
        speed: Floats = here * (mean_speed * over(self.area[None, :]) / over(here * self.area))[:, None]
        return speed

    def flow_within(self, axial_speed: Floats) -> Floats:
        """Flow between the hub and each radius, shape (p, n), even over the gap [m3/s]."""
        maps = self.span
        on_span = apply(maps.flow, axial_speed[:, : maps.flow.shape[1]])
        gap = np.where(maps.on_span, 0.0, self.radius**2 - maps.tip**2)
        left = over(axial_speed * self.area) - on_span[:, -1]
        whole = self.wall**2 - maps.tip**2
        within: Floats = on_span + left[:, None] * (gap / whole if whole > 0.0 else gap)
        return within


def annulus(flow: Axisymmetric, vanes: Row, blades: Row) -> Annulus:
    """Stations of a stage: each stretch between hub, tips and wall has its own Gauss points.

    Raises
    ------
    InputError
        Where rows and flow do not fit each other.
    """
    station = np.asarray(flow.station_radius, dtype=np.float64)
    hub, wall = float(station[0]), float(station[-1])
    if not 0.0 < hub < wall:
        raise InputError(f"The stage needs a hub; the flow's rotor stations reach from {hub:.4g} to {wall:.4g} m.")
    whole = np.pi * (wall**2 - hub**2)
    if abs(flow.annulus_area / whole - 1.0) > 1e-3:
        raise InputError(
            f"The flow's annulus area is {flow.annulus_area:.6g} m2, its rotor stations enclose "
            f"{whole:.6g} m2; they must agree."
        )
    for row in (vanes, blades):
        _check(row, hub, wall)
    shown = blades.radius
    tips = sorted({min(float(row.radius[-1]), wall) for row in (vanes, blades)})
    edges = [hub, *[t for t in tips if wall - t > 1e-9 * wall], wall]
    radius, area = [], []
    for i, (a, b) in enumerate(pairwise(edges)):
        points, weights = np.polynomial.legendre.leggauss(_BLADE_POINTS if i == 0 else _GAP_POINTS)
        r = 0.5 * (a + b) + 0.5 * (b - a) * points
        radius.append(r)
        area.append(np.pi * r * weights * (b - a))
    count = sum(r.size for r in radius)
    every = np.concatenate([*radius, shown])
    share = np.concatenate([*area, np.zeros(shown.size)])
    matrix = np.asarray(CubicSpline(station, np.eye(station.size))(every), dtype=np.float64)
    maps = span(radius[0], hub, edges[1], every)
    return Annulus(every, share, slice(count, every.size), matrix, maps, wall - hub, wall)


def _check(row: Row, hub: float, wall: float) -> None:
    span = wall - hub
    if row.radius.size < 2 or not np.all(np.diff(row.radius) > 0.0):
        raise InputError(f"The sections of the {row.kind} need two or more growing radii.")
    if row.radius[-1] > wall + 1e-6 * span:
        raise InputError(
            f"The {row.kind} reach to {row.radius[-1]:.4f} m, the wall stands at {wall:.4f} m; shorten them."
        )
    if abs(row.radius[0] - hub) > 0.02 * span:
        raise InputError(
            f"The {row.kind} start at {row.radius[0]:.4f} m, the hub's radius there is {hub:.4f} m; "
            "they must agree within 2 % of the span."
        )
