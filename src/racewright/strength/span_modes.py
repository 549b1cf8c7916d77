"""Natural frequencies of a vane or blade in air and in water."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.strength.added_mass import strip_added_mass
from racewright.strength.beam_modes import beam_frequencies
from racewright.strength.door import growing_row, not_negative, positive, same_length
from racewright.strength.section_area import SectionArea
from racewright.strength.span_load import Support

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class SpanModes:
    """Bending frequencies about the long axes of the sections, shape (count,) each.

    Attributes
    ----------
    in_air, in_water : ndarray
        Lowest first [Hz].
    mass_per_length, added_mass_per_length : ndarray, shape (n,)
        Of the part and of the water that moves with it [kg/m].
    support : {'one end', 'both ends'}
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    in_air: Floats
    in_water: Floats
    mass_per_length: Floats
    added_mass_per_length: Floats
    support: Support
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def span_modes(
    radius: ArrayLike,
    sections: Sequence[SectionArea],
    elasticity: float,
    density: float,
    water_density: float,
    *,
    support: Support = "one end",
    count: int = 3,
    mass_per_length: ArrayLike | None = None,
) -> SpanModes:
    """Frequencies of a span by its sections, as a beam that bends about each section's long axis.

    The water's mass is that of a strip as broad as the section is long, moving square to it.

    Parameters
    ----------
    radius : array_like, shape (n,)
        Of the sections, growing, from where the span is held [m].
    sections : sequence of SectionArea
        One for each radius.
    elasticity, density : float
        Of the material, > 0 [Pa], [kg/m3].
    water_density : float
        >= 0 [kg/m3].
    support : {'one end', 'both ends'}
        Vanes that the duct holds too are clamped at both ends, at best.
    count : int
        1 to 10.
    mass_per_length : array_like, shape (n,), optional
        In place of density x area, such as for a hollow filled with water, > 0 [kg/m].
    """
    places = growing_row("the radius", radius, "m")
    if len(sections) != places.size:
        raise InputError(f"{len(sections)} sections are given for {places.size} radii; give one each")
    positive("the elasticity", elasticity, "Pa", 200e9)
    positive("the density", density, "kg/m3", 7850.0)
    not_negative("the water's density", water_density, "kg/m3", 1000.0)
    own = np.array([density * section.area for section in sections])
    if mass_per_length is not None:
        own = same_length("the mass per length", mass_per_length, "kg/m", places, low=0.0)
    water = np.array([strip_added_mass(section.length, water_density) for section in sections])
    stiffness = elasticity * np.array([section.principal_small for section in sections])
    dry, wet = (
        beam_frequencies(places, stiffness, mass, support=support, count=count) for mass in (own, own + water)
    )
    return SpanModes(
        in_air=dry,
        in_water=wet,
        mass_per_length=own,
        added_mass_per_length=water,
        support=support,
        remarks=_remarks(support),
        safety=safety_basis(
            "structure",
            "Euler beam about the long axis, water mass rho pi (length/2)^2 (Lamb); twist coupling, shear, "
            "centrifugal stiffening and soft roots left out",
            "closed form",
            "closed form",
        ),
    )


def _remarks(support: Support) -> tuple[Remark, ...]:
    told = "a root that gives way lowers the frequency by ten per cent and more"
    if support == "both ends":
        told = "ends that turn a little lower it towards that of a hinged span, less than half as high"
    return (
        Remark(
            "caution",
            f"The ends are taken as clamped; {told}. Neighbouring blades and the duct's wall add water mass. Tap "
            "the part in water and listen before trusting a margin.",
            "natural frequency",
        ),
    )
