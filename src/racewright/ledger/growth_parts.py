"""The growth's part of a case's findings, with the sources that only tell."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from racewright.growth.claims import ClaimSheet, claim_sheet
from racewright.growth.grow import Growth, GrowthPage
from racewright.growth.size_exponents import SizeExponent
from racewright.ledger.energy_parts import WORST_FIRST
from racewright.ledger.growth_findings import GrowthFindings
from racewright.ledger.growth_things import exponents_of
from racewright.ledger.roles import Roles
from racewright.remark import Remark

WANTED = ("growth", "claims", "programme")
"""Nodes that the findings are made of."""


def growth_of(roles: Roles, values: dict[str, Any]) -> GrowthFindings | None:
    """All that was found of the case's growth; None where it has none."""
    if values["growth"] is None:
        return None
    table = roles.find("growth")
    own = exponents_of(roles.plain("growth.exponent"), {name: one.source for name, one in table.exponent.items()})
    growth = _with_sources(values["growth"], {one.name: one for one in own})
    return GrowthFindings(
        name=roles.names["growth"],
        description=table.description,
        invented=table.invented,
        growth=growth,
        sheet=_sheet(table.claim, values["claims"], growth),
        programme=values["programme"],
        remarks=growth_remarks(values),
    )


def growth_remarks(values: dict[str, Any]) -> tuple[Remark, ...]:
    """Every remark on the steps and the programme once, worst first."""
    if values["growth"] is None:
        return ()
    found = [r for page in values["growth"].pages if page.before is not None for r in page.before.remarks]
    if values["programme"] is not None:
        found += values["programme"].value.remarks
    return tuple(sorted(dict.fromkeys(found), key=lambda r: WORST_FIRST[r.severity]))


def _with_sources(growth: Growth, own: Mapping[str, SizeExponent]) -> Growth:
    def sourced(page: GrowthPage) -> GrowthPage:
        scaled = tuple(replace(one, exponent=own.get(one.exponent.name, one.exponent)) for one in page.scaled)
        return replace(page, scaled=scaled)

    return Growth(tuple(sourced(page) for page in growth.pages))


def _sheet(tables: Mapping[str, Any], claims: tuple[Any, ...], growth: Growth) -> ClaimSheet:
    """Claims come in the order of their tables' names."""
    said = [tables[name].source for name in sorted(tables)]
    told = [replace(one, source=source or one.source) for one, source in zip(claims, said, strict=True)]
    return claim_sheet(told, steps=[page.solved.step.name for page in growth.pages])
