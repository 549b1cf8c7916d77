"""A log in the water: mass, added mass, draught, and its numbers in the plane."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin
from typing import Literal, get_args

from racewright.errors import InputError
from racewright.holding.contact_numbers import LogNumbers
from racewright.holding.debris_table import drag_coefficient
from racewright.machine.drive_checks import number

Attitude = Literal["floating", "upright", "submerged"]


@dataclass(frozen=True, slots=True)
class Log:
    """A log as a plain cylinder.

    Parameters
    ----------
    length : float
        0.3 to 60 [m].
    diameter : float
        0.02 to 4, at most the length [m].
    density : float
        300 to 1400; dry softwood 400 to 550, green or soaked 700 to 1000, a sinker 1000 and more (wood handbooks,
        from memory) [kg/m3].
    attitude : {'floating', 'upright', 'submerged'}
        Lying at the surface; a dead-head, upright below its top at the surface; drifting level under water.
    water_density : float
        990 to 1040 [kg/m3].
    """

    length: float
    diameter: float
    density: float
    attitude: Attitude = "floating"
    water_density: float = 1000.0

    def __post_init__(self) -> None:
        number("The log's length", self.length, 0.3, 60.0, "m")
        number("The log's diameter", self.diameter, 0.02, min(4.0, self.length), "m")
        number("The log's density", self.density, 300.0, 1400.0, "kg/m3")
        number("The water's density", self.water_density, 990.0, 1040.0, "kg/m3")
        if self.attitude not in get_args(Attitude):
            raise InputError(f"the log's attitude is {self.attitude!r}; it may be {', '.join(get_args(Attitude))}")

    @property
    def mass(self) -> float:
        """Of the wood with its own water [kg]."""
        return self.density * 0.25 * pi * self.diameter**2 * self.length

    @property
    def displaced_mass(self) -> float:
        """Of the water it displaces: its own mass while it floats at the surface [kg]."""
        whole = self.water_density * 0.25 * pi * self.diameter**2 * self.length
        return min(self.mass, whole) if self.attitude == "floating" else whole

    @property
    def draught(self) -> float:
        """Depth that it reaches below the surface; for one that drifts under water its diameter [m]."""
        if self.attitude == "upright":
            return self.length
        share = 1.0 if self.attitude == "submerged" else min(self.density / self.water_density, 1.0)
        return self.diameter * wetted_height(share)

    def in_plane(self, struck_depth: float | None = None) -> LogNumbers:
        """Its numbers for strikes in the horizontal plane.

        Added mass: none along the axis, one displaced mass across it (strip theory; the ends lower it by 4 to 22 % at
        9 to 2.5 diameters long, DNV-RP-C205 from memory). An upright log struck above or below its middle turns, and
        weighs less there.

        Parameters
        ----------
        struck_depth : float, optional
            Depth at which an upright log is struck; its middle when left out [m].
        """
        across = self.mass + self.displaced_mass
        turning = across * self.length**2 / 12.0 + self.mass * self.diameter**2 / 16.0
        radius = 0.5 * self.diameter
        side = 0.5 * self.water_density * drag_coefficient("trunk across").value
        if self.attitude == "upright":
            arm = 0.0 if struck_depth is None else abs(struck_depth - 0.5 * self.length)
            inverse = 1.0 / across + arm * arm / turning
            spin = 1.0 / (0.5 * self.mass * radius**2)
            return LogNumbers(0.0, radius, inverse, inverse, spin, 0.0, 0.0, side * self.diameter * self.length)
        end = 0.5 * self.water_density * drag_coefficient("trunk end-on").value * pi * radius**2
        half = max(0.5 * self.length - radius, 0.0)
        share = min(self.displaced_mass / (self.water_density * pi * radius**2 * self.length), 1.0)
        return LogNumbers(
            half, radius, 1.0 / self.mass, 1.0 / across, 1.0 / turning, end * share, side * self.draught, 0.0
        )


def wetted_height(share: float) -> float:
    """Height of a lying circle's part that holds `share` of its area, 0 to 1, over the diameter [-]."""
    if share >= 1.0:
        return 1.0
    low, high = 0.0, pi
    for _ in range(40):
        middle = 0.5 * (low + high)
        if middle - sin(middle) * cos(middle) < pi * share:
            low = middle
        else:
            high = middle
    return 0.5 * (1.0 - cos(0.5 * (low + high)))
