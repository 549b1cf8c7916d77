"""From plain scheme values to materials, factors and what the strength room asks for."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from racewright.safety_factors import SafetyFactor, safety_factor
from racewright.strength.materials import Material, material, materials
from racewright.strength.stress_check import StressCheck, check_stress

Table = Mapping[str, Any]
_MATERIAL_FACTOR = {
    "steel": "steel",
    "bronze": "steel",
    "aluminium": "aluminium",
    "composite": "composite",
    "polymer": "polymer",
}


def material_of(part: Table) -> Material:
    """The material of a part: packaged, or its own by its certificate."""
    own = part["own"]
    if own is None:
        return material(part["material"])
    # 'source' only tells, so that it is not here; the scheme does not take a material without one
    fields = ("title", "group", "density", "elasticity", "poisson", "yield_strength", "ultimate_strength")
    edit = {**{name: own[name] for name in fields}, "source": "the certificate named in the scheme"}
    return material("own", materials({"own": edit}))


def checked(stress: float, of: Material, factors: Table) -> StressCheck:
    """A stress against its material with the scheme's factors."""
    return check_stress(stress, of, load_factor(factors), material_factor(of, factors))


def load_factor(factors: Table) -> SafetyFactor:
    """The factor on every load."""
    return safety_factor(factors["load"])


def material_factor(of: Material, factors: Table) -> SafetyFactor:
    """The factor on the strength of a material of that group."""
    return safety_factor(factors[_MATERIAL_FACTOR[of.group]])
