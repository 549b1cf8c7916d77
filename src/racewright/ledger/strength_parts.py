"""The strength of a case's machine from the graph's values, and every remark on it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from racewright.ledger.energy_parts import WORST_FIRST
from racewright.ledger.roles import Roles
from racewright.ledger.strength_findings import StrengthFindings
from racewright.remark import Remark

STRENGTH_NAMES = ("stresses", "natural_frequencies", "fatigue")
"""Nodes that strength wants."""


def strength_of(roles: Roles, values: dict[str, Any]) -> StrengthFindings | None:
    """None where the machine has no strength table."""
    if values["stresses"] is None:
        return None
    return StrengthFindings(
        values["stresses"], values["natural_frequencies"], values["fatigue"], roles.find("machine.invented")
    )


def strength_remarks(found: StrengthFindings | None) -> tuple[Remark, ...]:
    """All remarks, each once, worst first; those of a check say of which part."""
    if found is None:
        return ()
    told: list[Remark] = []
    for name, check in found.checks.items():
        told += [replace(remark, about=f"{remark.about}: {name}") for remark in check.remarks if _warns(remark)]
    checks = [root.check for root in found.stresses.roots] + [found.stresses.duct.pressure_check]
    told += [remark for check in (*checks, *found.checks.values()) for remark in check.remarks if not _warns(remark)]
    duct = found.stresses.duct
    told += [*duct.pressure.remarks, *(duct.point.remarks if duct.point is not None else ())]
    for case in found.stresses.shaft:
        told += [*(case.stress.remarks if case.stress else ()), *(case.bolts.remarks if case.bolts else ())]
    shaken = found.frequencies
    told += [*shaken.resonance.remarks, *shaken.vane.remarks, *shaken.blade.remarks, *shaken.duct.remarks]
    for place in found.fatigue:
        told += [replace(remark, about=f"{remark.about}: {place.place}") for remark in place.damage.remarks]
        if place.enough is False:
            told.append(Remark("warning", "Its life with the factor is shorter than the machine's.", place.place))
    told += found.stresses.remarks
    return tuple(sorted(dict.fromkeys(told), key=lambda remark: WORST_FIRST[remark.severity]))


def _warns(remark: Remark) -> bool:
    return remark.severity == "warning"
