"""Tables of how the machine is held: load states, poses, one line lost, low water, debris, sizes."""

from __future__ import annotations

import math

import numpy as np

from racewright.dossier import format as fmt
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.document import Column, Table
from racewright.dossier.text import clean
from racewright.holding.statics_low_water import LowWater
from racewright.holding.statics_result import swung
from racewright.holding.statics_sweep import Statics
from racewright.ledger.holding_carried import POSE
from racewright.ledger.holding_findings import AnchorFound, Held, HeldLoad
from racewright.ledger.holding_worst import StateWorst

_NOTE = Column("read with", share=0.9)
_NONE = "–"
_MINUTES = (fmt.Scale("min", 60.0),)


def load_states(loads: tuple[HeldLoad, ...], fastest: float) -> Table:
    """What pushes on the machine in each state, at the fastest water that is asked [m/s]."""
    columns = (
        Column("load state", share=1.6),
        Column("stream", "end"),
        Column("thrust", "end"),
        Column("drag of frame and debris", "end", 1.3),
        Column("stands on", share=3.0),
    )
    rows = []
    for one in loads:
        thrust, _roll, drag = one.at(fastest)
        forces = (fmt.quantity(force, fmt.FORCE) for force in (thrust, drag))
        rows.append((clean(one.name), fmt.fixed(fastest, fmt.SPEED, 2), *forces, clean(one.words)))
    return Table("Load states, all of them asked in every table beneath", columns, tuple(rows))


def by_state(rows: tuple[StateWorst, ...], notes: SafetyNotes) -> Table:
    """The line that comes nearest to its strength in every load state."""
    columns = (
        Column("load state", share=1.8),
        Column("line lost", share=1.0),
        Column("line", share=1.1),
        Column("water", share=2.4),
        Column("stream", "end", 0.9),
        Column("slow tension", "end", 0.9),
        Column("factor", "end", 0.7),
        Column("strength asked for", "end", 1.0),
        Column("use", "end", 0.8),
        _NOTE,
    )
    return Table("Worst case of every load state", columns, tuple(_by_state(one, notes) for one in rows))


def _by_state(one: StateWorst, notes: SafetyNotes) -> tuple[str, ...]:
    lost = clean(one.lost) or ("none" if one.case == "intact" else "each")
    head, mark = (clean(one.state), lost), notes.mark(one.safety)
    if one.tension is None or one.stream_speed is None or one.wanted_strength is None or one.use is None:
        return (*head, "no rest found", *[_NONE] * 3, f"{one.factor:g}", *[_NONE] * 2, mark)
    return (
        *head,
        clean(one.line),
        clean(one.label),
        fmt.fixed(one.stream_speed, fmt.SPEED, 2),
        fmt.quantity(one.tension, fmt.FORCE),
        f"{one.factor:g}",
        fmt.quantity(one.wanted_strength, fmt.FORCE),
        fmt.quantity(one.use, fmt.SHARE, 2),
        mark,
    )


def poses(held: Held, place: int, notes: SafetyNotes) -> Table:
    """Where the machine hangs by load state in one water: the first over stream speed, others at their fastest."""
    one = held.depths[place]
    table = one.intact
    last = table.stream_speed.size - 1
    shown = sorted(range(last, -1, -2)) if place == 0 else [last]
    rows = [_pose(held, table, s, u, notes) for s in range(len(table.states)) for u in shown]
    over = "over stream speed" if place == 0 else "at its fastest"
    caption = f"Pose {over}, {clean(one.label)}, {fmt.fixed(one.depth, fmt.LENGTH, 2)} of water"
    return Table(caption, _pose_columns("load state"), tuple(rows))


def lost(held: Held, notes: SafetyNotes) -> Table:
    """Each tether lost in turn, in the fastest water."""
    rows = [
        (f"{clean(t.lost)}; {row[0]}{swung(t.points[0][0])}", *row[1:])
        for t in held.lost
        for row in (_pose(held, t, s, -1, notes) for s in range(len(t.states)))
        if t.points[0][0].heading == 0.0 or not row[-2].startswith("yes")
    ]
    return Table(
        "One line lost, in the fastest water of the place; of turned streams those that do not hold",
        _pose_columns("line lost; load state"),
        tuple(rows),
    )


def worst_poses(held: Held, notes: SafetyNotes) -> Table:
    """Of each water at its fastest: the states of most tension, least cover and clearance, and all that fail."""
    rows = []
    for one in held.depths:
        table = one.intact
        for s in _worst_states(held, table):
            row = _pose(held, table, s, -1, notes)
            rows.append((f"{clean(one.label)}, {fmt.fixed(one.depth, fmt.LENGTH, 2)}; {row[0]}", *row[1:]))
    return Table("Worst poses of each water, at its fastest", _pose_columns("water; load state"), tuple(rows))


def _worst_states(held: Held, table: Statics) -> list[int]:
    """Places of the states, rising."""
    count = range(len(table.states))
    settled = [s for s in count if table.settled[s, -1]]
    found = {s for s in count if _holds(held, table, s, -1) != "yes"}
    if settled:
        found.add(max(settled, key=lambda s: float(np.max(table.tension[s, -1]))))
        found.add(min(settled, key=lambda s: float(table.cover[s, -1])))
        found.add(min(settled, key=lambda s: float(table.bed_clearance[s, -1])))
    return sorted(found)


