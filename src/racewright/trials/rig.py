"""The model and the channel it is tested in."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from racewright.errors import InputError


@dataclass(frozen=True)
class Rig:
    """What the reduction must know of model and channel besides the readings.

    Attributes
    ----------
    tip_radius, hub_radius : float
        Of the rotor; hub radius 0 gives the full circle [m].
    blades, vanes : int
        0 vanes for a rotor alone [-].
    channel_width, depth : float
        Of the channel; the depth stands where no level channel is given [m].
    axis_height : float
        Of the axis above the channel's floor [m].
    blocked_radius : float
        Outer radius of duct or rotor that blocks the channel [m].
    chord, chord_radius : float
        Blade chord and the radius where it is taken, for the Reynolds number, usually 0.7 of the tip radius [m].
    water : {'fresh', 'sea'}
    temperature : float
        Of the water where no temperature channel is given [K].
    air_pressure : float
        At the water surface [Pa].
    wall_radius : float or None
        Of the throat's wall at the rotor; the coefficients stand on the annulus from the hub to it, None for one that
        ends at the tips [m].
    lid : bool
        Whether a lid closes the channel: then there is no Froude number and no static head to cavitate from.
    gravity : float
        Local; standard gravity unless measured [m/s2].
    radius_uncertainty, density_uncertainty : float
        Relative standard uncertainties; the hub scales with the tip [-].
    """

    tip_radius: float
    hub_radius: float
    blades: int
    vanes: int
    channel_width: float
    depth: float
    axis_height: float
    blocked_radius: float
    chord: float
    chord_radius: float
    water: Literal["fresh", "sea"] = "fresh"
    temperature: float = 288.15
    air_pressure: float = 101325.0
    gravity: float = 9.80665
    radius_uncertainty: float = 0.0
    density_uncertainty: float = 0.0
    wall_radius: float | None = None
    lid: bool = False

    def __post_init__(self) -> None:
        """Refuse lengths that cannot be."""
        for name in (
            "tip_radius", "channel_width", "depth", "axis_height", "blocked_radius", "chord", "chord_radius",
            "air_pressure", "gravity",
        ):  # fmt: skip
            number = getattr(self, name)
            if not (math.isfinite(number) and number > 0.0):
                raise InputError(f"{name} of the rig is {number!r}; wanted a finite number above 0 in SI units")
        if not 0.0 <= self.hub_radius < self.tip_radius:
            raise InputError(
                f"hub radius {self.hub_radius!r} m must be 0 or more and below the tip radius {self.tip_radius!r} m"
            )
        if self.wall_radius is not None and not self.tip_radius <= self.wall_radius < math.inf:
            raise InputError(f"wall radius {self.wall_radius!r} m is below the tip radius {self.tip_radius!r} m")
        if not 2.0 * self.blocked_radius < min(self.channel_width, self.depth):
            raise InputError(
                f"a model {2.0 * self.blocked_radius:.4g} m across is not inside a channel {self.channel_width:g} m"
                f" wide and {self.depth:g} m deep; both must be larger than the model"
            )
        if self.blades < 1 or self.vanes < 0:
            raise InputError(f"{self.blades} blades and {self.vanes} vanes: wanted 1 or more blades, 0 or more vanes")
        for name in ("radius_uncertainty", "density_uncertainty"):
            number = getattr(self, name)
            if not 0.0 <= number < 0.5:
                raise InputError(f"{name} is {number!r}; wanted a fraction, e.g. 0.001")

    @property
    def annulus_area(self) -> float:
        """Area from the hub to the wall, or to the tips where there is none [m2]."""
        outer = self.tip_radius if self.wall_radius is None else self.wall_radius
        return math.pi * (outer**2 - self.hub_radius**2)
