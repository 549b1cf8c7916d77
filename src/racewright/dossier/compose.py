"""Findings to document: page one and the chapters, in order."""

from __future__ import annotations

from racewright.dossier.chapters import (
    closing,
    cost,
    debris,
    energy,
    fish,
    front,
    growth,
    held,
    machine,
    money,
    place,
    programme,
    sound,
    strength,
    struck,
    supply,
    trials,
    upkeep,
)
from racewright.dossier.document import Chapter, Document
from racewright.dossier.text import clean
from racewright.ledger.findings import Findings

_EMPTY = (
    "This dossier is empty: the scheme has no place, no machine and no community. Each chapter says "
    "what it needs; fill in the tables and make the report again."
)


def compose(findings: Findings) -> Document:
    """All text of the dossier, final and in order.

    Parameters
    ----------
    findings : Findings
        User text in it is cleaned of control characters here and escaped by the setting.
    """
    chapters = (
        place.write(findings),
        machine.write(findings),
        *_holding(findings),
        *_strength(findings),
        *_trials(findings),
        energy.write(findings),
        *_neighbours(findings),
        *_supply(findings),
        cost.write(findings),
        *_after_cost(findings),
        *_growth(findings),
        closing.missing(findings),
        closing.inputs(findings),
        closing.assumptions(findings),
        closing.cautions(),
    )
    missing = 1 + [chapter.anchor for chapter in chapters].index("missing")
    nothing = findings.machine is None and findings.place is None and findings.community is None
    return Document(
        title=clean(findings.title) or "Untitled scheme",
        case=clean(findings.case),
        empty=_EMPTY if nothing and findings.energy is None else "",
        notice=tuple(clean(s) for s in findings.invented),
        answers=front.answers(findings, missing),
        chapters=chapters,
        provenance=f"Racewright {clean(findings.version)}, scheme SHA-256 {clean(findings.scheme_hash)}",
    )


def _holding(findings: Findings) -> tuple[Chapter, ...]:
    """How the machine is held and what strikes it, where the case has a holding."""
    if findings.holding is None:
        return ()
    return held.write(findings.holding), struck.write(findings.holding)


def _strength(findings: Findings) -> tuple[Chapter, ...]:
    """What must be strong, where the machine says of what it is made."""
    return () if findings.strength is None else (strength.write(findings.strength),)


def _trials(findings: Findings) -> tuple[Chapter, ...]:
    """The trials of the machine, where the case has any."""
    if findings.trials is None or findings.machine is None:
        return ()
    return (trials.write(findings.trials, findings.machine),)


def _neighbours(findings: Findings) -> tuple[Chapter, ...]:
    """Fish, debris and sound, where the case has any."""
    found = findings.neighbours
    if found is None or findings.machine is None:
        return ()
    heard = (sound.write(found),) if found.sound else ()
    return (fish.write(found), debris.write(found), *heard)


def _growth(findings: Findings) -> tuple[Chapter, ...]:
    """Sizes, claims and programme, where the case has any."""
    found = findings.growth
    if found is None:
        return ()
    steps = found.programme
    paid = () if steps is None else (programme.write(steps, invented=found.invented),)
    return (growth.write(found.growth, found.sheet), *paid)


def _supply(findings: Findings) -> tuple[Chapter, ...]:
    """The hourly year, where the community has one."""
    return () if findings.supply is None else (supply.write(findings.supply, findings.count),)


def _after_cost(findings: Findings) -> tuple[Chapter, ...]:
    """Money over the life, and upkeep, where the scheme has tables for them."""
    found: tuple[Chapter, ...] = ()
    if findings.supply is not None and findings.supply.money is not None:
        found += (money.write(findings.supply.money),)
    if findings.upkeep is not None:
        currency = "" if findings.community is None else findings.community.comparison.currency
        found += (upkeep.write(findings.upkeep, currency),)
    return found
