"""Chapter on the place: depths, speeds, grounding."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters import speeds
from racewright.dossier.chapters.rating import rating_blocks
from racewright.dossier.chapters.tide import tide_blocks
from racewright.dossier.chapters.words import DEFER, absent, facts, grounding, low_water, remark_table
from racewright.dossier.document import Block, Chapter, Column, Picture, Table, Text
from racewright.dossier.figures.standings import is_drawable
from racewright.dossier.text import clean
from racewright.ledger.findings import Findings, PlaceFindings
from racewright.place.result import Standing


def write(findings: Findings) -> Chapter:
    """The place as the machine sees it."""
    place = findings.place
    if place is None:
        return Chapter("place", "Place", (absent(findings, "place"),))
    blocks: list[Block] = []
    words = clean(place.description)
    if words:
        blocks.append(Text(words))
    site = place.site
    low = low_water(site)
    if low is not None:
        value, meaning = grounding(low)
        blocks.append(Text(f"Bed clearance at low water: {value}. {meaning}", "lead"))
    else:
        blocks.append(Text(speeds.lead(place), "lead"))
    blocks.append(_facts(place))
    if site.standings:
        blocks.append(_standings(site.standings))
        if is_drawable(site.standings):
            blocks.append(
                Picture(
                    "standings",
                    "Water column and duct at each standing, to one vertical scale.",
                    _alt(site.standings),
                )
            )
    if findings.energy is None:
        blocks.append(
            Picture(
                "duration",
                "Duration curve of the place.",
                "Curve of values over the share of the year reached or passed.",
            )
        )
    blocks += [
        *rating_blocks(place.rating, place.rating_band),
        *speeds.spot_blocks(place.spots),
        *tide_blocks(place),
        *speeds.doubt_blocks(place),
        *speeds.season_blocks(site.outages),
        Text(f"{speeds.origin(place)} {DEFER}", "safety"),
    ]
    if site.remarks:
        blocks.append(remark_table(site.remarks, "Remarks on the place"))
    return Chapter("place", "Place", tuple(blocks))


def _facts(place: PlaceFindings) -> Table:
    climate = place.site.climate
    over = "by estimate" if place.spots is not None else "over the year"
    hub = [("hub depth", fmt.fixed(place.hub_depth, fmt.LENGTH, 2), "axis below the surface at median flow")]
    return facts(
        "The place in figures",
        [
            (
                "mean speed",
                fmt.fixed(climate.mean_speed, fmt.SPEED, 2),
                f"over the capture area, {over}",
            ),
            (
                "cube-mean speed",
                fmt.fixed(climate.mean_cube_speed, fmt.SPEED, 2),
                f"cube root of the mean cube of the speed {over}",
            ),
            *(hub if place.hub_depth > 0.0 else ()),
            ("record", _years(place.site.years), _behind(place)),
        ],
    )


def _behind(place: PlaceFindings) -> str:
    if place.spots is not None:
        return f"{place.spots.residual.size} spot speed(s) instead"
    return "length of the record behind the figures" if place.site.years > 0 else "the histogram does not say"


def _years(years: float) -> str:
    return f"{fmt.number(years, 1)}{fmt.THIN}years" if years > 0 else "none"


def _standings(standings: tuple[Standing, ...]) -> Table:
    columns = (
        Column("standing", share=1.9),
        *(Column(name, "end", 1.1) for name in ("discharge", "level", "depth", "cover", "clearance", "speed")),
    )
    rows = tuple(
        (
            clean(s.label),
            fmt.quantity(s.discharge, fmt.DISCHARGE),
            fmt.fixed(s.level, fmt.LENGTH, 2),
            fmt.fixed(s.depth, fmt.LENGTH, 2),
            *("dry" if s.depth <= 0.0 else fmt.fixed(v, fmt.LENGTH, 2) for v in (s.cover, s.clearance)),
            fmt.fixed(s.speed, fmt.SPEED, 2),
        )
        for s in standings
    )
    return Table(
        "Water at the machine. Cover is the water above the duct, clearance the water below it.",
        columns,
        rows,
    )


def _alt(standings: tuple[Standing, ...]) -> str:
    parts = (
        f"{clean(s.label)}: {fmt.fixed(s.depth, fmt.LENGTH, 2)} deep, "
        f"{fmt.fixed(s.clearance, fmt.LENGTH, 2)} under the duct"
        for s in standings
    )
    return "; ".join(parts) + "."
