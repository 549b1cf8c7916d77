"""The chapter on what strikes the machine."""

from __future__ import annotations

import math
from dataclasses import replace

from racewright.dossier import format as fmt
from racewright.dossier.chapters import holding_tables, struck_tables
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Chapter, Heading, Picture, Text
from racewright.dossier.text import clean
from racewright.ledger.energy_parts import WORST_FIRST
from racewright.ledger.holding_parts import HoldingFindings
from racewright.ledger.struck_findings import StruckBy
from racewright.remark import Remark

TWO = (
    "A strike has two answers, kept apart. The first blow presses on the place struck for milliseconds, and no line "
    "softens it. The lines answer seconds later, with a slow tension that says nothing of the blow: the pull of all "
    "lines together along the stream. Size the place struck for the first, the lines for the second."
)
NOTHING = "The holding names no strikes and no logs: write [holding.NAME.strike.*] and [holding.NAME.log.*]."
MOST_DRAWN = 3
"""Logs that get a drawing each; tables hold all. Own choice."""


def write(found: HoldingFindings) -> Chapter:
    """First blows, lines afterwards, what becomes of the log, code forms and a year of logs."""
    return Chapter("struck", "What strikes it", blocks(found))


def blocks(found: HoldingFindings) -> tuple[Block, ...]:
    """The chapter's blocks; the terminal prints the same without the pictures."""
    if not found.struck and found.year is None:
        return (Text(NOTHING, "lead"),)
    notes = SafetyNotes()
    told: list[Block] = [Text(in_short(found, notes), "lead"), Text(TWO, "safety")]
    if found.struck:
        told += _struck(found.struck, notes)
    if found.year is not None:
        said = "Chance that a year passes a first-blow force, an energy pressed in, and a slow line tension."
        told += [
            Heading("A year of logs"),
            struck_tables.yearly(found.year, notes),
            Picture("strike_years", f"{said} Bands: limits of what was drawn.", f"Three curves. {said}"),
            struck_tables.exceedance(found.year, notes),
            Text(struck_tables.parting(found.year, notes)),
        ]
    remarks = _remarks(found)
    if remarks:
        told.append(remark_table(remarks, "Remarks on strikes"))
    return (*told, Heading("What to read the numbers with"), notes.points())


def in_short(found: HoldingFindings, notes: SafetyNotes) -> str:
    """The heaviest first blow beside the heaviest slow tension, and how often logs come."""
    told = []
    hit = [one for one in found.struck if one.phases is not None]
    if hit:
        first = max((one.phases.first.force for one in hit if one.phases), key=lambda f: f.high)
        slow = max((one.phases.slow_tension for one in hit if one.phases), key=lambda f: f.high)
        told.append(
            f"Of the logs looked at, the hardest first blow is {holding_tables.span(first)} "
            f"({notes.mark(first.safety)}); the lines reach {holding_tables.span(slow)} of slow tension seconds "
            f"later ({notes.mark(slow.safety)})."
        )
    over = [clean(one.name) for one in found.struck if one.over is not None]
    if over:
        told.append(f"Drifting over the machine in every water asked: {', '.join(over)}.")
    beside = [clean(one.name) for one in found.struck if one.over is None and one.phases is None]
    if beside and hit:
        told.append(f"Passing beside the machine: {', '.join(beside)}.")
    if found.year is not None:
        rate = fmt.number(found.year.encounters, fmt.decimals_for(found.year.encounters, 2))
        told.append(f"About {rate} logs a year meet the machine.")
    return " ".join(told) or "Every log that was looked at passes the machine by."


def _struck(struck: tuple[StruckBy, ...], notes: SafetyNotes) -> list[Block]:
    told: list[Block] = [Heading("Single logs"), struck_tables.logs(struck, notes)]
    hit = tuple(one for one in struck if one.phases is not None)
    if hit:
        told += [struck_tables.first_blows(hit, notes), struck_tables.afterwards(hit, notes)]
    for k, one in enumerate(hit[:MOST_DRAWN], start=1):
        said = f"{clean(one.name)}: force at the place struck over milliseconds, slow line tension over seconds."
        told.append(Picture(f"strike_{k}", said, f"Two charts. {said}"))
    if any(one.frictions.outcomes for one in struck):
        told += [struck_tables.frictions(struck, notes), Text(_sensitivity(struck))]
    if hit:
        rows = [(one.name, row) for one in hit for row in one.beside_fixed]
        told += [holding_tables.outcomes(rows, notes), *(struck_tables.estimates(one, notes) for one in hit)]
    return told


def _sensitivity(struck: tuple[StruckBy, ...]) -> str:
    told = []
    for one in (one for one in struck if one.frictions.outcomes):
        found = one.frictions
        ends = "hangs on friction" if found.depends else "does not hang on friction in the range asked"
        slope = found.time_per_friction
        change = 0.0 if slope is None else 0.1 * slope
        size = f"{abs(change):.1f}"
        longer = "longer" if change > 0.0 else "shorter"
        more = "" if size == "0.0" else f"; 0.1 more of it makes the time to clear {size} s {longer}"
        told.append(f"{clean(one.name)}: what becomes of it {ends}{more}.")
    return " ".join(told)


def _remarks(found: HoldingFindings) -> tuple[Remark, ...]:
    every = [r for one in found.struck for r in _of_blow(one)]
    for one in found.struck:
        first = {r.about: r for outcome in reversed(one.frictions.outcomes) for r in outcome.remarks}
        every += [Remark(r.severity, f"{clean(one.name)}: {r.text}", r.about) for r in first.values()]
    every += found.year.remarks if found.year is not None else ()
    return tuple(sorted(dict.fromkeys(every), key=lambda r: WORST_FIRST[r.severity]))


def _of_blow(one: StruckBy) -> list[Remark]:
    """Of the first blow and the lines; where the face holds the log, what the table says becomes of it stands too."""
    if one.phases is None:
        return []
    told = []
    for remark in one.phases.remarks:
        text = remark.text
        if remark.about == "lean":
            held = [o for o in one.frictions.outcomes if o.friction >= math.tan(one.phases.first.lean)]
            text = f"{clean(one.name)}: {text}"
            if held:
                text += f" What becomes of it then: {struck_tables.ends(held)}."
        told.append(replace(remark, text=text))
    return told
