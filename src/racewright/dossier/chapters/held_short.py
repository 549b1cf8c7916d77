"""How the machine is held, for the terminal: answer and warnings first, the worst cases, each thing said once."""

from __future__ import annotations

from dataclasses import replace

from racewright.dossier.chapters import held, held_sizes, held_tables, holding_tables
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Heading, Table, Text
from racewright.dossier.text import clean, signs
from racewright.ledger.energy_parts import WORST_FIRST
from racewright.ledger.holding_carried import TENSION
from racewright.ledger.holding_parts import HoldingFindings, held_remarks
from racewright.ledger.holding_worst import worst_by_state

REST = (
    "Not shown: load states and what they stand on, the other poses, every case of a lost line, the water's whole "
    "fall, standing debris, sizes by kind of line. They are in --all and --json."
)


def short(found: HoldingFindings) -> tuple[Block, ...]:
    """Answer, warnings, worst cases of lines, poses, lost lines and anchors, sizes proposed, the notes to them."""
    notes, one = SafetyNotes(), found.held
    told: list[Block] = [
        *_head(found, notes),
        Heading("Lines"),
        said_once(held_tables.by_state(worst_by_state(one), notes)),
    ]
    told += [said_once(holding_tables.lines(one.worst, notes))]
    told += [Heading("Where it hangs"), said_once(held_tables.worst_poses(one, notes))]
    if one.lost:
        told.append(said_once(held_tables.worst_lost(one, notes)))
    told += [said_once(held_tables.low_water(one.low_water, notes, around=True)), Text(held.low_said(found, notes))]
    checks = {a.name: a.check for a in found.anchors if a.check is not None}
    told.append(Heading("Anchors"))
    if checks:
        told += [
            said_once(holding_tables.anchors(checks, notes)),
            said_once(held_tables.proofs(found.anchors, notes)),
        ]
    told += [Text(f"{said} ({notes.mark(TENSION)})") for said in held_tables.unchecked(found.anchors)]
    told.append(Heading("Sizes"))
    if found.help is None:
        told.append(Text("No load case settles: no size can be proposed."))
    else:
        told.append(Text(f"{signs(held_sizes.driven(found.help))} ({notes.mark(TENSION)})"))
        told.append(said_once(held_sizes.proposals(found.help, notes)))
    return (*told, Text(REST), Heading("What to read the numbers with"), notes.points())


def whole(found: HoldingFindings) -> tuple[Block, ...]:
    """The dossier's chapter, its remarks moved up to the answer, and what is the same in every row said once."""
    blocks = [said_once(b) if isinstance(b, Table) else b for b in held.blocks(found)]
    warned = [b for b in blocks if isinstance(b, Table) and b.columns[0].name == "how grave"]
    rest = [b for b in blocks if b not in warned]
    lead = next(i for i, b in enumerate(rest) if isinstance(b, Text) and b.tone == "lead")
    return (*rest[: lead + 2], *warned, *rest[lead + 2 :])


def _head(found: HoldingFindings, notes: SafetyNotes) -> list[Block]:
    told: list[Block] = [Text(clean(found.description))] if found.description else []
    if found.invented:
        told.append(Text(held.INVENTED))
    told += [Text(held.in_short(found, notes)), Text(held.SLOW, "safety")]
    said = sorted(held_remarks(found), key=lambda r: WORST_FIRST[r.severity])
    if said:
        told.append(remark_table(tuple(said), "Remarks on the holding"))
    return told


def said_once(table: Table) -> Table:
    """The table without columns that have the same cell in all of two or more rows; the caption says it."""
    if len(table.rows) < 2:
        return table
    same = [k for k in range(1, len(table.columns)) if len({row[k] for row in table.rows}) == 1 and table.rows[0][k]]
    if not same:
        return table
    told = ", ".join(f"{table.columns[k].name} {table.rows[0][k]}" for k in same)
    kept = [k for k in range(len(table.columns)) if k not in same]
    return replace(
        table,
        caption=f"{table.caption}. In every row: {told}",
        columns=tuple(table.columns[k] for k in kept),
        rows=tuple(tuple(row[k] for k in kept) for row in table.rows),
    )
