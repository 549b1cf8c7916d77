"""Tables of strength: stresses and damage with their factors; a note beside every number that safety hangs on."""

from __future__ import annotations

from collections.abc import Mapping

from racewright.dossier import format as fmt
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.document import Column, Table
from racewright.dossier.figures.damage_cases import Share
from racewright.dossier.text import clean
from racewright.safety_factors import SafetyFactor
from racewright.strength.stress_check import StressCheck

_YEARS = (fmt.Scale("years", 1.0),)
_NOTE = Column("read with", share=0.9)


def stresses(checks: Mapping[str, StressCheck], notes: SafetyNotes) -> Table:
    """Factored stress against design strength, part by part.

    Parameters
    ----------
    checks : mapping of StressCheck
        By part and load case.
    notes : SafetyNotes
        Of the chapter; its points must be printed beneath.
    """
    columns = (
        Column("part", share=1.6),
        Column("limit state", share=0.8),
        Column("factor on the load", "end", 2.6),
        Column("factored stress", "end", 0.8),
        Column("factor on the strength", "end", 2.6),
        Column("design strength", "end", 0.8),
        Column("use", "end", 0.6),
        Column("verdict", share=0.8),
        _NOTE,
    )
    rows = tuple(
        (
            clean(name),
            one.limit_state,
            _factor(one.load_factor),
            fmt.quantity(one.factored_stress, fmt.PRESSURE),
            _factor(one.material_factor),
            fmt.quantity(one.design_strength, fmt.PRESSURE),
            fmt.quantity(one.use, fmt.SHARE, 2),
            "holds" if one.passes else "too weak",
            notes.mark(one.safety),
        )
        for name, one in checks.items()
    )
    return Table("Stresses against design strength", columns, rows)


def damage(cases: Mapping[str, Share], life: float, notes: SafetyNotes) -> Table:
    """Fatigue damage of a year by load case, and all together.

    Parameters
    ----------
    cases : mapping of Share
        By load case; one part.
    life : float
        Wanted [yr].
    notes : SafetyNotes
    """
    columns = (
        Column("load case", share=1.8),
        Column("damage of one series", "end"),
        Column("series a year", "end"),
        Column("damage a year, factor in", "end"),
        Column("S-N curve", share=1.6),
        _NOTE,
    )
    rows = [
        (
            clean(name),
            _small(one.found.damage),
            fmt.number(one.times, fmt.decimals_for(one.times, 3)),
            _small(one.yearly),
            clean(one.found.curve.detail),
            notes.mark(one.found.safety),
        )
        for name, one in cases.items()
    ]
    total = sum(one.yearly for one in cases.values())
    lasts = "no end" if total <= 0.0 else fmt.quantity(1.0 / total, _YEARS, 2)
    verdict = "enough" if total * life <= 1.0 else "too short"
    every = notes.mark(tuple(one.found.safety for one in cases.values()))
    rows.append(("all together", "", "", _small(total), f"lasts {lasts} of {life:g} wanted: {verdict}", every))
    return Table("Fatigue damage by load case", columns, tuple(rows))


def _factor(factor: SafetyFactor) -> str:
    return f"{factor.single():g}, {clean(factor.standard)} ({clean(factor.safety.edition)})"


def _small(value: float) -> str:
    """Three digits, as a power of ten where plain figures would be long."""
    if value == 0.0 or value >= 1e-4:
        return fmt.number(value, fmt.decimals_for(value, 3))
    mantissa, _, exponent = f"{value:.1e}".partition("e")
    return f"{mantissa} × 10^{int(exponent)}"
