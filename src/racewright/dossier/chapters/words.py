"""Sentences that several chapters share."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.document import Column, Table, Text
from racewright.dossier.text import clean, signs
from racewright.ledger.findings import Findings
from racewright.place.result import Site, Standing
from racewright.remark import Remark
from racewright.uncertainty import Band

DEFER = "Not a basis for building, anchoring or switching on: local codes, permits and licensed practice decide."
LOADS_DEFER = "Thrust and moments are steady values at one point, not design loads. " + DEFER

_NEEDS = {
    "place": "a [place] table with a record of discharge or speed, or a histogram of speed",
    "machine": "a [machine] table with duct, hub, vanes, blades and drive",
    "energy": "a place and a machine, joined by a [case] table",
    "cost": "a [community] table with its diesel set, and the machine's costs",
}


def facts(caption: str, rows: list[tuple[str, str, str]]) -> Table:
    """A table of quantity, value and what it means."""
    columns = (Column("quantity", share=2.0), Column("value", "end", 1.6), Column("meaning", share=3.4))
    return Table(caption, columns, tuple(rows), shape="facts")


def absent(findings: Findings, chapter: str) -> Text:
    """What a chapter that cannot be written would need."""
    told = next((m.needs for m in findings.missing if m.chapter.casefold() == chapter), _NEEDS[chapter])
    return Text(f"Nothing computed. This chapter needs {clean(told).rstrip('.')}.", "lead")


def remark_table(remarks: tuple[Remark, ...], caption: str) -> Table:
    """Remarks as severity, subject and text."""
    columns = (Column("how grave", share=1.0), Column("about", share=1.4), Column("remark", share=5.0))
    return Table(caption, columns, tuple((r.severity, clean(r.about), signs(r.text)) for r in remarks), shape="facts")


def times(band: Band, count: int) -> Band:
    """The band of `count` equal things that rise and fall together."""
    return Band(count * band.low, count * band.value, count * band.high, band.basis)


def machines(count: int) -> str:
    """'the machine' or 'the 5 machines'."""
    return "the machine" if count == 1 else f"the {count} machines"


def low_water(site: Site) -> Standing | None:
    """The standing at low water, if the place gives one."""
    return next((s for s in site.standings if "low" in s.label), None)


def grounding(standing: Standing) -> tuple[str, str]:
    """Clearance at low water with its sign, and what it means."""
    clearance = fmt.number(standing.clearance, 2)
    sign = "+" if standing.clearance > 0 else ""
    value = fmt.join(f"{sign}{clearance}", fmt.LENGTH[0])
    if standing.clearance < 0:
        return value, f"The duct is aground at {standing.label}: it would need that much more water."
    if standing.cover < 0:
        return value, f"The duct clears the bed at {standing.label}, but its top stands out of the water."
    if standing.clearance == 0:
        return value, f"The duct touches the bed at {standing.label}."
    return value, f"The duct floats clear of the bed at {standing.label}."


def saving(band: Band, currency: str, count: int = 1) -> str:
    """Money kept in a year with its range, and the verb for its sign, for one machine or several."""
    unit = fmt.money(currency)
    if band.low >= 0:
        text = fmt.band(band, unit)
        return f"{'saves' if count == 1 else 'save'} {text.value} a year ({text.range})"
    if band.high <= 0:
        text = fmt.band(Band(-band.high, -band.value, -band.low, band.basis), unit)
        return f"{'loses' if count == 1 else 'lose'} {text.value} a year ({text.range})"
    loss, gain = fmt.quantity(-band.low, unit, 2), fmt.quantity(band.high, unit, 2)
    return f"may lose up to {loss} or save up to {gain} a year (middle {fmt.band(band, unit).value})"
