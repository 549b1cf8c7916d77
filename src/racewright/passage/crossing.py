"""What a drifting body meets at a row: edges, their speed, and the water that brings it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.door import numbers, whole
from racewright.errors import InputError
from racewright.machine.duct_contour import wall_radius
from racewright.machine.hub_contour import hub_radius
from racewright.machine.over_radius import read
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.passage.edge import edge_slant, edge_thickness
from racewright.passage.strike_chance import MOST_EDGES
from racewright.stage.result import OperatingPoint

Floats = NDArray[np.float64]

STATIONS = 33


@dataclass(frozen=True, slots=True)
class RowCrossing:
    """One row as a drifting body meets it, at n radii from hub to tip.

    Attributes
    ----------
    name : str
        'vanes', 'rotor' or what the row is.
    count : int
        Vanes or blades.
    rotor_speed : float
        0 for a row that stands [rad/s].
    radius : ndarray, shape (n,)
        Growing [m].
    axial_speed, swirl : ndarray, shape (n,)
        Of the water that reaches the row; swirl positive in the direction of rotation [m/s].
    edge_thickness : ndarray, shape (n,)
        Of the leading edges, 0 when sharp [m].
    slant : ndarray, shape (n,)
        Between edge and relative speed; pi/2 is square-on [rad].

    Raises
    ------
    InputError
        A value is not finite or out of range, or the shapes differ.
    """

    name: str
    count: int
    rotor_speed: float
    radius: Floats
    axial_speed: Floats
    swirl: Floats
    edge_thickness: Floats
    slant: Floats

    def __post_init__(self) -> None:
        """Refuse a row that cannot be."""
        whole("count", self.count, 1, MOST_EDGES, 3)
        numbers("rotor_speed", self.rotor_speed, 0.0, 1e4, "rad/s")
        ranges = {
            "radius": (1e-3, 100.0, "m"),
            "axial_speed": (1e-3, 50.0, "m/s"),
            "swirl": (-100.0, 100.0, "m/s"),
            "edge_thickness": (0.0, 1.0, "m"),
            "slant": (0.0, 0.5 * math.pi, "rad"),
        }
        for key, (low, high, unit) in ranges.items():
            found = numbers(key, getattr(self, key), low, high, unit)
            if found.ndim != 1 or found.size < 2 or found.shape != self.radius.shape:
                raise InputError(
                    f"{key} of the {self.name} has shape {found.shape}; give two or more, one for a radius"
                )
        if np.any(np.diff(self.radius) <= 0.0):
            raise InputError(f"radius of the {self.name} must grow from hub to tip", key="radius")

    @property
    def relative_speed(self) -> Floats:
        """Of the edges against the water, shape (n,) [m/s]."""
        return np.hypot(self.axial_speed, self.rotor_speed * self.radius - self.swirl)

    def mean(self, values: Floats) -> Floats:
        """Mean over the flow that passes, of values (..., n): bodies come evenly with the water."""
        weight = self.radius * self.axial_speed
        total = np.trapezoid(weight, self.radius)
        return np.asarray(np.trapezoid(values * weight, self.radius, axis=-1) / total, dtype=np.float64)


def row_crossings(unit: Unit, vanes: Row, blades: Row, point: OperatingPoint) -> tuple[RowCrossing, RowCrossing]:
    """Vanes and rotor of a machine at an operating point.

    The vanes meet water without swirl, whose axial speed is the rotor's at the same share of the annulus, slower or
    faster as the annulus at their leading edges is wider or narrower. The rotor meets the vanes' swirl.

    Raises
    ------
    InputError
        The point's radii are not those of the blades.
    """
    found = point.triangles
    if found.radius.shape != blades.radius.shape or not np.allclose(found.radius, blades.radius, rtol=1e-9):
        raise InputError("the operating point belongs to other blades: its radii differ", key="point")
    return _vanes(unit, vanes, blades, point), _rotor(blades, point)


def _rotor(blades: Row, point: OperatingPoint) -> RowCrossing:
    known = point.triangles
    radius = np.linspace(known.radius[0], known.radius[-1], STATIONS)
    axial = read(known.radius, known.axial_speed, radius)
    swirl = read(known.radius, known.radius * known.swirl_in, radius) / radius
    slant = edge_slant(blades, radius, axial, swirl - point.rotor_speed * radius)
    return RowCrossing(
        "rotor", blades.count, point.rotor_speed, radius, axial, swirl, edge_thickness(blades, radius), slant
    )


def _vanes(unit: Unit, vanes: Row, blades: Row, point: OperatingPoint) -> RowCrossing:
    known = point.triangles
    radius = np.linspace(vanes.radius[0], vanes.radius[-1], STATIONS)
    front = max(vanes.place_x - 0.5 * float(vanes.chord[0] * np.cos(vanes.stagger[0])), 0.0)
    here, there = _ring(unit, front), _ring(unit, blades.place_x)
    share = np.clip((radius**2 - here[0] ** 2) / (here[1] ** 2 - here[0] ** 2), 0.0, 1.0)
    same = np.sqrt(there[0] ** 2 + share * (there[1] ** 2 - there[0] ** 2))
    same = np.clip(same, known.radius[0], known.radius[-1])
    wider = (there[1] ** 2 - there[0] ** 2) / (here[1] ** 2 - here[0] ** 2)
    axial = read(known.radius, known.axial_speed, same) * wider
    nothing = np.zeros(radius.shape)
    slant = edge_slant(vanes, radius, axial, nothing)
    return RowCrossing("vanes", vanes.count, 0.0, radius, axial, nothing, edge_thickness(vanes, radius), slant)


def _ring(unit: Unit, x: float) -> tuple[float, float]:
    """Radii of hub and wall at x [m]."""
    return float(hub_radius(unit.hub, x)), float(wall_radius(unit.duct, x))
