"""The stream about the machine: speed over depth, direction, depth of water."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError
from racewright.machine.drive_checks import number

STANDARD_GRAVITY = 9.80665
"""Conventional value (CGPM 1901) [m/s2]."""
_SUBLAYER = 0.02


@dataclass(frozen=True, slots=True)
class Stream:
    """A steady horizontal current over a flat bed.

    Heights count from the bed. Axes: x along heading 0, z up, y to the left of x. The speed follows
    (height/reference height)^(1/profile) and is the same everywhere when `profile` is infinite.

    Attributes
    ----------
    speed : float
        At the reference height, 0 to 15 [m/s].
    depth : float
        Water over the bed, > 0 [m].
    reference_height : float
        Where `speed` is meant, in the water; usually the machine's hub height [m].
    heading : float
        Direction that the water goes to, from x towards y [rad].
    profile : float
        n of the power law, 2 to infinite; default 6, mean of 47 measured profiles of rivers and flumes (Neary,
        Gunawan & Sale 2013) [-].
    density : float
        Of the water, default 1000 (fresh, rounded) [kg/m3].
    gravity : float
        Default `STANDARD_GRAVITY` [m/s2].
    """

    speed: float
    depth: float
    reference_height: float
    heading: float = 0.0
    profile: float = 6.0
    density: float = 1000.0
    gravity: float = STANDARD_GRAVITY

    def __post_init__(self) -> None:
        number("The stream speed", self.speed, 0.0, 15.0, "m/s")
        number("The depth", self.depth, 1e-2, 1e4, "m")
        number("The height of the stream speed", self.reference_height, 1e-3, self.depth, "m")
        number("The heading", self.heading, -20.0, 20.0, "rad")
        number("The density", self.density, 900.0, 1200.0, "kg/m3")
        number("Gravity", self.gravity, 9.0, 10.0, "m/s2")
        if not self.profile >= 2.0:
            raise InputError(f"The profile's n is {self.profile}; it must be 2 or more, or infinite for one speed.")

    @property
    def power(self) -> float:
        """1/profile [-]."""
        return 1.0 / self.profile

    @property
    def direction(self) -> tuple[float, float]:
        """x and y of the unit vector that the water goes along [-]."""
        return math.cos(self.heading), math.sin(self.heading)

    def speed_at(self, height: float) -> float:
        """Speed at a height: held above the surface, straight to zero below 2 % of the depth [m/s]."""
        if self.power == 0.0:
            return self.speed
        low = _SUBLAYER * self.depth
        at = min(max(height, low), self.depth)
        speed: float = self.speed * (at / self.reference_height) ** self.power
        return speed * max(height, 0.0) / low if height < low else speed
