"""The duct as a ring wing: side force and its place under yaw or pitch, by a lattice of horseshoe vortices.

A thin cylinder at a small angle to the stream carries circulation that varies with the cosine of the angle round
it, so one row of panels along the chord tells all of it. Linear, without rotor, thickness or wake roll-up.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from racewright.holding.checked import Floats, vector
from racewright.machine.drive_checks import number

_ALONG, _ROUND = (8, 16), 128
"""Panels along the chord, coarse and fine, and round the ring; the two are extrapolated [-]."""


@dataclass(frozen=True, slots=True)
class RingWing:
    """Side force of a ring that meets the stream at an angle.

    Attributes
    ----------
    diameter, chord : float
        [m]
    slope : float
        Normal force over dynamic pressure, diameter x chord and sine x cosine of the angle [1/rad].
    force_place : float
        Where it acts, behind the leading edge over the chord, for small angles [-].
    middle : tuple of float
        Mid-chord point on the duct's axis, body axes [m].
    basis : str
        Where slope and place come from.
    """

    diameter: float
    chord: float
    slope: float
    force_place: float
    middle: tuple[float, float, float]
    basis: str

    def __post_init__(self) -> None:
        number("The duct's diameter", self.diameter, 1e-3, 200.0, "m")
        number("The duct's chord", self.chord, 1e-3, 200.0, "m")
        number("The ring wing's slope", self.slope, 0.0, 20.0, "per rad")
        number("The place of its force", self.force_place, -1.0, 2.0)
        vector("The middle of the duct", self.middle)


def ring_wing(
    diameter: float,
    chord: float,
    middle: tuple[float, float, float] = (0.0, 0.0, 0.0),
    *,
    slope: float | None = None,
    force_place: float | None = None,
) -> RingWing:
    """A ring wing with computed or given slope.

    Parameters
    ----------
    diameter, chord : float
        Of the ring, diameter/chord 0.1 to 20 [m].
    middle : tuple of float
        Mid-chord point on the axis, body axes (x from inlet to exit, z up) [m].
    slope, force_place : float, optional
        In place of the computed ones, see `RingWing`.

    Notes
    -----
    The slope is that of an empty thin ring. A loaded rotor, thickness and stall change it: test or simulate the
    machine in yaw where this force matters.
    """
    number("The duct's diameter", diameter, 1e-3, 200.0, "m")
    number("The duct's chord", chord, 1e-3, 200.0, "m")
    number("Diameter over chord", diameter / chord, 0.1, 20.0)
    computed = _extrapolated(round(diameter / chord, 9))
    basis = "linear vortex lattice of a thin empty ring, computed here"
    if slope is not None or force_place is not None:
        basis = "given by the user"
    return RingWing(
        diameter,
        chord,
        computed[0] if slope is None else slope,
        computed[1] if force_place is None else force_place,
        middle,
        basis,
    )


@cache
def _extrapolated(aspect_ratio: float) -> tuple[float, float]:
    """Slope and place of force; the lattice's error falls with the square of the panels along the chord."""
    (slope, place), (fine_slope, fine_place) = (lattice(aspect_ratio, n, _ROUND) for n in _ALONG)
    return fine_slope + (fine_slope - slope) / 3.0, fine_place + (fine_place - place) / 3.0


def lattice(aspect_ratio: float, along: int, around: int) -> tuple[float, float]:
    """Slope [1/rad] and place of force over chord [-] of a thin ring.

    Parameters
    ----------
    aspect_ratio : float
        Diameter over chord [-].
    along, around : int
        Panels along the chord and round the ring [-].
    """
    radius = 0.5 * aspect_ratio
    step, half = 1.0 / along, math.pi / around
    bound = np.asarray((np.arange(along) + 0.25) * step, dtype=np.float64)
    control = np.asarray((np.arange(along) + 0.75) * step, dtype=np.float64)
    angle = np.asarray(2.0 * half * np.arange(around), dtype=np.float64)
    wash = _wash(bound, control, radius, angle, half) @ np.cos(angle)
    strength = np.linalg.solve(wash, np.ones(along))
    pieces = 2.0 * radius * math.sin(half) * float(np.sum(np.cos(angle) ** 2))
    force = strength * pieces
    total = float(force.sum())
    return total / (0.5 * aspect_ratio), float(force @ bound) / total


def _wash(bound: Floats, control: Floats, radius: float, angle: Floats, half: float) -> Floats:
    """Radial speed at control points (angle 0) from unit horseshoes, shape (control, bound, angle)."""
    points = np.stack([control, np.full_like(control, radius * math.cos(half)), np.zeros_like(control)], axis=1)
    place = points[:, None, None, :]
    ends = []
    for side in (-half, half):
        at = np.zeros((bound.size, angle.size, 3))
        at[..., 0] = bound[:, None]
        at[..., 1], at[..., 2] = radius * np.cos(angle + side), radius * np.sin(angle + side)
        ends.append(at[None])
    low, high = ends
    speed = _piece(place - low, place - high) + _leg(place - high) - _leg(place - low)
    return np.asarray(speed[..., 1])


def _piece(a: Floats, b: Floats) -> Floats:
    """Speed of a unit straight vortex, a and b from its ends to the place."""
    la, lb = (np.linalg.norm(v, axis=-1) for v in (a, b))
    share = (la + lb) / (la * lb * (la * lb + np.sum(a * b, axis=-1)))
    return np.asarray(np.cross(a, b) * share[..., None] / (4.0 * math.pi))


def _leg(a: Floats) -> Floats:
    """Speed of a unit vortex from a point downstream to infinity, a from that point to the place."""
    away = np.linalg.norm(a, axis=-1)
    square = a[..., 1] ** 2 + a[..., 2] ** 2
    share = (1.0 + a[..., 0] / away) / (4.0 * math.pi * square)
    return np.stack([np.zeros_like(share), -a[..., 2] * share, a[..., 1] * share], axis=-1)
