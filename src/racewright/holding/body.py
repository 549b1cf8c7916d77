"""The floating body: weight, buoyancy, their centres, where the loads act, its outline and its inertia."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from racewright.errors import InputError
from racewright.holding.checked import Floats, array, vector
from racewright.holding.ring_wing import RingWing
from racewright.machine.drive_checks import number

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Body:
    """A rigid body under water. Body axes: x along the machine's axis from inlet to exit, z up, y completes them.

    Attributes
    ----------
    weight : float
        In air, without the water inside, > 0 [N].
    buoyancy : float
        Of the displaced water when wholly under water, > 0 [N].
    centre_of_weight, centre_of_buoyancy : tuple of float
        Body axes [m].
    outline : ndarray, shape (k, 3)
        Points that reach furthest: the highest must stay under water, the lowest off the bed [m].
    thrust_centre, drag_centre : tuple of float
        Where thrust and drag act, default the origin [m].
    duct : RingWing or None
        Side force under yaw and pitch; none when left out.
    side_drag_area : float
        Drag coefficient x area of the body across its axis, >= 0, default 0 [m2].
    side_drag_centre : tuple of float
        Where that drag acts, default the origin [m].
    inertia : ndarray, shape (6, 6)
        Mass with added mass and water inside, about the origin, body axes: forces over accelerations first
        [kg], [kg m], [kg m2]. Left out: weight/gravity as a point mass and a sphere, no added mass, and a remark.
    """

    weight: float
    buoyancy: float
    centre_of_weight: Point
    centre_of_buoyancy: Point
    outline: Floats
    thrust_centre: Point = (0.0, 0.0, 0.0)
    drag_centre: Point = (0.0, 0.0, 0.0)
    duct: RingWing | None = None
    side_drag_area: float = 0.0
    side_drag_centre: Point = (0.0, 0.0, 0.0)
    inertia: Floats = field(default_factory=lambda: np.zeros((0, 0)))

    def __post_init__(self) -> None:
        number("The weight", self.weight, 1e-3, 1e10, "N")
        number("The buoyancy", self.buoyancy, 1e-3, 1e10, "N")
        number("The side drag area", self.side_drag_area, 0.0, 1e6, "m2")
        for name in ("centre_of_weight", "centre_of_buoyancy", "thrust_centre", "drag_centre", "side_drag_centre"):
            object.__setattr__(self, name, vector(f"The {name.replace('_', ' ')}", getattr(self, name)))
        object.__setattr__(self, "outline", array("The body's outline", self.outline, (-1, 3)))
        if np.size(self.inertia):
            object.__setattr__(self, "inertia", array("The body's inertia", self.inertia, (6, 6)))
            if np.min(np.linalg.eigvalsh(0.5 * (self.inertia + self.inertia.T))) <= 0.0:
                raise InputError("The body's inertia must be a matrix whose energy is positive for every motion.")

    @property
    def size(self) -> float:
        """Longest of the outline's extents, at least 1 cm [m]."""
        return max(1e-2, float(np.max(np.ptp(self.outline, axis=0))), 0.5 * float(np.max(np.abs(self.outline))))


def cylinder_outline(outer_radius: float, nose: float, tail: float, around: int = 16) -> Floats:
    """Outline of a duct: two rings about the x axis.

    Parameters
    ----------
    outer_radius : float
        > 0 [m].
    nose, tail : float
        x of the inlet's and the exit's plane, nose < tail [m].
    around : int
        Points on a ring, one of them on top, one below; a multiple of 4.
    """
    number("The outer radius", outer_radius, 1e-3, 200.0, "m")
    number("The tail's x", tail, nose, nose + 1e3, "m")
    angle = 2.0 * np.pi * np.arange(around) / around
    ring = np.stack([np.zeros(around), outer_radius * np.cos(angle), outer_radius * np.sin(angle)], axis=1)
    front, back = np.array([nose, 0.0, 0.0]), np.array([tail, 0.0, 0.0])
    return np.concatenate([ring + front, ring + back])
