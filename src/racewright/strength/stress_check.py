"""A stress beside what its material may bear under named factors."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.safety import SafetyBasis, safety_basis
from racewright.safety_factors import SafetyFactor
from racewright.strength.door import not_negative
from racewright.strength.materials import Material, StrengthKind


@dataclass(frozen=True, slots=True)
class StressCheck:
    """Verdict on one stress.

    Attributes
    ----------
    limit_state : str
        That of the load factor.
    factored_stress : float
        Stress with the load factor on it [Pa].
    design_strength : float
        Strength, wet where known, over the material factor [Pa].
    use : float
        Factored stress over design strength; passes up to 1 [-].
    passes : bool
    load_factor, material_factor : SafetyFactor
    remarks : tuple of Remark
    safety : SafetyBasis
    """

    limit_state: str
    factored_stress: float
    design_strength: float
    use: float
    passes: bool
    load_factor: SafetyFactor
    material_factor: SafetyFactor
    remarks: tuple[Remark, ...]
    safety: SafetyBasis


def check_stress(
    stress: float,
    material: Material,
    load_factor: SafetyFactor,
    material_factor: SafetyFactor,
    *,
    strength: StrengthKind | None = None,
) -> StressCheck:
    """Set a stress against a material.

    Parameters
    ----------
    stress : float
        Largest of its kind by size, no factor on it, >= 0 [Pa].
    material : Material
    load_factor, material_factor : SafetyFactor
        Rows of the groups 'load' and 'material'.
    strength : {'yield', 'ultimate'}, optional
        Yield when the material has one, else ultimate.

    Raises
    ------
    InputError
        A stress that is negative or not finite, a factor of another group.
    NoAnswerError
        A factor without a number, a strength that the material has not.
    """
    not_negative("the stress", stress, "Pa", 100e6)
    for factor, group in ((load_factor, "load"), (material_factor, "material")):
        if factor.group != group:
            raise InputError(f"'{factor.key}' is a factor for a {factor.group}; wanted one for a {group}")
    kind: StrengthKind = strength or ("yield" if material.yield_strength else "ultimate")
    factored = stress * load_factor.single()
    allowed = material.strength(kind) / material_factor.single()
    use = factored / allowed
    return StressCheck(
        limit_state=load_factor.limit_state,
        factored_stress=factored,
        design_strength=allowed,
        use=use,
        passes=use <= 1.0,
        load_factor=load_factor,
        material_factor=material_factor,
        remarks=_remarks(material, use),
        safety=_basis(material, kind, load_factor, material_factor),
    )


def _basis(material: Material, kind: str, load: SafetyFactor, resistance: SafetyFactor) -> SafetyBasis:
    parts = (load.safety, resistance.safety, material.safety)
    return safety_basis(
        "structure",
        f"load: {parts[0].basis}; material factor: {parts[1].basis}; {kind} strength: {parts[2].basis}",
        "; ".join(part.edition for part in parts),
        "; ".join(part.status for part in parts),
    )


def _remarks(material: Material, use: float) -> tuple[Remark, ...]:
    found: list[Remark] = []
    if use > 1.0:
        found.append(
            Remark(
                "warning", f"The stress with its factors is {use:.2f} times what {material.title} may bear.", "stress"
            )
        )
    if not material.safety.status.startswith("user's own"):
        found.append(
            Remark(
                "caution",
                f"Strength of {material.title} is a typical minimum ({material.safety.status}); the certificate "
                "decides.",
                "material",
            )
        )
    if material.sea_water:
        found.append(Remark("note", f"{material.title}: {material.sea_water}.", "material in water"))
    return tuple(found)
