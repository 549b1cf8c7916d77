"""A year of logs from plain scheme values: seasons, kinds of logs, and the curves of what a year passes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError
from racewright.holding.log_draws import YEAR
from racewright.holding.log_exceedance import LogExceedance, yearly_chance
from racewright.holding.log_population import LogKind, Season
from racewright.ledger.holding_things import said
from racewright.ledger.struck_findings import StruckYear
from racewright.place.result import Site

Floats = NDArray[np.float64]
Table = Mapping[str, Any]

LEVELS = 24
"""Levels of the exceedance curves. Own choice."""


def seasons_of(site: Site, tables: Mapping[str, Table]) -> list[tuple[Season, float]]:
    """Parts of the year by how fast the water is, each with its share of the logs; the whole year without tables."""
    climate = site.climate
    middle, share = 0.5 * (climate.edge[1:] + climate.edge[:-1]), climate.share / climate.share.sum()
    whole = {"all year": {"exceeded_from": 0.0, "exceeded_to": 1.0, "logs": 1.0, "exposed": 1.0}}
    after = 1.0 - np.cumsum(share)
    before = after + share
    found = []
    for name, t in sorted((tables or whole).items()):
        part = np.clip(np.minimum(before, t["exceeded_to"]) - np.maximum(after, t["exceeded_from"]), 0.0, None)
        part = np.where(middle > 0.0, part, 0.0)
        if part.sum() > 0.0:
            used = part > 0.0
            season = Season(said(name), float(part.sum()), middle[used], part[used] / part.sum(), t["exposed"])
            found.append((season, t["logs"]))
    if not found:
        raise NoAnswerError("No season of the logs holds any flowing water of the record.")
    return found


def kind_of(name: str, t: Table, seasons: list[tuple[Season, float]], depth: float) -> LogKind:
    """Logs of one kind with their passing rates in each season.

    Parameters
    ----------
    name : str
    t : mapping
        Plain values of its scheme table.
    seasons : list of (Season, float)
        Each with its share of the year's logs [-].
    depth : float
        Of the water, over which submerged logs are spread [m].
    """
    width = t["passing_width"] * (depth if t["attitude"] == "submerged" else 1.0)
    passing = tuple(t["yearly"] * logs / (width * season.share * YEAR) for season, logs in seasons)
    return LogKind(
        name, t["attitude"], t["length"], t["length_spread"], t["diameter"], t["diameter_spread"], t["longest"],
        t["lightest"], t["heaviest"], passing, t["heading_spread"],
    )  # fmt: skip


def yearly_curves(found: LogExceedance, capacity: float | None) -> StruckYear:
    """Chances over levels that span what the answered logs do; a log without an answer passes every level.

    Parameters
    ----------
    found : LogExceedance
    capacity : float or None
        Of the weak link along the stream [N].
    """
    levels = _levels(found)
    soft, stiff, line = (
        yearly_chance(v, levels, found.draws) for v in (found.first_low, found.first_high, found.slow)
    )
    parting = found.parting
    known = parting.level.size > 0
    return StruckYear(
        found.draws.encounters,
        levels,
        soft.chance,
        stiff.chance,
        stiff.high,
        line.chance,
        line.low,
        line.high,
        float(parting.chance[0]) if known else None,
        float(parting.low[0]) if known else None,
        float(parting.high[0]) if known else None,
        found.figures,
        int(found.draws.length.size),
        line.confidence,
        found.remarks,
        capacity,
        found,
    )


def _levels(found: LogExceedance) -> Floats:
    """From the least to the greatest force of the logs that got an answer; 1 kN to 1 MN where none did [N]."""
    answered = found.answered
    if not answered.any():
        return np.geomspace(1e3, 1e6, LEVELS)
    low, high, slow = (v[answered] for v in (found.first_low, found.first_high, found.slow))
    top = max(float(high.max()), float(slow.max()), 1.0)
    return np.geomspace(max(min(float(low.min()), float(slow.min())), 1e-4 * top), top, LEVELS)
