"""The chapter on how the machine is held."""

from __future__ import annotations

import numpy as np

from racewright.dossier import format as fmt
from racewright.dossier.chapters import held_sizes, held_tables, holding_tables
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.chapters.words import remark_table
from racewright.dossier.document import Block, Chapter, Heading, Picture, Text
from racewright.dossier.text import clean, signs
from racewright.holding.statics_watch import WatchCircle
from racewright.ledger.energy_parts import WORST_FIRST
from racewright.ledger.holding_carried import POSE, TENSION
from racewright.ledger.holding_findings import Held
from racewright.ledger.holding_parts import HoldingFindings, held_remarks
from racewright.ledger.holding_worst import worst_by_state

INVENTED = "The holding is invented: lines, anchors and debris stand for no real place."
SLOW = (
    "Tensions here are slow ones, in steady water: what a log does in the first milliseconds is not in them and "
    "stands in the chapter on strikes. They are no approval: whoever is licensed for moorings there decides."
)


def write(found: HoldingFindings) -> Chapter:
    """Lines, poses, anchors, standing debris and sizes, each number with its note."""
    return Chapter("held", "How it is held", blocks(found))


def blocks(found: HoldingFindings) -> tuple[Block, ...]:
    """The chapter's blocks; the terminal prints the same without the pictures."""
    notes = SafetyNotes()
    told: list[Block] = []
    if found.description:
        told.append(Text(clean(found.description)))
    if found.invented:
        told.append(Text(INVENTED, "safety"))
    told += [Text(in_short(found, notes), "lead"), Text(SLOW, "safety")]
    told += _pictures(found)
    told += [Heading("Lines"), held_tables.by_state(worst_by_state(found.held), notes)]
    told += [holding_tables.lines(found.held.worst, notes), *_picture_of_lines()]
    told += [
        held_tables.load_states(found.loads, float(found.held.depths[0].intact.stream_speed[-1])),
        *_poses(found, notes),
        *_anchors(found, notes),
    ]
    told += _debris(found, notes)
    told += _sizes(found, notes)
    said = held_remarks(found)
    if said:
        ranked = tuple(sorted(said, key=lambda r: WORST_FIRST[r.severity]))
        told.append(remark_table(ranked, "Remarks on the holding"))
    return (*told, Heading("What to read the numbers with"), notes.points())


def in_short(found: HoldingFindings, notes: SafetyNotes) -> str:
    """What does not hang, the line nearest to its strength, the least cover and clearance: a few sentences."""
    held = found.held
    told = _against(held)
    rows = [(u.value, w, u) for w in held.worst for u in w.utilisations]
    if rows:
        value, line, use = max(rows, key=lambda r: r[0])
        verdict = "holds" if use.holds else "is too weak"
        if use.holds and any(w.left_out for w in held.worst if w.name == line.name):
            verdict = "holds wherever a rest was found"
        told.append(
            f"Line {clean(line.name)} comes nearest to its strength, {clean(line.state)}"
            f"{f' with {clean(line.lost)} lost' if line.lost else ''}: {fmt.quantity(value, fmt.SHARE, 2)} of what "
            f"its factor of {use.factor:g} leaves, so it {verdict} ({notes.mark(line.safety)})."
        )
    weak = [one for one in found.anchors if one.check is not None and not one.check.passes]
    if weak:
        told.append(f"Too weak with their factors: {', '.join(f'anchor {clean(one.name)}' for one in weak)}.")
    cover, clear, over, under = (
        fmt.fixed(v, fmt.LENGTH, 2)
        for v in (held.cover, held.bed_clearance, held.cover_wanted, held.bed_clearance_wanted)
    )
    roll, most = (fmt.fixed(v, fmt.ANGLE, 1) for v in (held.roll, held.roll_wanted))
    told.append(
        f"With every line whole: least water over the machine {cover} ({clean(held.worst_pose)}; wanted {over}), "
        f"least under it {clear} "
        f"(wanted {under}), greatest roll {roll} (wanted {most}; {notes.mark(POSE)})."
    )
    return " ".join(told)


def _against(held: Held) -> list[str]:
    """That it capsizes, sinks or finds no rest somewhere, before any number."""
    told = []
    cases = (("with every line whole", [one.intact for one in held.depths]), ("with one line lost", held.lost))
    for case, tables in cases:
        codes = [code for table in tables for row in table.reason for code in row]
        bad = dict.fromkeys(code for code in codes if code)
        if bad:
            count = sum(bool(code) for code in codes)
            told.append(
                f"It does not hang as wanted {case}, in {count} of {len(codes)} points that were asked: "
                f"{', '.join(bad)}."
            )
    return told


