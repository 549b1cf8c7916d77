"""Blocks on the speed at the machine: where it comes from, how well it is known, when the machine is out."""

from __future__ import annotations

import math

from racewright.dossier import format as fmt
from racewright.dossier.document import Block, Column, Heading, Table, Text
from racewright.dossier.text import clean
from racewright.ledger.findings import PlaceFindings
from racewright.place.result import OutageShare
from racewright.place.speed_uncertainty import combined
from racewright.place.spot import SpotClimate


def lead(place: PlaceFindings) -> str:
    """The chapter's first sentence where no transect tells whether the machine grounds."""
    site = place.site
    speed = fmt.fixed(site.climate.mean_cube_speed, fmt.SPEED, 2)
    if place.spots is not None:
        said = f"The cube-mean speed is estimated, not recorded: {speed}, anywhere from {spot_range(place.spots)}."
    elif site.predicted:
        said = f"The speed is predicted from the tide's constituents: {speed} in the cube mean."
    elif site.values:
        said = f"The speed was recorded where the machine hangs: {speed} in the cube mean over the record."
    else:
        said = f"The speed is given as shares of time: {speed} in the cube mean."
    return f"{said} Whether the machine grounds at low water is not known: that needs a rating curve and a transect."


def spot_range(spots: SpotClimate) -> str:
    """Cube-mean speed at both ends of the band."""
    speed = spots.climate.mean_cube_speed
    low, high = speed * spots.low_factor, speed * spots.high_factor
    return f"{fmt.number(low, 2)} to {fmt.fixed(high, fmt.SPEED, 2)}"


def origin(place: PlaceFindings) -> str:
    """What the depths and speeds of the chapter rest on."""
    if place.site.standings:
        return "Depths come from the rating curve and the transect as given."
    if place.spots is not None:
        return "Speeds are an estimate from a few measurements; have the speed recorded before money is spent."
    if place.site.predicted:
        return "Speeds are predicted from the tide's constituents, taken as the cube mean over the capture area."
    if place.site.values:
        return "Speeds are as recorded, taken as the cube mean over the capture area."
    return "Speeds are as given in the histogram, taken as the cube mean over the capture area."


def spot_blocks(spots: SpotClimate | None) -> list[Block]:
    """The estimate from spot speeds."""
    if spots is None:
        return []
    count = spots.residual.size
    few = "One spot speed scales" if count == 1 else f"{count} spot speeds scale"
    columns = (Column("where the doubt comes from", share=2.4), Column("standard uncertainty of speed", "end", 1.6))
    rows = (
        ("scatter of the spot speeds", fmt.quantity(spots.scatter_error, fmt.SHARE, 2)),
        ("flow of the day known only in words", fmt.quantity(spots.flow_error, fmt.SHARE, 2)),
        ("shape of the distribution", fmt.quantity(spots.shape_error, fmt.SHARE, 2)),
        ("together", fmt.quantity(spots.relative_standard, fmt.SHARE, 2)),
    )
    return [
        Heading("Speed from spot speeds"),
        Text(
            f"{few} {clean(spots.basis)}. By this estimate the water runs "
            f"{fmt.fixed(spots.median_speed, fmt.SPEED, 2)} or more for half of the year. There is no record behind "
            "it, so no years, no months and no low water."
        ),
        Table("How well the spot speeds fix the speed.", columns, rows),
    ]


def doubt_blocks(place: PlaceFindings) -> list[Block]:
    """How well the speed is known, by cause; nothing for a single cause."""
    causes = place.speed_causes
    if len(causes) < 2:
        return []
    columns = (
        Column("cause", share=1.6),
        Column("known to", "end", 1.1),
        Column("passed on", "end", 1.1),
        Column("speed then", "end", 1.1),
    )
    ordered = sorted(causes, key=lambda cause: -cause.speed_error)
    rows = [
        (
            clean(cause.cause),
            fmt.quantity(cause.input_error, fmt.SHARE, 2),
            f"{fmt.number(cause.sensitivity, 2)} times",
            fmt.quantity(cause.speed_error, fmt.SHARE, 2),
        )
        for cause in ordered
    ]
    together = combined(causes)
    low, high = -100 * math.expm1(-2 * together), 100 * math.expm1(2 * together)
    text = (
        f"Together the speed is known to {fmt.quantity(together, fmt.SHARE, 2)} (one standard uncertainty). Every "
        f"speed may be {fmt.number(low, 0)}{fmt.THIN}% less or {fmt.number(high, 0)}{fmt.THIN}% more (about "
        "95 %), all wrong by the same factor."
    )
    return [
        Heading("How well the speed is known"),
        Text(text),
        Table(
            "Standard uncertainty of each cause, how much of it passes on to the speed at the machine, and of the "
            "speed then.",
            columns,
            tuple(rows),
        ),
    ]


def season_blocks(outages: tuple[OutageShare, ...]) -> list[Block]:
    """Time that the season keeps the machine out."""
    if not outages:
        return []
    columns = (
        Column("cause", share=2.4),
        Column("share of the record", "end", 1.4),
        Column("days in a year", "end", 1.2),
    )
    rows = [(clean(o.cause), fmt.quantity(o.share, fmt.SHARE, 2), fmt.number(365 * o.share, 1)) for o in outages]
    if len(outages) > 1:
        total = sum(o.share for o in outages)
        rows.append(("together", fmt.quantity(total, fmt.SHARE, 2), fmt.number(365 * total, 1)))
    return [
        Heading("Season"),
        Table(
            "When the machine is out of the water; a time with several causes counts for the first.",
            columns,
            tuple(rows),
        ),
    ]
