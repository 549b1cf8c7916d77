"""Every drawing of a dossier, wide for page and desk screen, narrow for a phone."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from racewright.dossier.chapters import money, outside
from racewright.dossier.figures import (
    budget,
    causes,
    coefficients,
    control,
    cost,
    duration,
    energy_causes,
    fuel_calendar,
    money_movers,
    months,
    power,
    power_map,
    rating,
    sketch,
    standings,
    stream,
    supply_day,
    tide_constituents,
    tide_trace,
    tide_ways,
    triangles,
    years,
)
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.dossier.figures.save import svg
from racewright.dossier.growth_drawings import draw_growth
from racewright.dossier.holding_figures import draw_holding
from racewright.dossier.neighbours_figures import draw_neighbours
from racewright.dossier.strength_view import draw_strength
from racewright.dossier.trials_figures import draw_trials
from racewright.ledger.energy_parts import EnergyParts
from racewright.ledger.findings import Findings, PlaceFindings
from racewright.ledger.supply_findings import SupplyFindings
from racewright.tick import Tick, part_of, silent


@dataclass(frozen=True)
class Drawings:
    """SVG by name; every name in `narrow` is in `wide` too."""

    wide: dict[str, bytes]
    narrow: dict[str, bytes]


def draw_all(findings: Findings, tick: Tick = silent) -> Drawings:
    """The drawings that the findings allow.

    Parameters
    ----------
    findings : Findings
    tick : Tick
        Called after every group of drawings.
    """
    wide = _draw(findings, WIDE, part_of(tick, 0, 2))
    narrow = _draw(findings, NARROW, part_of(tick, 1, 2))
    if findings.machine is not None:
        wide["sketch"] = svg(sketch.draw(findings.machine))
    return Drawings(wide, narrow)


def _tide(place: PlaceFindings, cut_in_speed: float | None, width: float) -> dict[str, bytes]:
    tide, site, trace = place.tide, place.tidal_site, place.tide_trace
    if tide is None or site is None:
        return {}
    drawn = {"tide_ways": svg(tide_ways.draw(site, width, cut_in_speed=cut_in_speed))}
    if any(row.kept for row in tide.constituents):
        drawn["tide_constituents"] = svg(tide_constituents.draw(tide, width))
    if trace is not None and trace.day.size:
        level = tide.kind == "level"
        slack = None if level else site.slack.speed
        drawn["tide_trace"] = svg(tide_trace.draw(trace, width, level=level, slack_speed=slack))
    return drawn


def _draw(findings: Findings, width: float, tick: Tick) -> dict[str, bytes]:
    groups: tuple[Callable[[], dict[str, bytes]], ...] = (
        lambda: _place_and_machine(findings, width),
        lambda: draw_holding(findings.holding, width),
        lambda: draw_trials(findings, width),
        lambda: draw_strength(findings, width),
        lambda: draw_neighbours(findings, width),
        lambda: draw_growth(findings, width),
        lambda: _supply(findings.supply, width),
        lambda: _around_energy(findings.energy_parts, width),
    )
    drawn: dict[str, bytes] = {}
    for done, group in enumerate(groups, 1):
        drawn.update(group())
        tick(done / len(groups))
    return drawn


def _place_and_machine(findings: Findings, width: float) -> dict[str, bytes]:
    machine, place, community = findings.machine, findings.place, findings.community
    drawn: dict[str, bytes] = {}
    if place is not None:
        if standings.is_drawable(place.site.standings):
            drawn["standings"] = svg(standings.draw(place.site.standings, width))
        drawn["duration"] = svg(duration.draw(place.site, findings.energy, width))
        drawn |= _tide(place, None if machine is None else machine.drive.cut_in_speed, width)
    if machine is not None:
        drawn["stream"] = svg(stream.draw(machine, place, width))
        drawn["triangles"] = svg(triangles.draw(machine.design_point.triangles, width))
        drawn["coefficients"] = svg(coefficients.draw(machine.curve, machine.design_point, width))
        point = machine.design_point
        if point.book.drag_power > 0.0:
            drawn["budget"] = svg(budget.draw(point.book.drag_power, outside.parts(point), width))
        if machine.bands.value > 0.0:
            ends = machine.bands.combined
            bars = [(c.cause, c.low, c.high) for c in machine.bands.causes]
            drawn["causes"] = svg(causes.draw(machine.bands.value, bars, (ends.low, ends.high), width))
        drawn["map"] = svg(power_map.of(machine.map, machine.power_curve, width))
        drawn["control"] = svg(control.draw(machine.control.control, machine.drive.cut_in_speed, width))
        drawn["power"] = svg(
            power.draw(machine.power_curve, machine.drive, width, holds=machine.control.control.way.holds)
        )
    if community is not None:
        drawn["cost"] = svg(cost.draw(community.comparison, width))
    if place is not None and place.rating is not None and place.rating_band is not None:
        drawn["rating"] = svg(rating.draw(place.rating, place.rating_band, width))
    return drawn


def _supply(supply: SupplyFindings | None, width: float) -> dict[str, bytes]:
    if supply is None:
        return {}
    drawn = {
        "supply_day": svg(supply_day.draw(supply.year.days, width)),
        "fuel_calendar": svg(fuel_calendar.draw(supply.year, width)),
    }
    best = None if supply.money is None else money.best(supply.money)
    if supply.money is not None and best is not None and best.movers:
        drawn["money_movers"] = svg(money_movers.draw(best, supply.money.currency, width))
    return drawn


def _around_energy(parts: EnergyParts | None, width: float) -> dict[str, bytes]:
    if parts is None:
        return {}
    drawn = {"energy_causes": svg(energy_causes.draw(parts.band, width))}
    if parts.months is not None and parts.months.rows:
        drawn["months"] = svg(months.draw(parts.months, width))
    if parts.years is not None and years.is_drawable(parts.years):
        drawn["years"] = svg(years.draw(parts.years, width))
    return drawn