def _pictures(found: HoldingFindings) -> list[Block]:
    if not found.held.depths[0].intact.settled[0].any():
        return []
    side = "The layout from the side, on load and with debris or loss of load, to scale."
    plan = "The same from above, with the circle in which the machine moves on load as the stream turns."
    return [
        Picture("holding_side", f"{side} Slow tensions and steady poses only.", f"Side view. {side}"),
        Picture("holding_plan", plan, f"Plan view. {plan}"),
    ]


def _picture_of_lines() -> list[Block]:
    said = "Slow tension of every line in its worst case as a share of what its factor leaves of the strength."
    return [Picture("holding_lines", f"{said} Slow tensions only; blows are not in it.", f"Bars. {said}")]


def _poses(found: HoldingFindings, notes: SafetyNotes) -> list[Block]:
    held = found.held
    said = "Cover, clearance, pitch, roll, offset and slow tension over stream speed, by load state."
    told: list[Block] = [
        Heading("Where it hangs"),
        Picture("holding_poses", f"{said} Steady poses.", f"Six charts. {said}"),
        *(held_tables.poses(held, place, notes) for place in range(len(held.depths))),
    ]
    if held.lost:
        told += [Heading("One line lost"), held_tables.lost(held, notes)]
    told += [Heading("Low water and swing"), held_tables.low_water(held.low_water, notes)]
    return [*told, Text(low_said(found, notes))]


def low_said(found: HoldingFindings, notes: SafetyNotes) -> str:
    """Down to which depth everything holds, and how far the machine swings."""
    low, watch = found.held.low_water, found.held.watch
    least = (
        "at no depth" if low.least_depth is None else f"down to {fmt.fixed(low.least_depth, fmt.LENGTH, 2)} of water"
    )
    ground = "" if low.aground_at is None else f" It lies on the bed at {fmt.fixed(low.aground_at, fmt.LENGTH, 2)}."
    lowest = found.held.lowest_water
    if lowest is not None:
        ground += f" The lowest water of the record is {fmt.fixed(lowest, fmt.LENGTH, 2)} deep."
    return (
        f"Everything that is wanted holds {least} ({notes.mark(low.safety)}).{ground} {_swing(watch)} "
        f"({notes.mark(watch.safety)})."
    )


def _swing(watch: WatchCircle) -> str:
    """How far the machine goes, with the headings and speeds that were asked, and how many of them told nothing."""
    turn = float(np.abs(watch.heading).max())
    ways = f"turned by up to {fmt.fixed(turn, fmt.ANGLE, 0)} to either side" if turn > 0.0 else "ahead"
    *slower, fastest = (fmt.fixed(float(speed), fmt.SPEED, 2) for speed in watch.stream_speed)
    speeds = f"{', '.join(slower)} and {fastest}" if slower else fastest
    asked = f"On load with the stream {ways}, at {speeds},"
    if not watch.settled.any():
        return f"{asked} no rest was found, so how far the machine moves is not known"
    radius, swept = (fmt.fixed(r, fmt.LENGTH, 2) for r in (watch.radius, watch.swept_radius))
    missed = int(np.sum(~watch.settled))
    unknown = f"; in {missed} of {watch.settled.size} of these no rest was found" if missed else ""
    return (
        f"{asked} the machine's reference moves within {radius} of its place and its outermost point within "
        f"{swept}{unknown}"
    )


def _anchors(found: HoldingFindings, notes: SafetyNotes) -> list[Block]:
    checks = {one.name: one.check for one in found.anchors if one.check is not None}
    told: list[Block] = [Heading("Anchors")]
    if checks:
        told += [holding_tables.anchors(checks, notes), held_tables.proofs(found.anchors, notes)]
    told += [Text(f"{said} ({notes.mark(TENSION)})", "safety") for said in held_tables.unchecked(found.anchors)]
    return told


def _debris(found: HoldingFindings, notes: SafetyNotes) -> list[Block]:
    if not found.debris:
        return []
    link = f"The weak link is {clean(found.weak_link)}." if found.weak_link else "No weak link is given."
    return [Heading("Debris that stays"), Text(link), held_sizes.debris(found.debris, notes)]


def _sizes(found: HoldingFindings, notes: SafetyNotes) -> list[Block]:
    if found.help is None:
        return [Heading("Sizes"), Text("No load case settles: no size can be proposed.", "safety")]
    told: list[Block] = [
        Heading("Sizes"),
        Text(f"{signs(held_sizes.driven(found.help))} ({notes.mark(TENSION)})"),
        held_sizes.choices(found.help, notes),
    ]
    if found.help.trade:
        told.append(held_sizes.trade(found.help, notes))
    return [*told, held_sizes.proposals(found.help, notes)]
