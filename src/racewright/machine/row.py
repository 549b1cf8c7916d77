"""A row of vanes or blades as a thing: sections by radius."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Row:
    """Vanes or blades, section by section from hub to tip.

    Angles are from the axial direction, positive in the direction of rotation. `camber` is the turning of a
    section's camber line from its leading to its trailing edge, positive when it turns the flow towards positive
    angles. Sections lie on cylinders; their mid-chords stand on the stacking line.

    Attributes
    ----------
    kind : {'vanes', 'blades'}
        Vanes stand still, blades turn.
    count : int
        Number of vanes or blades, >= 1.
    place_x : float
        Axial place of the innermost section's mid-chord, from the duct's leading edge [m].
    radius : ndarray, shape (n,)
        Radii of the sections, growing [m].
    chord : ndarray, shape (n,)
        Chord [m].
    stagger : ndarray, shape (n,)
        Angle of the chord line from axial [rad].
    camber : ndarray, shape (n,)
        Turning of the camber line [rad].
    thickness : ndarray, shape (n,)
        Thickness over chord [-].
    clearance : float
        Gap between tip and duct, 0 for a row held at both ends [m].
    sweep : ndarray, shape (n,)
        Angle of the stacking line from radial as seen from the side, positive when it leans downstream with
        growing radius; 0 when not given [rad].
    lean : ndarray, shape (n,)
        Angle of the stacking line from radial as seen along the axis, positive when it leans in the direction of
        rotation with growing radius; 0 when not given [rad].
    family : str
        Name of the sections' family (see `sections.FAMILIES`).

    Raises
    ------
    InputError
        Sweep or lean has another length than the radii.
    """

    kind: Literal["vanes", "blades"]
    count: int
    place_x: float
    radius: Floats
    chord: Floats
    stagger: Floats
    camber: Floats
    thickness: Floats
    clearance: float
    sweep: Floats = field(default_factory=lambda: np.zeros(0))
    lean: Floats = field(default_factory=lambda: np.zeros(0))
    family: str = "circular_arc"

    def __post_init__(self) -> None:
        """An angle that is not given is 0 at every section."""
        for key in ("sweep", "lean"):
            given = getattr(self, key)
            if given.size == 0:
                object.__setattr__(self, key, np.zeros(self.radius.shape))
            elif given.shape != self.radius.shape:
                raise InputError(f"holds {given.size} angles for {self.radius.size} radii; give one each", key=key)


def stacking_line(row: Row) -> tuple[Floats, Floats]:
    """Axial places of the mid-chords and their angles about the axis from the innermost one, by radius.

    Returns
    -------
    x : ndarray, shape (n,)
        place_x plus the integral of tan(sweep) over radius, by trapezia [m].
    around : ndarray, shape (n,)
        Integral of tan(lean)/radius over radius, by trapezia, positive in the direction of rotation [rad].
    """
    return row.place_x + _summed(np.tan(row.sweep), row.radius), _summed(np.tan(row.lean) / row.radius, row.radius)


def _summed(rate: Floats, radius: Floats) -> Floats:
    return np.concatenate([[0.0], np.cumsum(0.5 * (rate[1:] + rate[:-1]) * np.diff(radius))])
