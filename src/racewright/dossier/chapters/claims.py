"""What is claimed, what it rests on, and what it lacks."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Column, Table, Text
from racewright.dossier.text import clean
from racewright.growth.claims import CheckedClaim, Claim, ClaimSheet

_SCALES = {
    "W": fmt.POWER,
    "J": fmt.ENERGY,
    "N": fmt.FORCE,
    "Pa": fmt.PRESSURE,
    "N m": fmt.TORQUE,
    "m": fmt.LENGTH,
    "m2": fmt.AREA,
    "m/s": fmt.SPEED,
    "m3/s": fmt.DISCHARGE,
    "rad/s": fmt.ROTATION,
    "kg/m3": fmt.DENSITY,
    "": fmt.NONE,
    "1": fmt.NONE,
}


def write(sheet: ClaimSheet) -> tuple[Block, ...]:
    """The answer in a sentence, the table, and what the claims lack; one sentence where nothing is claimed."""
    if not sheet.claims:
        return (Text("Nothing is claimed. Add a claim table for each headline figure."),)
    graver = tuple(told for told in sheet.remarks if told.severity != "note")
    lacks = (remark_table(graver, "What the claims lack"),) if graver else ()
    return (Text(_answer(sheet), "lead"), table(sheet), *lacks)


def table(sheet: ClaimSheet) -> Table:
    """Claims in the order of the sheet."""
    columns = (
        Column("claim", share=2.3),
        Column("figure", "end", 1.6),
        Column("rests on", share=2.0),
        Column("last test", share=1.7),
        Column("next test", share=1.7),
        Column("stands", share=1.0),
    )
    return Table("Headline figures and what stands behind them", columns, tuple(_row(one) for one in sheet.claims))


def _row(one: CheckedClaim) -> tuple[str, ...]:
    claim = one.claim
    name = f"{claim.name} ({claim.step})" if claim.step else claim.name
    rests = f"{claim.basis}: {claim.source}" if claim.source.strip() else claim.basis
    last = claim.last_test.strip() or "none"
    if claim.tested_step.strip() and claim.tested_step != claim.step:
        last = f"{last}, on {claim.tested_step}"
    return (
        clean(name),
        _figure(claim),
        clean(rests),
        clean(last),
        clean(claim.next_test.strip() or "none planned"),
        one.verdict,
    )


def _figure(claim: Claim) -> str:
    """Value with its band; without one the value alone, and that there is none."""
    if claim.value is None:
        return "none yet"
    scales = _SCALES.get(claim.unit.strip(), (fmt.Scale(clean(claim.unit), 1.0),))
    if claim.band is not None and claim.band.high > claim.band.low:
        return fmt.band(claim.band, scales).both
    return f"{fmt.quantity(claim.value, scales)}, no band"


def _answer(sheet: ClaimSheet) -> str:
    count = len(sheet.claims)
    stand = sum(one.stands for one in sheet.claims)
    measured = sum(one.claim.basis == "measured by us" and one.stands for one in sheet.claims)
    claims = "1 claim" if count == 1 else f"{count} claims"
    return (
        f"Of {claims} {stand} {'stands' if stand == 1 else 'stand'} as written, "
        f"{measured or 'none'} of them by our own measurement."
    )
