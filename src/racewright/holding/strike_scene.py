"""One strike: which log meets which machine, where, how fast."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin

import numpy as np

from racewright.holding.contact_kernel import STATES
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
