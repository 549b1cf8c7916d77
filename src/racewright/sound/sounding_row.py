"""What makes sound in a row: its edges, their chords and the speeds at which water meets them."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.door import row, whole
from racewright.errors import InputError
from racewright.machine.over_radius import read
from racewright.machine.row import Row
from racewright.stage.result import OperatingPoint

Floats = NDArray[np.float64]

_STATIONS = 21


@dataclass(frozen=True, slots=True)
class SoundingRow:
    """One row at n radii, hub to tip.

    Attributes
    ----------
    name : str
    count : int
        1 to 200.
    radius, chord : ndarray, shape (n,)
        Radii growing [m].
    relative_speed : ndarray, shape (n,)
        Of the water against the edges [m/s].
    axial_lift : ndarray, shape (n,)
        Cosine between lift and axis: what part of a fluctuating lift pushes along the axis [-].

    Raises
    ------
    InputError
        A value is not finite or out of range, or the shapes differ.
    """

    name: str
    count: int
    radius: Floats
    chord: Floats
    relative_speed: Floats
    axial_lift: Floats

    def __post_init__(self) -> None:
        """Refuse a row that cannot be."""
        whole("count", self.count, 1, 200, 3)
        ranges = {
            "radius": (1e-3, 100.0, "m"),
            "chord": (1e-4, 100.0, "m"),
            "relative_speed": (1e-3, 100.0, "m/s"),
            "axial_lift": (0.0, 1.0, ""),
        }
        for key, (low, high, unit) in ranges.items():
            found = row(key, getattr(self, key), low, high, unit)
            if found.size < 2 or found.shape != self.radius.shape:
                raise InputError(
                    f"{key} of the {self.name} holds {found.size} numbers; give two or more, one a radius"
                )
        if np.any(np.diff(self.radius) <= 0.0):
            raise InputError(f"radius of the {self.name} must grow from hub to tip", key="radius")

    @property
    def area(self) -> float:
        """Chord over span of all its vanes or blades [m2]."""
        return self.count * float(np.trapezoid(self.chord, self.radius))

    @property
    def mean_speed(self) -> float:
        """Relative speed whose sixth power is the mean of the sixth powers, by chord over span [m/s]."""
        sixth = np.trapezoid(self.chord * self.relative_speed**6, self.radius)
        return float((sixth / np.trapezoid(self.chord, self.radius)) ** (1.0 / 6.0))


def sounding_rows(vanes: Row, blades: Row, point: OperatingPoint) -> tuple[SoundingRow, SoundingRow]:
    """Vanes and rotor at an operating point: mean relative speeds, lift square to them.

    Raises
    ------
    InputError
        The point's radii are not those of the blades.
    """
    known = point.triangles
    if known.radius.shape != blades.radius.shape or not np.allclose(known.radius, blades.radius, rtol=1e-9):
        raise InputError("the operating point belongs to other blades: its radii differ", key="point")
    turned = 0.5 * (known.swirl_in + known.swirl_out) - known.blade_speed
    return (
        _row("vanes", vanes, known.radius, known.axial_speed, 0.5 * known.swirl_in),
        _row("rotor", blades, known.radius, known.axial_speed, turned),
    )


def _row(name: str, row: Row, known: Floats, axial: Floats, around: Floats) -> SoundingRow:
    radius = np.linspace(known[0], known[-1], _STATIONS)
    along, across = read(known, axial, radius), read(known, around, radius)
    speed = np.hypot(along, across)
    chord = read(row.radius, row.chord, np.clip(radius, row.radius[0], row.radius[-1]))
    return SoundingRow(name, row.count, radius, chord, speed, np.abs(across) / speed)
