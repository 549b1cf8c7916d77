"""Free opening of vanes and blades from hub to tip, and what is free across both rows."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import row as a_row
from racewright.door import whole, within
from racewright.errors import InputError
from racewright.machine.row import Row
from racewright.machine.row_fit import axial_gap
from racewright.passage.gap import free_opening, free_stick, neighbours
from racewright.passage.sphere import largest_sphere
from racewright.safety import SafetyBasis, safety_basis

Floats = NDArray[np.float64]

ANGLES = tuple(math.radians(angle) for angle in range(-85, 90, 10))
"""Middles of even steps over all angles of a stick [rad]."""
_POINTS = 24


@dataclass(frozen=True, slots=True)
class RowOpening:
    """One row at n radii and a angles.

    Attributes
    ----------
    name : str
        'vanes' or 'blades'.
    radius, pitch : ndarray, shape (n,)
        [m]
    opening : ndarray, shape (n,)
        Shortest distance between neighbours on the developed cylinder [m].
    stick : ndarray, shape (a, n)
        Longest stick that passes at its angle; the asked `longest` where it is longer or without limit [m].
    sphere, sphere_radius : float
        Diameter of the largest sphere that passes, and the radius at which it does [m].
    height : float
        Hub to wall [m].
    """

    name: str
    radius: Floats
    pitch: Floats
    opening: Floats
    stick: Floats
    sphere: float
    sphere_radius: float
    height: float


@dataclass(frozen=True, slots=True)
class Opening:
    """Both rows.

    Attributes
    ----------
    vanes, blades : RowOpening
    angle : ndarray, shape (a,)
        Of the stick from axial, positive in the direction of rotation [rad].
    stick_diameter, longest : float
        As asked [m].
    stick : ndarray, shape (a,)
        Longest that passes both rows anywhere between hub and tip [m].
    stick_anywhere : float
        Longest that passes both rows at every angle and radius [m].
    sphere : float
        Largest that passes both rows [m].
    smallest : float
        Smallest opening of either row [m].
    axial_gap : float
        Smallest axial distance between the rows [m].
    bridging : ndarray, shape (a,)
        Stick of that angle that just reaches from a vane to a blade: a longer one may jam between them, at most
        `longest` [m].
    safety : SafetyBasis
    """

    vanes: RowOpening
    blades: RowOpening
    angle: Floats
    stick_diameter: float
    longest: float
    stick: Floats
    stick_anywhere: float
    sphere: float
    smallest: float
    axial_gap: float
    bridging: Floats
    safety: SafetyBasis


def opening(
    vanes: Row,
    blades: Row,
    *,
    stick_diameter: float = 0.02,
    angle: ArrayLike = ANGLES,
    stations: int = 9,
    longest: float = 10.0,
) -> Opening:
    """Openings of both rows: by radius, for a sphere, and for a straight stick by its angle.

    Geometry only: what fits through, not what the water does with it. Sticks lie on the developed cylinder and keep
    their angle; the blades' own turning does not change what fits, since a stick that drifts sees them stand.

    Parameters
    ----------
    vanes, blades : Row
        In one machine; they must not touch.
    stick_diameter : float
        0 to 1 [m].
    angle : array_like, shape (a,)
        Within a right angle; by default the middles of 18 even steps [rad].
    stations : int
        Radii from hub to tip, 2 to 60.
    longest : float
        Length up to which sticks are looked at, 0.01 to 100 [m].

    Raises
    ------
    InputError
        A value out of range; rows that overlap.
    """
    within("stick_diameter", stick_diameter, 0.0, 1.0, "m", 0.02)
    within("longest", longest, 0.01, 100.0, "m", 10.0)
    whole("stations", stations, 2, 60, 9)
    turned = a_row("angle", angle, -0.5 * math.pi, 0.5 * math.pi, "rad")
    gap = axial_gap(vanes, blades)
    found = tuple(_row(one, turned, stick_diameter, stations, longest) for one in (vanes, blades))
    stick = np.minimum(found[0].stick.min(axis=1), found[1].stick.min(axis=1))
    reach = np.maximum(np.cos(turned), 1e-9)
    return Opening(
        vanes=found[0],
        blades=found[1],
        angle=turned,
        stick_diameter=stick_diameter,
        longest=longest,
        stick=stick,
        stick_anywhere=float(stick.min()),
        sphere=min(found[0].sphere, found[1].sphere),
        smallest=float(min(found[0].opening.min(), found[1].opening.min())),
        axial_gap=gap,
        bridging=np.minimum(gap / reach, longest),
        safety=safety_basis(
            "flood_and_debris", "geometry of the designed rows; built rows, growth and fillets are narrower", "-",
            "closed form",
        ),
    )  # fmt: skip


def sticks(row: Row, radius: Floats, angle: Floats, diameter: float, longest: float) -> Floats:
    """Longest stick of one row by angle and radius, shape (a, n) [m]; arguments as `opening`."""
    shapes, pitches = neighbours(row, radius, _POINTS)
    pairs = list(zip(shapes, pitches, strict=True))
    return np.array([[free_stick(s, float(p), float(a), diameter, longest) for s, p in pairs] for a in angle])


def _row(row: Row, angle: Floats, diameter: float, stations: int, longest: float) -> RowOpening:
    if not float(row.radius[0]) > 0.0:
        raise InputError(f"the {row.kind} reach to the axis; a row stands on a hub", key="radius")
    radius = np.linspace(row.radius[0], row.radius[-1], stations)
    shapes, pitches = neighbours(row, radius)
    hub, wall = float(row.radius[0]), float(row.radius[-1]) + row.clearance
    sphere, at = largest_sphere(row, hub, wall)
    return RowOpening(
        name=row.kind,
        radius=radius,
        pitch=pitches,
        opening=np.array([free_opening(s, float(p)) for s, p in zip(shapes, pitches, strict=True)]),
        stick=sticks(row, radius, angle, diameter, longest),
        sphere=sphere,
        sphere_radius=at,
        height=wall - hub,
    )
