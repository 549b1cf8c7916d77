"""Blocks around the yearly energy: band, months, years, availability, turbulence, several machines."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import facts
from racewright.dossier.document import Block, Column, Heading, Picture, Table, Text
from racewright.dossier.figures.months import NAMES
from racewright.dossier.figures.years import is_drawable
from racewright.dossier.text import clean
from racewright.ledger.energy_parts import WORST_FIRST, EnergyParts
from racewright.place.result import OutageShare
from racewright.remark import Remark
from racewright.supply.availability import Availability, LostTime
from racewright.supply.months import MonthlyEnergy
from racewright.supply.river_share import RiverShare
from racewright.supply.speed_band import EnergyBand
from racewright.supply.turbulence import Turbulence
from racewright.supply.years import YearlySpread

_HOURS = 8760.0
_TAKES = "Share of the transect blocked by {}, and of the river's discharge taken in by the rotors."


def blocks(
    parts: EnergyParts | None, outages: tuple[OutageShare, ...], labels: tuple[str, ...], *, predicted: bool = False
) -> list[Block]:
    """All that the case has around its yearly energy.

    Parameters
    ----------
    parts : EnergyParts or None
    outages : tuple of OutageShare
    labels : tuple of str
        Of the standings with flowing water.
    predicted : bool
        The years are a tide's, predicted.
    """
    if parts is None:
        return []
    found: list[Block] = [*_band(parts.band)]
    if parts.months is not None and parts.months.rows:
        found += _months(parts.months)
    if parts.years is not None:
        found += _years(parts.years, predicted=predicted)
    found += _availability(parts.availability, outages)
    found += _turbulence(parts.turbulence)
    if parts.river is not None and parts.river.blockage.size == len(labels):
        found += _river(parts.river, labels)
    return found


def remarks(parts: EnergyParts | None) -> tuple[Remark, ...]:
    """Of all the parts, each once, worst first."""
    if parts is None:
        return ()
    several = (parts.band, parts.months, parts.years, parts.turbulence, parts.river)
    found = dict.fromkeys(r for part in several if part is not None for r in part.remarks)
    return tuple(sorted(found, key=lambda r: WORST_FIRST[r.severity]))


def _band(band: EnergyBand) -> list[Block]:
    total = fmt.band(band.total, fmt.ENERGY)
    speed = fmt.quantity(band.speed_relative, fmt.SHARE, 2)
    text = (
        f"The site's speed is known to {speed} (one standard uncertainty), and energy moves "
        f"{fmt.number(band.sensitivity, 1)} times as much. With the power curve's own band and the other causes the "
        f"energy lies in {total.range}, about 95 %."
    )
    columns = (
        Column("cause", share=2.0),
        Column("least", "end", 1.1),
        Column("most", "end", 1.1),
        Column("standard", "end", 1.1),
    )
    scale = (fmt.pick(fmt.ENERGY, band.total.value),)
    places = fmt.decimals_for(band.total.value / scale[0].factor, 3)
    rows = [
        (
            clean(row.cause),
            fmt.fixed(row.low, scale, places),
            fmt.fixed(row.high, scale, places),
            fmt.quantity(row.relative_standard, fmt.SHARE, 2),
        )
        for row in band.rows
    ]
    ends = (fmt.fixed(band.total.low, scale, places), fmt.fixed(band.total.high, scale, places))
    rows.append(("all together", *ends, fmt.quantity(band.relative_standard, fmt.SHARE, 2)))
    return [
        Heading("How sure the energy is"),
        Text(text),
        Picture(
            "energy_causes",
            "Yearly energy at both ends of each cause alone, about 95 %, and of all together.",
            "; ".join(f"{clean(r.cause)} {fmt.quantity(r.relative_standard, fmt.SHARE, 2)}" for r in band.rows) + ".",
        ),
        Table(
            "Band of the yearly energy by cause, about 95 %, and its standard uncertainty; the widest first.",
            columns,
            tuple(rows),
        ),
    ]


def _months(months: MonthlyEnergy) -> list[Block]:
    season = any(row.open_energy > row.energy for row in months.rows)
    columns = (
        Column("month", share=1.0),
        Column("energy", "end", 1.2),
        *((Column("in all year", "end", 1.2),) if season else ()),
        Column("mean power", "end", 1.2),
        Column("time with power", "end", 1.2),
    )
    scale = (fmt.pick(fmt.ENERGY, max(row.open_energy for row in months.rows)),)
    places = fmt.decimals_for(max(row.open_energy for row in months.rows) / scale[0].factor, 3)
    rows = tuple(
        (
            NAMES[row.month - 1],
            fmt.fixed(row.energy, scale, places),
            *((fmt.fixed(row.open_energy, scale, places),) if season else ()),
            fmt.quantity(row.mean_power, fmt.POWER, 3),
            fmt.quantity(row.running, fmt.SHARE, 2),
        )
        for row in months.rows
    )
    caption = "Energy by month, all years of the record together."
    return [
        Heading("By month"),
        Picture(
            "months",
            "Energy of each month in its days; hatched what the season keeps back."
            if season
            else "Energy of each month in its days.",
            "; ".join(f"{NAMES[r.month - 1]} {fmt.quantity(r.energy, fmt.ENERGY)}" for r in months.rows) + ".",
        ),
        Table(caption, columns, rows),
    ]


def _years(years: YearlySpread, *, predicted: bool) -> list[Block]:
    found: list[Block] = [Heading("By year")]
    spread = years.spread
    if predicted:
        return [*found, *(Text(remark.text) for remark in years.remarks)]
    if spread is None or not is_drawable(years):
        found.append(
            Text("The record does not hold two whole years with energy, so no spread from year to year is told.")
        )
        return found
    energy = fmt.ENERGY
    found += [
        Picture(
            "years",
            "Energy of each recorded year. P50: passed in half of all years; P90: passed in nine years of ten.",
            "; ".join(f"{y} {fmt.quantity(e, energy)}" for y, e in zip(years.year, years.energy, strict=True)) + ".",
        ),
        facts(
            "The spread from year to year, taken as draws from a normal distribution",
            [
                ("P50", fmt.quantity(spread.p50, energy), f"mean of {spread.years} years"),
                ("P90 of one year", fmt.quantity(spread.p90_year, energy), "passed in nine years of ten"),
                ("P90 of the mean", fmt.quantity(spread.p90_mean, energy), "passed by the long-term mean at 90 %"),
                (
                    "spread",
                    fmt.quantity(spread.relative, fmt.SHARE, 2),
                    f"standard deviation over mean; counted as {fmt.number(spread.effective_years, 1)} years",
                ),
            ],
        ),
    ]
    return found


def _availability(lost: Availability, outages: tuple[OutageShare, ...]) -> list[Block]:
    columns = (
        Column("cause", share=2.0),
        Column("time lost", "end", 1.0),
        Column("hours in a year", "end", 1.2),
        Column("counted", share=2.0),
    )
    rows = [_lost(cause) for cause in lost.causes if not cause.in_climate]
    rows += [
        (
            clean(o.cause),
            fmt.quantity(o.share, fmt.SHARE, 2),
            fmt.number(_HOURS * o.share, 0),
            "as still water, in the climate",
        )
        for o in outages
    ]
    share = fmt.quantity(lost.share, fmt.SHARE, 3)
    text = f"The machine is able to run for {share} of the time that it is in the water."
    if outages:
        text += f" With the season it is {fmt.quantity(lost.whole, fmt.SHARE, 3)} of the year."
    return [Heading("Availability"), Text(text), Table("Time lost by cause.", columns, tuple(rows))]


def _lost(cause: LostTime) -> tuple[str, str, str, str]:
    hours = fmt.number(_HOURS * cause.share, 0)
    return clean(cause.cause), fmt.quantity(cause.share, fmt.SHARE, 2), hours, "evenly on all speeds"


def _turbulence(found: Turbulence) -> list[Block]:
    if found.intensity == 0.0:
        return []
    change = fmt.number(100 * (found.followed - 1.0), 1)
    sign = "+" if found.followed >= 1.0 else ""
    return [
        Heading("Turbulence"),
        Text(
            f"With a turbulence of {fmt.quantity(found.intensity, fmt.SHARE, 2)} the mean cube of the speed is "
            f"{fmt.number(100 * (found.cube_factor - 1.0), 1)}{fmt.THIN}% above the cube of its mean. A rotor that "
            f"followed every eddy would change the energy by {sign}{change}{fmt.THIN}%. Nothing of it is counted: "
            "eddies smaller than the rotor or quicker than its speed give less, and the loads are another matter."
        ),
    ]


def _river(river: RiverShare, labels: tuple[str, ...]) -> list[Block]:
    one = river.count == 1
    columns = (
        Column("standing", share=1.8),
        Column("blocked", "end", 1.2),
        Column("taken in", "end", 1.2),
    )
    rows = tuple(
        (clean(label), fmt.quantity(block, fmt.SHARE, 2), fmt.quantity(part, fmt.SHARE, 2))
        for label, block, part in zip(labels, river.blockage.tolist(), river.diversion.tolist(), strict=True)
    )
    if one:
        return [Heading("Beside the river"), Table(_TAKES.format("one machine"), columns, rows)]
    total = fmt.band(river.energy, fmt.ENERGY)
    text = (
        f"The {river.count} machines together deliver {total.value} a year ({total.range}), each as if alone: no "
        "gain from blockage and no loss in wakes is computed."
    )
    return [
        Heading("Several machines"),
        Text(text),
        Table(_TAKES.format(f"{river.count} machines"), columns, rows),
    ]
