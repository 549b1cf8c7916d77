"""One strike: which log meets which machine, where, how fast; and the first touch."""

from __future__ import annotations

from dataclasses import dataclass
from math import acos, cos, pi, sin

import numpy as np

from racewright.holding.contact_kernel import STATES, touch
from racewright.holding.contact_numbers import Contact, Floats, MachineNumbers, Plane
from racewright.holding.log_body import Log
from racewright.holding.strike_machine import StruckMachine
from racewright.holding.strike_tether import Tether
from racewright.machine.drive_checks import number

FRICTION = 0.4
"""Wet wood on steel or plastic, 0.2 to 0.6; common practice, no source [-]."""
RESTITUTION = 0.3
"""Share of the normal speed that comes back, 0.1 for soaked wood to 0.6; own choice [-]."""


@dataclass(frozen=True, slots=True)
class Strike:
    """One log on its way to one machine.

    Parameters
    ----------
    log : Log
    machine : StruckMachine
    tether : Tether
    stream_speed : float
        0 to 20 [m/s].
    speed : float, optional
        Of the log through the ground, above 0; the stream's when left out, as flood codes take it [m/s].
    heading : float
        Angle of the log's axis from the stream, 0 end-on, pi/2 broadside [rad].
    offset : float
        Of the log's middle across the stream from the machine's reference [m].
    struck_depth : float, optional
        Depth at which an upright log meets the machine; its middle when left out [m].
    friction : float
        0 to 1 [-].
    restitution : float
        Energetic coefficient, 0.05 to 1 [-].
    """

    log: Log
    machine: StruckMachine
    tether: Tether
    stream_speed: float
    speed: float | None = None
    heading: float = 0.0
    offset: float = 0.0
    struck_depth: float | None = None
    friction: float = FRICTION
    restitution: float = RESTITUTION

    def __post_init__(self) -> None:
        number("The stream's speed", self.stream_speed, 0.0, 20.0, "m/s")
        number("The log's speed", self.approach_speed, 1e-3, 20.0, "m/s")
        number("The log's heading", self.heading, -2.0 * pi, 2.0 * pi, "rad")
        number("The log's offset", self.offset, -1e3, 1e3, "m")
        number("Friction", self.friction, 0.0, 1.0)
        number("Restitution", self.restitution, 0.05, 1.0)
        if self.struck_depth is not None:
            number("The struck depth", self.struck_depth, 0.0, 100.0, "m")

    @property
    def approach_speed(self) -> float:
        """Speed of the log through the ground [m/s]."""
        return self.stream_speed if self.speed is None else self.speed

    def plane(self, stiffness: float) -> Plane:
        """The kernel's numbers with one contact stiffness [N/m]."""
        contact = Contact(float(stiffness), float(self.restitution), float(self.friction), float(self.stream_speed))
        return Plane(self.log.in_plane(self.struck_depth), machine_numbers(self), contact)

    def start(self) -> Floats:
        """State far upstream, the machine at rest."""
        z = np.zeros(STATES)
        z[1], z[2] = self.offset, self.heading
        log = self.log.in_plane(self.struck_depth)
        ahead = self.approach_speed - self.stream_speed
        c, s = cos(self.heading), sin(self.heading)
        along, across = c * ahead / log.along, -s * ahead / log.across
        z[3], z[4] = c * along - s * across, s * along + c * across
        return z


def machine_numbers(strike: Strike) -> MachineNumbers:
    """The machine's numbers; a fixed machine has no inverse mass."""
    machine, density = strike.machine, strike.log.water_density
    masses = np.array([machine.surge_mass, machine.sway_mass, machine.yaw_inertia])
    drag = np.array([0.5 * density * machine.drag_area, 0.5 * density * machine.side_drag_area, machine.yaw_drag])
    x, force = strike.tether.law_rows()
    inverse = np.zeros(3) if machine.fixed else 1.0 / masses
    return MachineNumbers(machine.outline.corner, inverse, drag, strike.tether.matrix(), x, force)


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
    curvature : float
        Of the rounded log end on a corner, 1 over the radius; 0 where the log's side or a flat face is met [1/m].
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
    curvature: float
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
    c, s = cos(z[2]), sin(z[2])
    on_end = abs((places[row, 3] - z[0]) * c + (places[row, 4] - z[1]) * s) >= plane.log.half
    corner = row < plane.machine.corner.shape[0]
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
        curvature=1.0 / plane.log.radius if corner and on_end else 0.0,
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
