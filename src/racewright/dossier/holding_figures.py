"""From a holding's findings to its drawings."""

from __future__ import annotations

import numpy as np

from racewright.dossier.chapters.struck import MOST_DRAWN
from racewright.dossier.figures import (
    layout_plan,
    layout_side,
    line_use,
    pose_speeds,
    strike_histories,
    strike_years,
)
from racewright.dossier.figures.save import svg
from racewright.holding.statics_result import Equilibrium
from racewright.holding.statics_sweep import Statics
from racewright.ledger.holding_parts import HoldingFindings


def draw_holding(found: HoldingFindings | None, width: float) -> dict[str, bytes]:
    """Every drawing of both chapters that the findings allow, as SVG by name."""
    if found is None:
        return {}
    held, invented = found.held, found.invented
    table = held.depths[0].intact
    drawn: dict[str, bytes] = {}
    rest = _last(table, 0)
    if rest is not None:
        ghost = _worst(table, rest)
        side = layout_side.draw(found.layout, rest, width, ghost=ghost, invented=invented)
        plan = layout_plan.draw(found.layout, rest, width, ghost=ghost, watch=held.watch, invented=invented)
        drawn = {"holding_side": svg(side), "holding_plan": svg(plan)}
    if held.worst:
        tables = tuple(one.intact for one in held.depths)
        drawn["holding_lines"] = svg(line_use.draw(held.worst, width, tables=tables, invented=invented))
    drawn["holding_poses"] = svg(
        pose_speeds.draw(
            table, width, cover=held.cover_wanted, bed_clearance=held.bed_clearance_wanted, invented=invented
        )
    )
    return {**drawn, **_strikes(found, width)}


def _strikes(found: HoldingFindings, width: float) -> dict[str, bytes]:
    drawn = {}
    hit = [one for one in found.struck if one.phases is not None]
    for k, one in enumerate(hit[:MOST_DRAWN], start=1):
        if one.phases is not None:
            figure = strike_histories.draw(one.phases, width, capacity=one.capacity, invented=found.invented)
            drawn[f"strike_{k}"] = svg(figure)
    if found.year is not None:
        figure = strike_years.draw(found.year.drawn, width, capacity=found.year.capacity, invented=found.invented)
        drawn["strike_years"] = svg(figure)
    return drawn


def _last(table: Statics, state: int) -> Equilibrium | None:
    """The settled point of a state in the fastest stream."""
    return next((p for p in reversed(table.points[state]) if p.settled), None)


def _worst(table: Statics, rest: Equilibrium) -> Equilibrium | None:
    """The state that pulls hardest on its lines in the same stream, or none."""
    place = int(np.argmin(np.abs(table.stream_speed - rest.stream_speed)))
    others = [row[place] for row in table.points[1:] if row[place].settled]
    return max(others, key=lambda p: max(line.tension for line in p.lines), default=None)
