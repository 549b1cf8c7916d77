"""Tables of what strikes the machine: first blows, the lines afterwards, friction, code forms, a year of logs."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from racewright.dossier import format as fmt
from racewright.dossier.chapters.holding_tables import span
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.document import Column, Table
from racewright.dossier.text import clean
from racewright.holding.strike_outcome import Outcome
from racewright.ledger.holding_carried import STIFFNESS
from racewright.ledger.struck_findings import StruckBy, StruckYear

_NOTE = Column("read with", share=0.9)
_NONE = "–"
_MASS = (fmt.Scale("kg", 1.0), fmt.Scale("t", 1e3))
_SECONDS = (fmt.Scale("s", 1.0),)
_SHORT = (fmt.Scale("ms", 1e-3),)
_STIFF = (fmt.Scale("N/m", 1.0), fmt.Scale("kN/m", 1e3), fmt.Scale("MN/m", 1e6))
_IMPULSE = (fmt.Scale(f"N{fmt.THIN}s", 1.0), fmt.Scale(f"kN{fmt.THIN}s", 1e3))
_WORK = (fmt.Scale("J", 1.0), fmt.Scale("kJ", 1e3), fmt.Scale("MJ", 1e6))
_SHOWN_LEVELS = 8


def logs(struck: tuple[StruckBy, ...], notes: SafetyNotes) -> Table:
    """The logs, and what they meet."""
    columns = (
        Column("log", share=1.2),
        Column("its mass", "end"),
        Column("machine with its water", "end", 1.2),
        Column("stream", "end"),
        Column("in water of", "end", 1.2),
        Column("reaches it", share=1.2),
        Column("lines along the stream", "end", 1.2),
        Column("pull before", "end"),
        Column("first link parts at", "end", 1.2),
        _NOTE,
    )
    rows = [
        (
            clean(one.name),
            fmt.quantity(one.log_mass, _MASS),
            fmt.quantity(one.machine_mass, _MASS),
            fmt.fixed(one.stream_speed, fmt.SPEED, 2),
            f"{fmt.fixed(one.depth, fmt.LENGTH, 2)}, {one.water}",
            _reaches(one),
            fmt.quantity(one.tether_stiffness, _STIFF),
            fmt.quantity(one.pretension, fmt.FORCE),
            "not known" if one.capacity is None else fmt.quantity(one.capacity, fmt.FORCE),
            notes.mark(STIFFNESS),
        )
        for one in struck
    ]
    return Table("Logs that strike, and what they meet", columns, tuple(rows))


def _reaches(one: StruckBy) -> str:
    if one.over is not None:
        return f"no: {fmt.fixed(one.over, fmt.LENGTH, 2)} over it"
    return "no: passes beside it" if one.phases is None else "yes"


def ends(outcomes: Sequence[Outcome]) -> str:
    """What becomes of a log, by friction, in a few words."""
    told: dict[str, list[str]] = {}
    for one in outcomes:
        told.setdefault(one.ending, []).append(f"{one.friction:g}")
    return "; ".join(f"{ending} at friction {', '.join(at)}" for ending, at in told.items())


def first_blows(struck: tuple[StruckBy, ...], notes: SafetyNotes) -> Table:
    """The blow itself, milliseconds, by published contact."""
    columns = (
        Column("log", share=1.2),
        Column("place struck", share=1.3),
        Column("contact", share=1.8),
        Column("stiffness", "end"),
        Column("force of the first blow", "end", 1.1),
        Column("lasts", "end", 0.9),
        Column("impulse", "end"),
        Column("energy pressed in", "end"),
        _NOTE,
    )
    rows = [
        (
            clean(one.name),
            clean(one.phases.first.place),
            clean(blow.stiffness.name),
            fmt.quantity(blow.stiffness.value, _STIFF),
            fmt.quantity(blow.force, fmt.FORCE),
            fmt.quantity(blow.duration, _SHORT),
            fmt.quantity(one.phases.first.impulse, _IMPULSE),
            fmt.quantity(one.phases.first.work, _WORK),
            notes.mark(one.phases.first.safety),
        )
        for one in struck
        if one.phases is not None
        for blow in one.phases.first.blows
    ]
    return Table(
        "The first blow, in milliseconds: one row a published contact, none of them the answer", columns, tuple(rows)
    )


def afterwards(struck: tuple[StruckBy, ...], notes: SafetyNotes) -> Table:
    """The lines, seconds later."""
    columns = (
        Column("log", share=1.2),
        Column("slow line tension", "end", 1.6),
        Column("reached after", "end"),
        Column("first link", share=1.6),
        _NOTE,
    )
    rows = [
        (
            clean(one.name),
            span(one.phases.slow_tension),
            fmt.fixed(one.phases.slow_time, _SECONDS, 2),
            "not known" if one.capacity is None else "parts" if one.phases.parts else "holds",
            notes.mark(one.phases.slow_tension.safety),
        )
        for one in struck
        if one.phases is not None
    ]
    return Table("The lines in the first seconds afterwards", columns, tuple(rows))


def frictions(struck: tuple[StruckBy, ...], notes: SafetyNotes) -> Table:
    """What becomes of each log at several frictions."""
    columns = (
        Column("log", share=1.2),
        Column("friction", "end", 0.8),
        Column("what becomes of it", share=1.6),
        Column("clear after", "end"),
        Column("machine moves", "end"),
        Column("and yaws", "end"),
        Column("slow line tension", "end", 1.4),
        _NOTE,
    )
    rows = [_friction(one.name, outcome, notes) for one in struck for outcome in one.frictions.outcomes]
    return Table("What becomes of the log, by friction", columns, tuple(rows))


def _friction(name: str, one: Outcome, notes: SafetyNotes) -> tuple[str, ...]:
    slow = one.slow_tension
    return (
        clean(name),
        f"{one.friction:g}",
        one.ending,
        "not cleared" if one.time_to_clear is None else fmt.fixed(one.time_to_clear, _SECONDS, 1),
        fmt.fixed(one.shift, fmt.LENGTH, 2),
        fmt.fixed(one.yaw, fmt.ANGLE, 0),
        _NONE if slow is None else span(slow),
        notes.mark((one.safety, *((slow.safety,) if slow is not None else ()))),
    )


def estimates(one: StruckBy, notes: SafetyNotes) -> Table:
    """Code forms side by side for one log."""
    columns = (
        Column("form", share=1.4),
        Column("force of the blow", "end", 1.3),
        Column("leaves out", share=2.6),
        _NOTE,
    )
    rows = [
        (clean(row.name), span(row.force), clean(row.leaves_out), notes.mark(row.force.safety))
        for row in one.estimates
    ]
    return Table(f"{clean(one.name)}: forms of codes for a rigid thing, for comparison only", columns, tuple(rows))


def yearly(year: StruckYear, notes: SafetyNotes) -> Table:
    """Forces that one year in so many passes."""
    columns = (Column("passed in one year of so many", share=2.0), Column("force", "end", 1.6), _NOTE)
    rows = [(clean(f.name), span(f), notes.mark(f.safety)) for f in year.figures]
    return Table("A year of logs", columns, tuple(rows))


def exceedance(year: StruckYear, notes: SafetyNotes) -> Table:
    """Chance in a year over force, with limits."""
    sure = f"{100.0 * year.confidence:g} %"
    columns = (
        Column("level", "end"),
        Column("first blow, softest contact", "end", 1.2),
        Column("stiffest contact", "end"),
        Column(f"upper limit ({sure})", "end"),
        Column("slow line tension", "end"),
        Column(f"limits ({sure})", "end", 1.5),
        _NOTE,
    )
    shown = np.unique(np.round(np.linspace(0, year.level.size - 1, _SHOWN_LEVELS)).astype(int))
    mark = notes.mark(tuple(dict.fromkeys(f.safety for f in year.figures)))
    rows = [
        (
            fmt.quantity(float(year.level[i]), fmt.FORCE),
            *(_chance(v[i]) for v in (year.first_low, year.first_high, year.first_high_upper, year.slow)),
            f"{_chance(year.slow_low[i])} to {_chance(year.slow_high[i])}",
            mark,
        )
        for i in shown
    ]
    return Table("Chance that a year passes the level", columns, tuple(rows))


def _chance(value: float) -> str:
    return fmt.quantity(float(value), fmt.SHARE, 2)


def parting(year: StruckYear, notes: SafetyNotes) -> str:
    """Chance that the first link parts, with limits, in a sentence."""
    if year.parting is None or year.parting_low is None or year.parting_high is None:
        return "Neither a weak link nor the strength of any line is known, nor how likely the first link is to part."
    mark = notes.mark(tuple(dict.fromkeys(f.safety for f in year.figures)))
    return (
        f"The first link parts in a year with a chance of {_chance(year.parting)} ({100.0 * year.confidence:g} % "
        f"limits {_chance(year.parting_low)} to {_chance(year.parting_high)}; {mark})."
    )
