"""A row of vanes or blades as a thing: sections by radius."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Row:
    """Vanes or blades, section by section from hub to tip.

    Angles are from the axial direction, positive in the direction of rotation. A section's camber line is a
    circular arc; `camber` is the turning from its leading to its trailing edge, positive when it turns the
    flow towards positive angles.

    Attributes
    ----------
    kind : {'vanes', 'blades'}
        Vanes stand still, blades turn.
    count : int
        Number of vanes or blades, >= 1.
    place_x : float
        Axial place of the row's mid-chord, from the duct's leading edge [m].
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
