"""Chapter on cost against diesel."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import absent, facts, machines, remark_table, saving
from racewright.dossier.document import Block, Chapter, Column, Picture, Table, Text
from racewright.dossier.text import clean
from racewright.ledger.findings import CommunityFindings, Findings
from racewright.supply.result import Comparison

NO_BAND = "no band computed"
SET_ON = "diesel set stays on"
SET_OFF = "diesel set goes off"


def write(findings: Findings) -> Chapter:
    """What a kilowatt-hour costs from the machine and from the diesel, and what is kept in a year."""
    title = "Cost against diesel"
    community = findings.community
    if community is None:
        return Chapter("cost", title, (absent(findings, "cost"),))
    comparison = community.comparison
    blocks: list[Block] = []
    words = clean(community.description)
    if words:
        blocks.append(Text(words))
    per = fmt.per_energy(comparison.currency)
    ours = fmt.band(comparison.machine_cost, per)
    worth = fmt.quantity(comparison.fuel_worth_set_on, per, 2)
    theirs = fmt.quantity(comparison.diesel.cost, per, 2)
    blocks += [
        Text(
            f"A kilowatt-hour costs {ours.both} from {machines(findings.count)} and saves {worth} of fuel while the "
            f"diesel set stays on. The diesel's whole cost is {theirs} ({NO_BAND}).",
            "lead",
        ),
        Text(f"{against_fuel(comparison, findings.count)} {set_off(comparison, findings.count)}"),
        Picture(
            "cost",
            "Cost of energy by part, and the fuel that a kilowatt-hour saves while the set stays on. The line above "
            "the machine's bar is the energy band carried through.",
            _alt(community, findings.count),
        ),
        _parts(comparison),
        _savings(comparison),
        _diesel(comparison),
    ]
    if comparison.remarks:
        blocks.append(remark_table(comparison.remarks, "Remarks on the cost"))
    return Chapter("cost", title, tuple(blocks))


def _parts(c: Comparison) -> Table:
    per = fmt.per_energy(c.currency)

    def cell(value: float) -> str:
        return fmt.fixed(value, per, 3)

    columns = (Column("part", share=1.6), Column("machine", "end"), Column("diesel", "end"))
    rows = (
        ("capital", cell(c.machine.capital_part), cell(c.diesel.capital_part)),
        ("running", cell(c.machine.running_part), cell(c.diesel.running_part)),
        ("fuel", "none", cell(c.diesel.fuel_part)),
        ("together", cell(c.machine.cost), cell(c.diesel.cost)),
        ("band", fmt.band(c.machine_cost, per).range, NO_BAND),
        ("fuel saved, set on", cell(c.fuel_worth_set_on), "part of its fuel"),
    )
    return Table("Cost of a kilowatt-hour, the machine's at the energy that the village uses.", columns, rows)


def _savings(c: Comparison) -> Table:
    columns = (
        Column("case", share=1.4),
        Column("kept in a year", "end", 2.4),
        Column("fuel saved in a year", "end", 2.2),
        Column("meaning", share=2.6),
    )
    rows = (
        (
            SET_ON,
            fmt.band(c.saving_set_on, fmt.money(c.currency)).both,
            fmt.band(c.fuel_saved_set_on, fmt.FUEL).both,
            "only the slope of its fuel curve is saved",
        ),
        (
            SET_OFF if c.set_can_stop else f"{SET_OFF} (out of reach)",
            fmt.band(c.saving_set_off, fmt.money(c.currency)).both,
            fmt.band(c.fuel_saved_set_off, fmt.FUEL).both,
            "its share of fuel and upkeep falls with its hours"
            if c.set_can_stop
            else "out of reach: rated power is below the mean load",
        ),
    )
    return Table(
        "The two cases; money kept is fuel and running cost saved, less the machine's yearly cost.",
        columns,
        rows,
    )


def _diesel(c: Comparison) -> Table:
    used = fmt.band(c.used_energy, fmt.ENERGY)
    d = c.diesel
    return facts(
        "Behind the comparison",
        [
            ("energy used", used.value, f"machine energy that the village can take in a year; {used.range}"),
            (
                "capital recovery",
                fmt.quantity(c.machine.capital_recovery, fmt.SHARE),
                "share of the capital to be paid each year",
            ),
            (
                "diesel mean load",
                fmt.quantity(d.mean_load, fmt.POWER),
                f"{fmt.quantity(d.load_fraction, fmt.SHARE, 2)} of its rated power",
            ),
            ("fuel use", fmt.quantity(d.fuel_use, fmt.FUEL_USE), "at that load"),
            (
                "fuel price",
                fmt.quantity(d.delivered_price, fmt.per_fuel(c.currency)),
                "delivered at the village",
            ),
            ("fuel in a year", fmt.quantity(d.fuel_yearly, fmt.FUEL), "burnt by the diesel alone"),
        ],
    )


def against_fuel(c: Comparison, count: int) -> str:
    """The machine's cost beside the fuel that it saves while the set stays on, and the money kept."""
    if c.machine_cost.low > c.fuel_worth_set_on:
        words = "costs more than"
    elif c.machine_cost.high < c.fuel_worth_set_on:
        words = "costs less than"
    else:
        words = "may cost more or less than"
    kept = saving(c.saving_set_on, c.currency, count)
    they = "it" if count == 1 else "they"
    return f"A kWh from {machines(count)} {words} the fuel it saves while the {SET_ON}: {they} {kept}."


def set_off(c: Comparison, count: int) -> str:
    """What is kept when the set goes off, or why it does not."""
    if c.set_can_stop:
        kept = saving(c.saving_set_off, c.currency, count)
        return f"If the {SET_OFF} for its share of the hours, {machines(count)} {kept}."
    rated = "The machine's rated power" if count == 1 else f"The rated power of the {count} machines together"
    return f"{rated} is below the mean load, so the set can hardly ever stop and its standing cost remains."


def _alt(community: CommunityFindings, count: int) -> str:
    c = community.comparison
    return f"Three bars: machine, fuel saved, diesel. {against_fuel(c, count)}"
