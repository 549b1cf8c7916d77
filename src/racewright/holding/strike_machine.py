"""The machine as a log meets it: outline in the horizontal plane, masses, drag."""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, pi, tan

import numpy as np

from racewright.errors import InputError
from racewright.holding.contact_numbers import Floats
from racewright.machine.drive_checks import filled, number


@dataclass(frozen=True, slots=True)
class Outline:
    """Convex outline, anticlockwise seen from above, x downstream, y across, about the machine's reference.

    Parameters
    ----------
    corner : ndarray, shape (n, 2)
        n from 3 to 12 [m].
    corner_name : tuple of str
        One a corner, e.g. 'lip', 'nose'.
    face_name : tuple of str
        One a face, from each corner to the next.
    """

    corner: Floats
    corner_name: tuple[str, ...]
    face_name: tuple[str, ...]

    def __post_init__(self) -> None:
        count = len(self.corner_name)
        object.__setattr__(self, "corner", filled("The outline", self.corner, (count, 2)))
        if not 3 <= count <= 12 or len(self.face_name) != count:
            raise InputError("the outline wants 3 to 12 corners, with a name for each corner and each face")
        edge = np.roll(self.corner, -1, axis=0) - self.corner
        turn = edge[:, 0] * np.roll(edge[:, 1], -1) - edge[:, 1] * np.roll(edge[:, 0], -1)
        if np.any(turn <= 0.0) or np.any(np.hypot(edge[:, 0], edge[:, 1]) < 1e-3):
            raise InputError("the outline must be convex, its corners anticlockwise and at least 1 mm apart")

    def place_name(self, row: int, normal: tuple[float, float]) -> str:
        """Name of a place of touch: a corner, or the face whose outward normal is nearest to `normal`."""
        if row < len(self.corner_name):
            return self.corner_name[row]
        edge = np.roll(self.corner, -1, axis=0) - self.corner
        along = (edge[:, 1] * normal[0] - edge[:, 0] * normal[1]) / np.hypot(edge[:, 0], edge[:, 1])
        return self.face_name[int(np.argmax(along))]


def blunt_outline(half_width: float, length: float) -> Outline:
    """A duct without a guard: lips either side of a flat front (bars, or logs too long to enter).

    Parameters
    ----------
    half_width, length : float
        Of the outside, 0.05 to 50 and 0.05 to 100 [m].
    """
    half = number("The half-width", half_width, 0.05, 50.0, "m")
    rear = 0.5 * number("The length", length, 0.05, 100.0, "m")
    corner = np.array([[-rear, half], [-rear, -half], [rear, -half], [rear, half]])
    return Outline(corner, ("lip", "lip", "rear edge", "rear edge"), ("front", "side", "rear", "side"))


def guarded_outline(half_width: float, length: float, lean: float) -> Outline:
    """A duct behind a nose guard whose two faces lean back from square-on.

    A log slides along a face only where the lean passes the angle of friction, atan(friction).

    Parameters
    ----------
    half_width, length : float
        Of the duct's outside [m].
    lean : float
        Angle between the face's normal and the stream, 1 to 80 degrees [rad].
    """
    half = number("The half-width", half_width, 0.05, 50.0, "m")
    rear = 0.5 * number("The length", length, 0.05, 100.0, "m")
    ahead = half * tan(number("The lean", lean, pi / 180.0, 80.0 * pi / 180.0, "rad"))
    corner = np.array([[-rear - ahead, 0.0], [-rear, -half], [rear, -half], [rear, half], [-rear, half]])
    return Outline(
        corner,
        ("nose", "lip", "rear edge", "rear edge", "lip"),
        ("guard face", "side", "rear", "side", "guard face"),
    )


@dataclass(frozen=True, slots=True)
class StruckMachine:
    """What a log meets.

    Parameters
    ----------
    outline : Outline
    surge_mass : float
        Along the stream with its added mass, > 0; water inside an open duct stays behind and is not in it [kg].
    sway_mass : float
        Across it, with the water inside and the added mass outside, > 0 [kg].
    yaw_inertia : float
        About the reference, with the same water, > 0 [kg m2].
    drag_area, side_drag_area : float
        Drag coefficient times area along the stream (rotor thrust included) and across it, >= 0 [m2].
    yaw_drag : float
        Moment over the square of the yaw rate, >= 0 [kg m2].
    fixed : bool
        Rigidly held: it does not move at all.
    """

    outline: Outline
    surge_mass: float
    sway_mass: float
    yaw_inertia: float
    drag_area: float = 0.0
    side_drag_area: float = 0.0
    yaw_drag: float = 0.0
    fixed: bool = False

    def __post_init__(self) -> None:
        number("The machine's surge mass", self.surge_mass, 1.0, 1e8, "kg")
        number("The machine's sway mass", self.sway_mass, 1.0, 1e8, "kg")
        number("The machine's yaw inertia", self.yaw_inertia, 1e-2, 1e10, "kg m2")
        number("The machine's drag area", self.drag_area, 0.0, 1e4, "m2")
        number("The machine's side drag area", self.side_drag_area, 0.0, 1e4, "m2")
        number("The machine's yaw drag", self.yaw_drag, 0.0, 1e9, "kg m2")

    @property
    def span(self) -> float:
        """Greatest distance of the outline from the reference [m]."""
        return max(hypot(float(x), float(y)) for x, y in self.outline.corner)
