"""Page one: the answers, in the order in which they are asked."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.cost import NO_BAND, against_fuel, set_off
from racewright.dossier.chapters.trials import in_short
from racewright.dossier.chapters.words import DEFER, grounding, low_water, times
from racewright.dossier.document import Answer, Column, Mark, Picture, Table
from racewright.dossier.figures.section import outer_radius
from racewright.dossier.text import clean, signs
from racewright.ledger.energy_parts import WORST_FIRST
from racewright.ledger.findings import Findings
from racewright.ledger.place_inputs import NO_DUCT_RADIUS
from racewright.remark import Remark

_SHOWN = 3
"""Remarks on page one; the rest stand in their chapter."""


def answers(findings: Findings, missing: int) -> tuple[Answer, ...]:
    """What machine, what power, what cost, what is unsure, does it ground, who must check.

    Parameters
    ----------
    findings : Findings
    missing : int
        Number of the chapter on what is missing.
    """
    return (
        _machine(findings),
        _power(findings),
        *_trials(findings),
        _cost(findings),
        _unsure(findings, missing),
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
    throat = fmt.quantity(2 * duct.throat_radius, fmt.LENGTH)
    heads: tuple[tuple[str, str], ...] = ((throat, "throat diameter"),)
    if findings.count > 1:
        heads = ((f"{findings.count} machines", "equal, in the case"), *heads)
        line = f"Each a d{line[1:]}"
    words = clean(machine.description)
    picture = Picture("sketch", "", f"Section of the machine, throat {throat}.")
    return Answer(
        "What machine",
        heads,
        (line, words) if words else (line,),
        picture=picture,
    )


def _power(findings: Findings) -> Answer:
    machine, energy = findings.machine, findings.energy
    count = findings.count
    of_one = "" if count == 1 else " of one"
    heads: list[tuple[str, str]] = []
    lines: list[str] = []
    if machine is not None:
        point = machine.design_point
        power = fmt.band(point.band, fmt.POWER)
        speed = fmt.fixed(point.stream_speed, fmt.SPEED, 2)
        heads.append((power.value, f"shaft power{of_one} at {speed}; {power.range}"))
    if energy is not None:
        total = fmt.band(energy.total, fmt.ENERGY)
        if count == 1:
            heads.append((f"{total.value} a year", f"delivered at the place; {total.range}"))
        else:
            every = fmt.band(times(energy.total, count), fmt.ENERGY)
            heads.append((f"{total.value} a year", f"delivered by one; {total.range}"))
            heads.append((f"{every.value} a year", f"delivered by all {count}; {every.range}"))
            lines.append("All are taken to stand in the same undisturbed water: wakes and blockage are not computed.")
        mean = fmt.quantity(energy.mean_power, fmt.POWER)
        lines.append(
            f"At the place {'the' if count == 1 else 'each'} machine gives {mean} of electrical power on average, "
            f"{fmt.quantity(energy.capacity_factor, fmt.SHARE, 2)} of its rated power."
        )
    else:
        lines.append("No yearly energy: that needs a place and a machine.")
    if machine is None:
        lines.insert(0, "No power: that needs a machine.")
    return Answer("What power, what energy", tuple(heads), tuple(lines))


def _trials(findings: Findings) -> tuple[Answer, ...]:
    """What was tested and how it stands to the prediction; nothing without trials."""
    if findings.trials is None or findings.machine is None:
        return ()
    lines = in_short(findings.trials)
    return (Answer("What the trials say", (), ("Invented data.", *lines) if findings.trials.invented else lines),)


def _cost(findings: Findings) -> Answer:
    question = "What it costs against diesel"
    if findings.community is None:
        return Answer(question, (), (f"Not computed: that needs {_needs_of_cost(findings)}.",))
    c = findings.community.comparison
    per = fmt.per_energy(c.currency)
    ours = fmt.band(c.machine_cost, per)
    heads = (
        (ours.value, f"from the machine; {ours.range}"),
        (fmt.quantity(c.fuel_worth_set_on, per, 2), "fuel that it saves while the diesel set stays on"),
        (fmt.quantity(c.diesel.cost, per, 2), f"the diesel's whole cost; {NO_BAND}"),
    )
    return Answer(
        question, heads, (against_fuel(c, findings.count), set_off(c, findings.count), *_by_the_hour(findings))
    )


def _by_the_hour(findings: Findings) -> tuple[str, ...]:
    """What the hourly year makes of the same, where there is one."""
    if findings.supply is None:
        return ()
    year = findings.supply.year
    shown = sorted({min(1, len(year.rows) - 1), year.fullest})
    saved = " and ".join(
        f"{fmt.quantity(row.fuel_saved, fmt.FUEL)} or {fmt.quantity(row.money_saved, fmt.money(year.currency))} of "
        f"fuel and upkeep ({clean(row.sentence).rstrip('.')})"
        for row in (year.rows[place] for place in shown)
    )
    money = findings.supply.money
    life = ""
    if money is not None and money.rows:
        best = max(money.rows, key=lambda row: row.net_present_value)
        worth = fmt.quantity(best.net_present_value, fmt.money(money.currency))
        gain = f"{100 * best.chance_of_gain:.0f} of 100 draws gain"
        life = f" Over {money.years} years the best way is worth {worth} today; {gain}."
    return (
        f"The figures above rest on yearly averages and one diesel set. Plan with the year by the hour and all the "
        f"village's sets: in {year.year} it saves {saved}, before what the machine costs.{life}",
    )


def _unsure(findings: Findings, chapter: int) -> Answer:
    kinds = _kinds(findings.remarks)
    shown = kinds[:_SHOWN]
    marks = tuple(Mark(r.severity, clean(r.about), signs(_said(r))) for r in shown)
    rest = len(findings.remarks) - len(marks)
    lines = []
    others = [clean(r.about) for r in kinds[_SHOWN:] if r.severity == "warning"]
    if others:
        lines.append(f"Warnings of other kinds: {', '.join(others)}.")
    if not findings.remarks:
        lines.append("The computation left no remarks.")
    elif rest > 0:
        lines.append(f"{rest} more in chapter {chapter}, \u201cWhat is missing, what is unsure\u201d.")
    if findings.left_out:
        lines.append(f"Not computed by this version: see chapter {chapter}.")
    return Answer("What is unsure", (), tuple(lines), marks)


def _kinds(remarks: tuple[Remark, ...]) -> list[Remark]:
    """The first remark of each kind, worst first; among warnings first those of something that is too weak."""
    first: dict[str, Remark] = {}
    for remark in remarks:
        first.setdefault(remark.about.split(":")[0], remark)
    return sorted(first.values(), key=lambda r: (WORST_FIRST[r.severity], not _weak(r)))


def _said(remark: Remark) -> str:
    """Its text, after what it is about where that names a part."""
    part = remark.about.partition(": ")[2]
    return f"{part[:1].upper()}{part[1:]}: {remark.text}" if part else remark.text


def _weak(remark: Remark) -> bool:
    return any(word in remark.about for word in ("too weak", "stress", "line parts", "parting"))


def _grounding(findings: Findings) -> Answer:
    question = "Does it ground at low water"
    low = None if findings.place is None else low_water(findings.place.site)
    if low is None:
        return Answer(question, (), ("Not known: that needs a place with a rating curve and a transect.",))
    value, meaning = grounding(low)
    water, speed = fmt.fixed(low.cover, fmt.LENGTH, 2), fmt.fixed(low.speed, fmt.SPEED, 2)
    cover = f"Water above the duct then: {water}; speed {speed}."
    lines = [meaning, cover]
    if findings.machine is None:
        lines.insert(
            0, f"No machine yet: a duct of {fmt.fixed(2.0 * NO_DUCT_RADIUS, fmt.LENGTH, 1)} across is taken."
        )
    return Answer(question, ((value, "between duct and bed at low water (Q95)"),), tuple(lines))


def _duties(findings: Findings) -> Answer:
    question = "Who must check what"
    if not findings.duties:
        return Answer(question, (), (f"No duties listed. {DEFER}",))
    columns = (Column("who", share=1.7), Column("what", share=4.0))
    rows = tuple((clean(d.who), clean(d.what)) for d in findings.duties)
    return Answer(question, (), (DEFER,), table=Table("Checks that are somebody's duty", columns, rows))


def _needs_of_cost(findings: Findings) -> str:
    """What the cost chapter says it needs, else a community."""
    told = next((m.needs for m in findings.missing if m.chapter == "Cost"), "a community with its diesel set")
    return clean(told).rstrip(".")
