"""The part of the place chapter that a tidal record brings: rhythm, flood and ebb, constituents."""

from __future__ import annotations

from racewright.dossier import format as fmt
from racewright.dossier.chapters.words import facts
from racewright.dossier.document import Block, Column, Heading, Picture, Table
from racewright.dossier.text import clean
from racewright.ledger.findings import PlaceFindings
from racewright.place.tide_result import Tide, TideConstituent
from racewright.place.tide_site import TidalSite

_MINUTES = (fmt.Scale("min", 60.0), fmt.Scale("h", 3600.0))
_DAYS = (fmt.Scale("d", 86400.0),)
MOST = 12
"""Constituents that the table shows, by falling energy. Own choice."""


def tide_blocks(place: PlaceFindings) -> tuple[Block, ...]:
    """Nothing for a place without a tide."""
    tide, site = place.tide, place.tidal_site
    if tide is None or site is None:
        return ()
    blocks: list[Block] = [Heading("The tide"), _rhythm(site), _ways(site)]
    blocks.append(
        Picture(
            "tide_ways",
            "How often flood and ebb pass each speed, and where they run to where that is known.",
            "Duration curves of flood and ebb.",
        )
    )
    if place.tide_trace is not None and place.tide_trace.day.size:
        blocks.append(
            Picture(
                "tide_trace",
                "The record beside the tide fitted to it: every day, and the week of the strongest day.",
                "Two charts of the record and the fitted tide.",
            )
        )
    blocks.append(_constituents(tide))
    if any(row.kept for row in tide.constituents):
        blocks.append(
            Picture("tide_constituents", "Constituents by size with their 95 % intervals.", "Bars of constituents.")
        )
    if tide.unseparated:
        blocks.append(_unseparated(tide))
    return tuple(blocks)


def _rhythm(site: TidalSite) -> Table:
    springs, slack = site.springs, site.slack
    rows = [
        (
            "springs",
            fmt.fixed(springs.spring_peak, fmt.SPEED, 2),
            "peak of the strongest lunar day of a fortnight, its four half tides averaged",
        ),
        ("neaps", fmt.fixed(springs.neap_peak, fmt.SPEED, 2), "the same of the weakest day"),
        (
            "slack",
            fmt.quantity(slack.share, fmt.SHARE, 2),
            f"of the time below {fmt.fixed(slack.speed, fmt.SPEED, 1)}; a window lasts "
            f"{fmt.quantity(slack.mean, _MINUTES, 2)} on average, nine in ten longer than "
            f"{fmt.quantity(slack.short, _MINUTES, 2)}",
        ),
        ("turns", f"{site.turns:.0f} a year", f"changes of direction; the machine {_WAYS[site.way]}"),
        (
            "lost by turning",
            fmt.quantity(site.lost_turning, fmt.SHARE, 2),
            "of the water's mean cube, while it turns",
        ),
        (
            "lost off the axis",
            fmt.quantity(site.lost_off_axis, fmt.SHARE, 2),
            "by a heading that is not the stream's",
        ),
        ("lost direction", fmt.quantity(site.lost_direction, fmt.SHARE, 2), "that the machine does not take"),
    ]
    return facts("The tide in figures", rows)


_WAYS = {"swings": "swings to the stream", "half turn": "makes half turns", "fixed": "stands fixed"}


def _ways(site: TidalSite) -> Table:
    columns = (
        Column("way"),
        Column("runs to", "end"),
        Column("of the time", "end"),
        Column("of the mean cube", "end", 1.2),
        Column("mean speed", "end"),
        Column("cube mean", "end"),
        Column("peak", "end"),
    )
    rows = tuple(
        (
            way.name,
            "not known" if way.direction is None else fmt.fixed(way.direction, fmt.ANGLE, 0),
            fmt.quantity(way.time_share, fmt.SHARE, 2),
            fmt.quantity(way.cube_share, fmt.SHARE, 2),
            *(fmt.fixed(speed, fmt.SPEED, 2) for speed in (way.mean_speed, way.cube_speed, way.peak)),
        )
        for way in site.ways
    )
    return Table("Flood and ebb; directions clockwise from true north.", columns, rows)


def _constituents(tide: Tide) -> Table:
    unit = fmt.LENGTH if tide.kind == "level" else fmt.SPEED
    columns = (
        Column("constituent"),
        Column("amplitude", "end"),
        Column("95 % half width", "end", 1.2),
        Column("phase", "end"),
        Column("of the energy", "end"),
        Column("from", share=1.2),
        Column("used", share=1.4),
    )
    rows = tuple(_row(one, unit) for one in tide.constituents[:MOST])
    explained = "" if tide.explained is None else f" They explain {fmt.quantity(tide.explained, fmt.SHARE, 3)}."
    left = len(tide.constituents) - len(rows)
    more = f" {left} smaller ones are not shown." if left > 0 else ""
    return Table(f"Constituents by falling energy; phases are lags on Greenwich.{explained}{more}", columns, rows)


def _row(one: TideConstituent, unit: tuple[fmt.Scale, ...]) -> tuple[str, ...]:
    sure = one.origin == "fitted"
    return (
        clean(one.name),
        fmt.fixed(one.amplitude, unit, 3),
        fmt.fixed(one.amplitude_error, unit, 3) if sure else "not known",
        fmt.fixed(one.phase, fmt.ANGLE, 0),
        fmt.quantity(one.share, fmt.SHARE, 2),
        {"fitted": "the record", "inferred": "its neighbour", "table": "a table"}[one.origin],
        "yes" if one.kept else "no: below the noise",
    )


def _unseparated(tide: Tide) -> Table:
    columns = (
        Column("constituent"),
        Column("not told from", share=1.2),
        Column("wants a record of", "end", 1.2),
        Column("so", share=3.0),
    )
    rows = tuple(
        (
            clean(one.name),
            clean(one.neighbour),
            fmt.fixed(one.wanted, _DAYS, 0),
            "taken by the ratio of the equilibrium tide" if one.inferred else "its part stays in the neighbour",
        )
        for one in tide.unseparated
    )
    return Table("What the record is too short to tell apart", columns, rows)
