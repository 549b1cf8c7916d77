"""Chapter on the village's supply by the hour: the day and the fuel calendar first, then the ways, then the band."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import facts, machines, remark_table
from racewright.dossier.document import Block, Chapter, Column, Picture, Table, Text
from racewright.ledger.supply_findings import SupplyFindings
from racewright.ledger.supply_things import SupplyBand, SupplyYear
from racewright.supply.quantiles import Quantiles

_HOUR = 3600.0
_TIME = (fmt.Scale("h", _HOUR),)


def write(supply: SupplyFindings, count: int) -> Chapter:
    """What the village burns and lacks in a year, hour by hour."""
    year = supply.year
    full = year.rows[year.fullest]
    saved = fmt.quantity(full.fuel_saved, fmt.FUEL)
    trips = f" and {full.trips_saved} trips of the fuel's last carrier" if year.delivered is not None else ""
    blocks: list[Block] = [
        Text(
            f"With {machines(count)} the village saves up to {saved} of fuel{trips} in the year {year.year}; "
            f"{_short(year)}",
            "lead",
        ),
        Text(f"Shown: {full.sentence}"),
        Picture(
            "supply_day",
            "Who carries the load, hour by hour of the village's clock, on a mean day of two months.",
            "Stacked hours of machine, sun, battery and diesel sets against the load, for the month that burns least "
            "fuel and the month that burns most.",
        ),
        Picture(
            "fuel_calendar",
            "Fuel day by day. Beside each month: what it burns, and what the sets alone would burn.",
            f"Calendar of fuel; over the year {fmt.quantity(full.year.fuel, fmt.FUEL)} against "
            f"{fmt.quantity(year.rows[0].year.fuel, fmt.FUEL)} by the sets alone.",
        ),
        _ways(year),
        _behind(supply),
        _band(supply.band),
    ]
    remarks = tuple(year.remarks)
    if remarks:
        blocks.append(remark_table(remarks, "Remarks on the supply"))
    return Chapter("supply", "Supply by the hour", tuple(blocks))


def _short(year: SupplyYear) -> str:
    time = year.rows[year.fullest].year.unserved_time
    if time == 0.0:
        return "no hour goes short."
    return f"{fmt.quantity(time, _TIME)} go short of power, in part or whole."


def _ways(year: SupplyYear) -> Table:
    columns = (
        Column("way of supply", share=3.2),
        Column("fuel", "end", 1.2),
        Column("saved", "end", 1.2),
        Column("trips saved", "end", 1.0),
        Column("hours short", "end", 1.0),
        Column("unused", "end", 1.2),
        Column("kept", "end", 1.4),
    )
    rows = tuple(
        (
            row.sentence,
            fmt.quantity(row.year.fuel, fmt.FUEL),
            fmt.quantity(row.fuel_saved, fmt.FUEL),
            str(row.trips_saved) if year.delivered is not None else "not given",
            fmt.quantity(row.year.unserved_time, _TIME),
            fmt.quantity(row.year.unused_energy, fmt.ENERGY),
            fmt.quantity(row.money_saved, fmt.money(year.currency)),
        )
        for row in year.rows
    )
    caption = (
        "The same year in every way. Kept: fuel and upkeep of the sets against the sets alone; what machine, battery "
        "and panels cost is not taken off."
    )
    return Table(caption, columns, rows)


def _behind(supply: SupplyFindings) -> Table:
    year, line = supply.year, supply.machines
    way = year.delivered
    rows = [
        (
            "water",
            str(line.water_year),
            f"year of the record; {fmt.quantity(line.recorded, fmt.SHARE)} of it recorded",
        ),
        ("stops drawn", str(line.stops), f"able to run {fmt.quantity(line.running, fmt.SHARE)} of the year"),
        (
            "machine energy",
            fmt.quantity(line.sent_energy, fmt.ENERGY),
            f"before converter and cable, which take {fmt.quantity(line.line_loss, fmt.ENERGY)}",
        ),
        ("fuel at the village", fmt.quantity(year.fuel_price, fmt.per_fuel(year.currency)), "what is fit to burn"),
    ]
    if way is not None:
        per = fmt.per_fuel(year.currency)
        parts = (
            ("of it: bought", way.bought_part, "where the fuel is bought"),
            ("of it: carriers' fuel", way.fuel_part, "there loaded, back empty"),
            ("of it: crews", way.crew_part, "under way and in port"),
            ("of it: hire", way.trip_part, "hire, tolls and handling"),
            ("of it: spoilt", way.spoilt_part, "lost or unfit to burn"),
        )
        rows += [(name, fmt.quantity(value, per), text) for name, value, text in parts if value > 0.0]
        rows.append(("one trip each", fmt.quantity(way.trip_time, _TIME), "all parts of the way, ports included"))
    return facts("Behind the year", rows)


def _band(band: SupplyBand) -> Table:
    columns = (
        Column("in a year", share=2.0),
        Column("P10", "end", 1.2),
        Column("P50", "end", 1.2),
        Column("P90", "end", 1.2),
    )
    rows: tuple[tuple[str, Quantiles, tuple[fmt.Scale, ...]], ...] = (
        ("fuel", band.fuel, fmt.FUEL),
        ("fuel saved", band.fuel_saved, fmt.FUEL),
        ("short of power", band.unserved_time, _TIME),
        ("unused energy", band.unused_energy, fmt.ENERGY),
        ("energy used", band.used_energy, fmt.ENERGY),
        ("able to run", band.running, fmt.SHARE),
    )
    caption = (
        f"{band.years} years drawn: load, power curve, stops, and the water of {band.water_years} recorded years. "
        "10, 50 and 90 of 100 years lie below."
    )
    return Table(
        caption, columns, tuple((n, *(fmt.quantity(v, s) for v in (q.p10, q.p50, q.p90))) for n, q, s in rows)
    )
