"""Where log and machine first meet, and how both answer to an impulse there."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, cos, inf, pi, sin

import numpy as np

from racewright.holding.contact_kernel import touch
from racewright.holding.contact_numbers import Floats, Plane
from racewright.holding.strike_scene import Strike


@dataclass(frozen=True, slots=True)
class Touch:
    """Where log and machine first meet, and what the blow there depends on.

    Attributes
    ----------
    place : str
        Name of the corner or face struck.
    point, normal : tuple of float
        Point of touch [m] and unit normal from machine to log [-].
    lean : float
        Angle between the normal and the upstream direction [rad].
    closing_speed, slip_speed : float
        Speed along the normal, positive while they approach, and along the face [m/s].
    give, cross_give, slip_give : float
        Change of the speed along the normal per impulse along it; of either per impulse along the other; of the slip
        per impulse along the face [1/kg].
    slides : bool
        The face leans by more than the angle of friction, so that a log which is pressed on can slide along it.
    row : int
        Of the place among the kernel's.
    next_gap : float
        Of the nearest other place, further away than the log's radius [m].
    places : int
        Places that touch at once, further apart than the log's radius; their springs act together, midway.
    state : ndarray, shape (17,)
        Of the kernel at the touch.
    """

    place: str
    point: tuple[float, float]
    normal: tuple[float, float]
    lean: float
    closing_speed: float
    slip_speed: float
    give: float
    cross_give: float
    slip_give: float
    slides: bool
    row: int
    next_gap: float
    places: int
    state: Floats


_TOGETHER = 1e-4
"""Places this near to touching count as touching at once [m]."""


def first_touch(strike: Strike) -> Touch | None:
    """Carry the log downstream, as it lies, until it touches; None where it passes by."""
    z, plane = strike.start(), strike.plane(1.0)
    places = np.empty((plane.machine.corner.shape[0] + 2, 5))
    if not touch(z, plane, places):
        return None
    row = int(np.argmax(places[:, 0]))
    apart = np.hypot(places[:, 3] - places[row, 3], places[:, 4] - places[row, 4]) > plane.log.radius
    together = apart & (places[:, 0] > places[row, 0] - _TOGETHER)
    many = 1 + int(together.sum())
    together[row] = True
    point = places[together, 3:5].mean(axis=0)
    nx, ny = float(places[row, 1]), float(places[row, 2])
    give, cross, slip_give = gives(z, plane, (nx, ny), (float(point[0]), float(point[1])))
    speed = strike.approach_speed
    lean = acos(max(-1.0, min(1.0, -nx)))
    return Touch(
        place=strike.machine.outline.place_name(row, (nx, ny)),
        point=(float(point[0]), float(point[1])),
        normal=(nx, ny),
        lean=lean,
        closing_speed=-speed * nx,
        slip_speed=-speed * ny,
        give=give,
        cross_give=cross,
        slip_give=slip_give,
        slides=bool(np.tan(lean) > strike.friction) if lean < 0.5 * pi else True,
        next_gap=float(-places[apart, 0].max()) if apart.any() else inf,
        row=row,
        places=many,
        state=z,
    )


def gives(
    z: Floats, plane: Plane, normal: tuple[float, float], point: tuple[float, float]
) -> tuple[float, float, float]:
    """Change of relative speed per impulse at a point: normal by normal, crosswise, along by along [1/kg]."""
    (nx, ny), log, inverse = normal, plane.log, plane.machine.inverse
    c, s = cos(z[2]), sin(z[2])
    rows = []
    for dx, dy in ((nx, ny), (-ny, nx)):
        along, across = c * dx + s * dy, c * dy - s * dx
        turn = (point[0] - z[0]) * dy - (point[1] - z[1]) * dx
        yaw = (point[0] - z[6]) * dy - (point[1] - z[7]) * dx
        rows.append((along, across, turn, dx, dy, yaw))
    weight = np.array([log.along, log.across, log.spin, inverse[0], inverse[1], inverse[2]])
    arms = np.array(rows)
    found = (arms * weight) @ arms.T
    return float(found[0, 0]), float(found[0, 1]), float(found[1, 1])


def after_impulse(touch: Touch, plane: Plane, normal: float, along: float) -> Floats:
    """State after an impulse on the log at the touch, and its opposite on the machine."""
    z, (nx, ny), inverse = touch.state.copy(), touch.normal, plane.machine.inverse
    px, py = normal * nx - along * ny, normal * ny + along * nx
    z[3] += px
    z[4] += py
    z[5] += (touch.point[0] - z[0]) * py - (touch.point[1] - z[1]) * px
    z[9] -= inverse[0] * px
    z[10] -= inverse[1] * py
    z[11] -= inverse[2] * ((touch.point[0] - z[6]) * py - (touch.point[1] - z[7]) * px)
    return z


def speeds(z: Floats, plane: Plane) -> Floats:
    """Speeds of a state through the ground: log x, y, turning; machine x, y, yaw."""
    c, s = cos(z[2]), sin(z[2])
    along, across = plane.log.along * (c * z[3] + s * z[4]), plane.log.across * (c * z[4] - s * z[3])
    log = (c * along - s * across + plane.contact.stream, s * along + c * across, plane.log.spin * z[5])
    return np.array([*log, *z[9:12]])
