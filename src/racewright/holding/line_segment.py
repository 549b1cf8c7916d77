"""One uniform stretch of a line: what it weighs, stretches, bears and how it stands in the current."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from racewright.holding.checked import label
from racewright.machine.drive_checks import number
from racewright.safety import SafetyBasis

GROWTH_DENSITY = 1300.0
"""Wet density of hard growth; soft weed is near that of water (DNV-OS-E301 uses 1325; from memory, 80 %) [kg/m3]."""

GIVEN_STRENGTH = SafetyBasis(
    "strength given by the user",
    "given by the user",
    "user's own",
    "Strength given by the user: check it against the certificate, worn and wet.",
)


@dataclass(frozen=True, slots=True)
class Segment:
    """A stretch of chain, wire, rope or cable.

    Attributes
    ----------
    material : str
        What it is, e.g. 'polyester 24 mm'.
    length : float
        Unstretched, > 0 [m].
    diameter : float
        That the drag coefficient stands on, growth included, > 0 [m].
    mass : float
        In air, per unstretched length, growth included, > 0 [kg/m].
    displaced_area : float
        Displaced volume per unstretched length, >= 0 [m2].
    stiffness : float
        EA, > 0 [N].
    stiffness_low, stiffness_high : float
        Range that EA is believed to lie in; both EA when left 0 [N].
    strength : float
        Breaking strength as used: wet, spliced; infinite when unknown [N].
    drag_coefficient : float
        Square-on, on `diameter`, >= 0 [-].
    basis : tuple of str
        Status and source of strength, mass, stiffness and drag.
    safety : SafetyBasis
        Of the strength.
    """

    material: str
    length: float
    diameter: float
    mass: float
    displaced_area: float
    stiffness: float
    strength: float
    drag_coefficient: float
    basis: tuple[str, ...] = ("given by the user",)
    safety: SafetyBasis = GIVEN_STRENGTH
    stiffness_low: float = 0.0
    stiffness_high: float = 0.0

    def __post_init__(self) -> None:
        label("A segment's material", self.material)
        number("A segment's length", self.length, 1e-3, 1e5, "m")
        number("A segment's diameter", self.diameter, 1e-4, 5.0, "m")
        number("A segment's mass", self.mass, 1e-6, 1e5, "kg/m")
        number("A segment's displaced area", self.displaced_area, 0.0, 25.0, "m2")
        number("A segment's stiffness EA", self.stiffness, 1.0, 1e13, "N")
        if self.strength != math.inf:
            number("A segment's strength", self.strength, 1.0, 1e12, "N")
        number("A segment's drag coefficient", self.drag_coefficient, 0.0, 20.0)
        object.__setattr__(self, "stiffness_low", self.stiffness_low or self.stiffness)
        object.__setattr__(self, "stiffness_high", self.stiffness_high or self.stiffness)
        number("A segment's low stiffness", self.stiffness_low, 1.0, self.stiffness, "N")
        number("A segment's high stiffness", self.stiffness_high, self.stiffness, 1e13, "N")

    def submerged_weight(self, density: float, gravity: float) -> float:
        """Weight less buoyancy per unstretched length, negative when it floats [N/m]."""
        return (self.mass - density * self.displaced_area) * gravity


def grown(segment: Segment, thickness: float, density: float = GROWTH_DENSITY) -> Segment:
    """The segment under a coat of weed or shell.

    The coat adds weight and displaced water, and the drag stands on the diameter over it; the coefficient stays.

    Parameters
    ----------
    segment : Segment
    thickness : float
        Of the coat, 0 to 1 [m].
    density : float
        Of the wet coat, 1000 to 3000, default `GROWTH_DENSITY` [kg/m3].
    """
    number("The growth's thickness", thickness, 0.0, 1.0, "m")
    number("The growth's density", density, 900.0, 3000.0, "kg/m3")
    outer = segment.diameter + 2.0 * thickness
    ring = 0.25 * math.pi * (outer**2 - segment.diameter**2)
    return replace(
        segment,
        diameter=outer,
        mass=segment.mass + density * ring,
        displaced_area=segment.displaced_area + ring,
        basis=(*segment.basis, f"growth of {1e3 * thickness:g} mm at {density:g} kg/m3, given"),
    )
