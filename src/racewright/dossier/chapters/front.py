"""Page one: the answers, in the order in which they are asked."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.cost import NO_BAND, SET_OFF, SET_ON
from racewright.dossier.chapters.words import DEFER, grounding, low_water, saving
from racewright.dossier.document import Answer, Column, Mark, Picture, Table
from racewright.dossier.figures.section import outer_radius
from racewright.dossier.text import clean
from racewright.ledger.findings import Findings

_SHOWN = 4
"""Remarks on page one; the rest stand in their chapter."""


def answers(findings: Findings) -> tuple[Answer, ...]:
    """What machine, what power, what cost, what is unsure, does it ground, who must check."""
    return (
        _machine(findings),
        _power(findings),
        _cost(findings),
        _unsure(findings),
        _grounding(findings),
        _duties(findings),
    )


def _machine(findings: Findings) -> Answer:
    machine = findings.machine
    if machine is None:
        return Answer("What machine", (), ("No machine in the scheme yet.",))
    duct, rated = machine.unit.duct, fmt.quantity(machine.drive.rated_power, fmt.POWER, 2)
    outer = fmt.quantity(2 * outer_radius(machine), fmt.LENGTH)
    line = (
        f"Ducted turbine for rivers and tidal streams: {machine.vanes.count} vanes ahead of a rotor with "
        f"{machine.blades.count} blades, {outer} outer diameter, rated {rated}."
    )
    words = clean(machine.description)
    picture = Picture(
        "sketch", "", f"Section of the machine, throat {fmt.quantity(2 * duct.throat_radius, fmt.LENGTH)}."
    )
    return Answer(
        "What machine",
        ((fmt.quantity(2 * duct.throat_radius, fmt.LENGTH), "throat diameter"),),
        (line, words) if words else (line,),
        picture=picture,
    )


def _power(findings: Findings) -> Answer:
    machine, energy = findings.machine, findings.energy
    heads: list[tuple[str, str]] = []
    lines: list[str] = []
    if machine is not None:
        point = machine.design_point
        power = fmt.band(point.band, fmt.POWER)
        heads.append((power.value, f"shaft power at {fmt.fixed(point.stream_speed, fmt.SPEED, 2)}; {power.range}"))
    if energy is not None:
        total = fmt.band(energy.total, fmt.ENERGY)
        heads.append((f"{total.value} a year", f"delivered at the place; {total.range}"))
        mean = fmt.quantity(energy.mean_power, fmt.POWER)
        lines.append(
            f"At the place the machine gives {mean} of electrical power on average, "
            f"{fmt.quantity(energy.capacity_factor, fmt.SHARE, 2)} of its rated power."
        )
    else:
        lines.append("No yearly energy: that needs a place and a machine.")
    if machine is None:
        lines.insert(0, "No power: that needs a machine.")
    return Answer("What power, what energy", tuple(heads), tuple(lines))


def _cost(findings: Findings) -> Answer:
    question = "What it costs against diesel"
    if findings.community is None:
        return Answer(question, (), ("Not computed: that needs a community with its diesel set.",))
    c = findings.community.comparison
    per = fmt.per_energy(c.currency)
    ours = fmt.band(c.machine_cost, per)
    heads = (
        (ours.value, f"from the machine; {ours.range}"),
        (fmt.quantity(c.diesel.cost, per, 2), f"from the diesel; {NO_BAND}"),
    )
    lines = (
        f"If the {SET_ON}, the machine {saving(c.saving_set_on, c.currency)}.",
        f"If the {SET_OFF} for its share of the hours, the machine {saving(c.saving_set_off, c.currency)}.",
    )
    return Answer(question, heads, lines)


def _unsure(findings: Findings) -> Answer:
    remarks = findings.remarks
    marks = tuple(Mark(r.severity, clean(r.about), clean(r.text)) for r in remarks[:_SHOWN])
    rest = len(remarks) - len(marks)
    if not remarks:
        lines: tuple[str, ...] = ("The computation left no remarks.",)
    elif rest > 0:
        lines = (f"{rest} more in the chapter \u201cWhat is missing, what is unsure\u201d.",)
    else:
        lines = ()
    return Answer("What is unsure", (), lines, marks)


def _grounding(findings: Findings) -> Answer:
    question = "Does it ground at low water"
    low = None if findings.place is None else low_water(findings.place.site)
    if low is None:
        return Answer(question, (), ("Not known: that needs a place with a rating curve and a transect.",))
    value, meaning = grounding(low)
    water, speed = fmt.fixed(low.cover, fmt.LENGTH, 2), fmt.fixed(low.speed, fmt.SPEED, 2)
    cover = f"Water above the duct then: {water}; speed {speed}."
    return Answer(question, ((value, "between duct and bed at low water (Q95)"),), (meaning, cover))


def _duties(findings: Findings) -> Answer:
    question = "Who must check what"
    if not findings.duties:
        return Answer(question, (), (f"No duties listed. {DEFER}",))
    columns = (Column("who", share=1.7), Column("what", share=4.0))
    rows = tuple((clean(d.who), clean(d.what)) for d in findings.duties)
    return Answer(question, (), (DEFER,), table=Table("Checks that are somebody's duty", columns, rows))