def worst_lost(held: Held, notes: SafetyNotes) -> Table:
    """Of each lost tether one row: a state that does not hold, else that of most tension."""
    worst: dict[str, tuple[tuple[bool, float], Statics, int]] = {}
    for table in held.lost:
        for s in range(len(table.states)):
            tension = float(np.max(table.tension[s, -1])) if table.settled[s, -1] else math.inf
            grave = (not table.feasible[s, -1], tension)
            name = table.lost or ""
            if name not in worst or grave > worst[name][0]:
                worst[name] = (grave, table, s)
    rows = []
    for name, (_grave, table, s) in worst.items():
        row = _pose(held, table, s, -1, notes)
        rows.append((f"{clean(name)}; {row[0]}{swung(table.points[0][0])}", *row[1:]))
    return Table(
        "Worst case of each lost line, in the fastest water", _pose_columns("line lost; load state"), tuple(rows)
    )


def _pose_columns(first: str) -> tuple[Column, ...]:
    return (
        Column(first, share=1.9),
        Column("stream", "end", 0.9),
        Column("cover", "end", 0.8),
        Column("off the bed", "end", 0.8),
        Column("offset", "end", 0.8),
        Column("pitch", "end", 0.7),
        Column("roll", "end", 0.7),
        Column("most slow tension", "end", 1.0),
        Column("holds", share=2.2),
        _NOTE,
    )


def _holds(held: Held, table: Statics, s: int, u: int) -> str:
    """Whether it holds, and which wishes its pose passes."""
    if not table.feasible[s, u]:
        return f"no: {table.reason[s][u]}"
    passed = [
        name
        for name, beyond in (
            ("roll", abs(table.roll[s, u]) > held.roll_wanted),
            ("cover", table.cover[s, u] < held.cover_wanted),
            ("clearance", table.bed_clearance[s, u] < held.bed_clearance_wanted),
        )
        if beyond
    ]
    return f"yes, {' and '.join(passed)} beyond the wish" if passed else "yes"


def _pose(held: Held, table: Statics, s: int, u: int, notes: SafetyNotes) -> tuple[str, ...]:
    head = (clean(table.states[s]), fmt.fixed(float(table.stream_speed[u]), fmt.SPEED, 2))
    mark = notes.mark((POSE, table.safety))
    if not table.settled[s, u]:
        return (*head, *[_NONE] * 6, f"no: {table.reason[s][u]}, no rest found", mark)
    return (
        *head,
        *(fmt.fixed(float(v[s, u]), fmt.LENGTH, 2) for v in (table.cover, table.bed_clearance, table.offset)),
        *(fmt.fixed(float(v[s, u]), fmt.ANGLE, 1) for v in (table.pitch, table.roll)),
        fmt.quantity(float(np.max(table.tension[s, u])), fmt.FORCE),
        _holds(held, table, s, u),
        mark,
    )


def low_water(found: LowWater, notes: SafetyNotes, *, around: bool = False) -> Table:
    """Cover and clearance as the water falls; `around` keeps the rows about the first that fails, and the last."""
    columns = (
        Column("depth of water", "end"),
        Column("cover", "end"),
        Column("off the bed", "end"),
        Column("stands against it", share=1.6),
        _NOTE,
    )
    rows = [
        (
            fmt.fixed(float(depth), fmt.LENGTH, 2),
            fmt.fixed(float(cover), fmt.LENGTH, 2),
            fmt.fixed(float(clear), fmt.LENGTH, 2),
            why or "nothing",
            notes.mark(found.safety),
        )
        for depth, cover, clear, why in zip(found.depth, found.cover, found.bed_clearance, found.reason, strict=True)
    ]
    if around:
        first = next((k for k, why in enumerate(found.reason) if why), len(rows) - 1)
        rows = [rows[k] for k in sorted({max(first - 1, 0), first, len(rows) - 1})]
    return Table("As the water falls, at half the speed of the fastest water", columns, tuple(rows))


def proofs(anchors: tuple[AnchorFound, ...], notes: SafetyNotes) -> Table:
    """Pull tests before a machine hangs on the anchors."""
    columns = (
        Column("anchor", share=1.2),
        Column("pull to", "end"),
        Column("and hold for", "end"),
        Column("load case", share=2.0),
        _NOTE,
    )
    rows = [
        (
            clean(one.name),
            fmt.quantity(one.proof.load, fmt.FORCE),
            fmt.fixed(one.proof.hold_time, _MINUTES, 0),
            f"{one.proof.ratio:g} times {clean(one.proof.case)}",
            notes.mark(one.proof.safety),
        )
        for one in anchors
        if one.proof is not None
    ]
    return Table("Pull tests of the anchors before use", columns, tuple(rows))


def unchecked(anchors: tuple[AnchorFound, ...]) -> tuple[str, ...]:
    """One sentence for each anchor that has no check, with what it is asked for."""
    told = []
    for one in anchors:
        if one.check is None:
            asked = "" if math.isnan(one.horizontal) else f" It is asked for {_load(one)} in {clean(one.case)}."
            told.append(f"Anchor {clean(one.name)}: no check, {clean(one.words)}.{asked}")
    return tuple(told)


def _load(one: AnchorFound) -> str:
    way = "upwards" if one.vertical > 0.0 else "downwards"
    lift = f" and {fmt.quantity(abs(one.vertical), fmt.FORCE)} {way}" if one.vertical else ""
    return f"{fmt.quantity(one.horizontal, fmt.FORCE)} across{lift}"
