"""Tables of holding: what becomes of a log, anchors, lines; a note beside every number that safety hangs on."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from racewright.dossier import format as fmt
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.document import Column, Table
from racewright.dossier.text import clean
from racewright.holding.anchor_check import AnchorCase, AnchorCheck
from racewright.holding.statics_worst import WorstLine
from racewright.holding.strike_figure import SafetyFigure
from racewright.holding.strike_fixed import HeldRow
from racewright.uncertainty import Band

_NONE = "–"
_SECONDS = (fmt.Scale("s", 1.0),)
_IMPULSE = (fmt.Scale(f"N{fmt.THIN}s", 1.0), fmt.Scale(f"kN{fmt.THIN}s", 1e3))
_WORK = (fmt.Scale("J", 1.0), fmt.Scale("kJ", 1e3), fmt.Scale("MJ", 1e6))
_NOTE = Column("read with", share=0.9)


def outcomes(rows: Iterable[tuple[str, HeldRow]], notes: SafetyNotes) -> Table:
    """The machine on its tethers beside one of the same size that is rigidly fixed, log by log.

    Parameters
    ----------
    rows : iterable of (log, HeldRow)
        Of `beside_fixed`, both rows of each log.
    notes : SafetyNotes
        Of the chapter; its points must be printed beneath.
    """
    columns = (
        Column("log", share=1.5),
        Column("machine", share=1.2),
        Column("force of the first blow", "end", 1.5),
        Column("impulse", "end"),
        Column("energy pressed in", "end"),
        Column("slow line tension", "end", 1.4),
        Column("what becomes of it", share=1.5),
        Column("clear after", "end"),
        _NOTE,
    )
    return Table(
        "The same log against the machine on tethers and rigidly fixed",
        columns,
        tuple(_outcome(log, row, notes) for log, row in rows),
    )


def _outcome(log: str, row: HeldRow, notes: SafetyNotes) -> tuple[str, ...]:
    slow = row.slow_tension
    carried = (row.safety, *((slow.safety,) if slow is not None else ()))
    return (
        clean(log),
        row.held,
        span(row.force),
        fmt.quantity(row.impulse, _IMPULSE),
        fmt.quantity(row.taken_up, _WORK),
        "none: the mount bears the blow" if slow is None else span(slow),
        row.ending,
        "not cleared" if row.time_to_clear is None else fmt.fixed(row.time_to_clear, _SECONDS, 1),
        notes.mark(carried),
    )


def span(figure: SafetyFigure) -> str:
    """Range of a figure with its middle value where it has one: '30.1 to 152 kN'; its unit must be newton."""
    if figure.high - figure.low < 0.005 * abs(figure.high):
        return fmt.quantity(figure.high, fmt.FORCE)
    return (
        _ends(figure.low, figure.high)
        if figure.value is None
        else (f"{fmt.quantity(figure.value, fmt.FORCE)} ({_ends(figure.low, figure.high)})")
    )


def _ends(low: float, high: float) -> str:
    """Both ends in the unit of the upper one, three digits each."""
    scale = fmt.pick(fmt.FORCE, high)
    shown = (fmt.number(v / scale.factor, fmt.decimals_for(v / scale.factor, 3)) for v in (low, high))
    return fmt.join(" to ".join(shown), scale)


def anchors(checks: Mapping[str, AnchorCheck], notes: SafetyNotes) -> Table:
    """What each anchor is asked and what it holds, the worst case of each.

    Parameters
    ----------
    checks : mapping of AnchorCheck
        By line.
    notes : SafetyNotes
    """
    columns = (
        Column("anchor", share=1.0),
        Column("kind", share=0.9),
        Column("worst case", share=2.9),
        Column("load", "end", 0.8),
        Column("factor", "end", 1.5),
        Column("asked for", "end", 0.9),
        Column("holds", "end", 1.5),
        Column("use", "end", 0.6),
        Column("verdict", share=0.8),
        _NOTE,
    )
    return Table(
        "Anchors against their worst case", columns, tuple(_anchor(name, one, notes) for name, one in checks.items())
    )


def _anchor(name: str, check: AnchorCheck, notes: SafetyNotes) -> tuple[str, ...]:
    case = next(c for c in check.cases if c.case.load.case == check.worst_case)
    factor = case.case.factor
    return (
        clean(name),
        case.holding.kind.replace("_", " "),
        clean(check.worst_case),
        fmt.quantity(case.case.pull, fmt.FORCE),
        f"{factor.single():g}, {factor.standard} {factor.safety.edition}",
        fmt.quantity(case.case.total, fmt.FORCE),
        _holds(case),
        _NONE if case.use is None else fmt.quantity(case.use, fmt.SHARE, 2),
        _verdict(check, case),
        notes.mark((case.holding.safety, factor.safety)),
    )


def _holds(case: AnchorCase) -> str:
    ultimate: Band | None = case.holding.ultimate
    if ultimate is None:
        return "refused"
    ends = "" if ultimate.low == ultimate.high else f" ({_ends(ultimate.low, ultimate.high)})"
    return f"{fmt.quantity(ultimate.value, fmt.FORCE)}{ends}, then {case.holding.governs}"


def _verdict(check: AnchorCheck, case: AnchorCase) -> str:
    if case.use is None:
        return clean(case.holding.reason)
    if not check.passes:
        return "too weak"
    return "holds" if case.use_low is not None and case.use_low <= 1.0 else "holds at its middle value only"


def lines(worst: Iterable[WorstLine], notes: SafetyNotes) -> Table:
    """Worst slow tension of every line against its strength, one row a factor.

    Parameters
    ----------
    worst : iterable of WorstLine
    notes : SafetyNotes
    """
    columns = (
        Column("line", share=1.0),
        Column("load case", share=2.7),
        Column("slow tension", "end", 0.8),
        Column("strength", "end", 1.3),
        Column("factor", "end", 2.8),
        Column("use", "end", 0.6),
        Column("verdict", share=0.8),
        _NOTE,
    )
    return Table("Lines in their worst load case", columns, tuple(row for one in worst for row in _line(one, notes)))


def _line(one: WorstLine, notes: SafetyNotes) -> list[tuple[str, ...]]:
    gone = f"{clean(one.lost)} lost, " if one.lost else ""
    unknown = f"; {one.left_out} {'point' if one.left_out == 1 else 'points'} did not settle" if one.left_out else ""
    case = f"{gone}{clean(one.state)}, {fmt.fixed(one.stream_speed, fmt.SPEED, 2)}{unknown}"
    strength = "not known" if not math.isfinite(one.strength) else fmt.quantity(one.strength, fmt.FORCE)
    head = (clean(one.name), case, fmt.quantity(one.tension, fmt.FORCE), f"{strength}, {clean(one.segment)}")
    mark = notes.mark(one.safety)
    if not one.utilisations:
        return [(*head, "none asked for", _NONE, _NONE, mark)]
    return [
        (
            *head,
            f"{u.factor:g}, {clean(u.source)} ({clean(u.edition)})",
            fmt.quantity(u.value, fmt.SHARE, 2),
            "holds" if u.holds else "too weak",
            mark,
        )
        for u in one.utilisations
    ]
