"""Tables of standing debris, the weak link, and sizes that the worst case asks for."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.holding_tables import span
from racewright.dossier.chapters.safety_notes import SafetyNotes
from racewright.dossier.document import Column, Table
from racewright.dossier.text import clean
from racewright.holding.debris_release import Release
from racewright.ledger.holding_carried import SEARCHED
from racewright.ledger.holding_findings import DebrisHeld, HoldingHelp, SizeProposal

_NOTE = Column("read with", share=0.9)
_NONE = "–"
_STIFF = (fmt.Scale("N/m", 1.0), fmt.Scale("kN/m", 1e3), fmt.Scale("MN/m", 1e6))
_WORK = (fmt.Scale("J", 1.0), fmt.Scale("kJ", 1e3), fmt.Scale("MJ", 1e6))


def debris(found: tuple[DebrisHeld, ...], notes: SafetyNotes) -> Table:
    """What is held, its force, and what the weak link makes of it together with the machine."""
    columns = (
        Column("held", share=1.1),
        Column("size", share=1.5),
        Column("force of it", "end", 1.6),
        Column("with the machine", "end", 1.6),
        Column("weak link parts at", "end", 1.0),
        Column("where the machine goes", share=2.4),
        _NOTE,
    )
    return Table("Standing debris and the weak link", columns, tuple(_debris(one, notes) for one in found))


def _debris(one: DebrisHeld, notes: SafetyNotes) -> tuple[str, ...]:
    release = one.release
    head = (clean(one.name), clean(one.size_words), span(one.load.along))
    if release is None:
        return (*head, _NONE, _NONE, "no weak link is given", notes.mark(one.load.safety))
    carried = (one.load.safety, release.safety, *((release.load_after.safety,) if release.load_after else ()))
    middle = release.load.high if release.load.value is None else release.load.value
    soonest = release.parting_speed * (middle / release.load.high) ** 0.5
    parting = f"{fmt.fixed(release.parting_speed, fmt.SPEED, 2)} of stream"
    if soonest < 0.99 * release.parting_speed:
        parting = f"{fmt.fixed(soonest, fmt.SPEED, 2)} to {parting}"
    return (*head, span(release.load), parting, _where(release), notes.mark(carried))


def _where(release: Release) -> str:
    if not release.parts:
        return "stays: the link holds"
    told = release.where
    if release.drift is not None:
        told += f", {fmt.fixed(release.drift, fmt.LENGTH, 1)} downstream"
    if release.load_after is not None:
        told += f"; that line then takes up to {fmt.quantity(release.load_after.high, fmt.FORCE)}"
    return told


def driven(found: HoldingHelp) -> str:
    """Which load case sizes the lines, in a sentence."""
    return (
        f"The sizes are driven by line {clean(found.line)}, {clean(found.case)}, {clean(found.state)} at "
        f"{fmt.fixed(found.stream_speed, fmt.SPEED, 2)}: a slow tension of {fmt.quantity(found.tension, fmt.FORCE)} "
        f"that asks for a strength of {fmt.quantity(found.wanted_strength, fmt.FORCE)}."
    )


def choices(found: HoldingHelp, notes: SafetyNotes) -> Table:
    """The least size of each kind of line that bears the case that drives it."""
    columns = (
        Column("kind of line", share=1.4),
        Column("diameter", "end"),
        Column("strength in use", "end"),
        Column("new, as ordered", "end"),
        Column("stretch", "end"),
        Column("energy stored", "end"),
        Column("stiffness of one straight along the stream", "end", 1.2),
        _NOTE,
    )
    case = f"{clean(found.case)}, {clean(found.state)}"
    rows = [
        (
            clean(f"{one.kind} {one.grade}".strip()),
            fmt.quantity(one.diameter, fmt.SMALL_LENGTH, 2),
            fmt.quantity(one.strength, fmt.FORCE),
            fmt.quantity(one.new_strength, fmt.FORCE),
            fmt.quantity(one.stretch, fmt.SMALL_LENGTH, 2),
            fmt.quantity(one.stored_energy, _WORK),
            fmt.quantity(one.stream_stiffness, _STIFF),
            notes.mark(one.safety),
        )
        for one in found.choices
    ]
    return Table(f"Least size of each kind of line, driven by {case}", columns, tuple(rows))


def trade(found: HoldingHelp, notes: SafetyNotes) -> Table:
    """What stiffness costs in slow tension and saves in travel; the first blow stays the same."""
    columns = (
        Column("kind of line", share=1.3),
        Column("stiffness of all along the stream", "end", 1.2),
        Column("slow pull of all lines", "end", 1.5),
        Column("the machine gives", "end"),
        Column("first blow", "end", 1.5),
        _NOTE,
    )
    rows = [
        (
            clean(f"{one.choice.kind} {one.choice.grade}".strip()),
            fmt.quantity(one.stiffness, _STIFF),
            span(one.slow_tension),
            fmt.quantity(one.travel, fmt.LENGTH, 2),
            span(one.first_force),
            notes.mark((one.slow_tension.safety, one.first_force.safety)),
        )
        for one in found.trade
    ]
    holding = ", ".join(clean(name) for name in found.trade[0].tethers)
    caption = f"The trade of stiffness: pull seconds after the hardest strike, if {holding} were all of one kind"
    return Table(caption, columns, tuple(rows))


def proposals(found: HoldingHelp, notes: SafetyNotes) -> Table:
    """Buoyancy and bridle for the wanted clearances and roll."""
    columns = (
        Column("size", share=1.2),
        Column("now", "end", 0.7),
        Column("proposed", "end", 0.8),
        Column("driven by", share=2.2),
        Column("what it does", share=4.2),
        _NOTE,
    )
    return Table("Buoyancy and bridle", columns, tuple(_proposal(one, notes) for one in found.proposals))


def _proposal(one: SizeProposal, notes: SafetyNotes) -> tuple[str, ...]:
    def shown(value: float) -> str:
        return fmt.quantity(value, fmt.FORCE) if one.unit == "N" else fmt.fixed(value, fmt.LENGTH, 2)

    proposed = shown(one.proposed) if one.found else "none found"
    return (
        clean(one.what),
        shown(one.now),
        proposed,
        clean(one.drives) or _NONE,
        clean(one.words),
        notes.mark(SEARCHED),
    )
