"""Supply: a village's year in every way of supply, its day and its fuel, its money, and the steps to get there."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, Literal

from pydantic import Field

from racewright.desk import look
from racewright.desk.parts.supply_hours import UNITS, calendar, day
from racewright.desk.parts.supply_year import year
from racewright.desk.seam import Asked, Drawing, Options, Page

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


class SupplyOptions(Options):
    """Which part of the supply's answers, in which way of supply."""

    part: Literal["year", "day", "calendar"] = "year"
    """All but the hours; hours of one day; fuel day by day."""
    way: int | None = Field(None, ge=1, le=20)
    """Number of the way of supply, from 1; the one that saves most fuel if left out."""
    month: int | None = Field(None, ge=1, le=12)
    """Whose mean day; the month whose sets make least if left out."""
    day: datetime.date | None = None
    """One day in place of a month's mean."""


def data(asked: Asked) -> dict[str, Any]:
    """The part that is asked for; numbers are those of `supply --json`, `programme --json` and `report --json`."""
    return {"year": year, "day": day, "calendar": calendar}[asked.options.part](asked)


def drawings(asked: Asked) -> Mapping[str, Drawing]:
    """Cost against diesel by part, and what moves the worth of the best way; as in the dossier."""
    from racewright.dossier.chapters.money import best
    from racewright.dossier.figures import cost, money_movers
    from racewright.dossier.figures.house import NARROW, WIDE
    from racewright.dossier.figures.save import svg

    if asked.options.part != "year":
        return {}
    values = asked.values("comparison", "money")
    found = {}
    comparison, money = values["comparison"], values["money"]
    if comparison is not None:
        found["cost"] = Drawing(*(svg(cost.draw(comparison, width)) for width in (WIDE, NARROW)))
    plan = None if money is None else best(money)
    if money is not None and plan is not None and plan.movers:
        drawn = (svg(money_movers.draw(plan, money.currency, width)) for width in (WIDE, NARROW))
        found["money_movers"] = Drawing(*drawn)
    return found


def controls(screen: Screen) -> None:
    """Headline figures and exact values: they stay while answers come and go."""
    screen.options = screen.options.model_copy(update={"part": "year"})  # the hours come by themselves
    from nicegui import ui

    from racewright.desk.parts.supply_calendar import CSS
    from racewright.desk.parts.supply_fields import supply_fields
    from racewright.desk.parts.supply_live import Live

    ui.add_css(CSS)
    if screen.table("community") or screen.table("growth"):
        Live(screen)
        supply_fields(screen)


def view(screen: Screen, data: dict[str, Any]) -> None:
    """Build the page."""
    from racewright.desk.parts import supply_day_view, supply_money, supply_steps, supply_ways
    from racewright.desk.parts.chapter_view import chapter
    from racewright.desk.parts.supply_live import live_of

    live = live_of(screen)
    if live is not None:
        live.took(data)
    supply = data["supply"]
    if supply is None:
        _nothing(data)
    else:
        supply_ways.ways(data)
        if live is not None:
            supply_day_view.hours(screen, supply["year"], live.shown)
        supply_ways.drawn_years(supply["band"])
    if supply is not None and supply["money"] is not None:
        supply_money.worth(screen, supply["money"])
    supply_money.against_diesel(screen, data)
    if data["programme"] is not None:
        supply_steps.programme(data["programme"], invented=data["programme_invented"])
    for told in data["chapters"]:
        chapter(screen, told)
    if data["missing"] and supply is not None:
        with look.section("What could stand here as well"):
            _missing(data)
    if data["remarks"]:
        with look.section("Remarks on supply, upkeep and money"):
            look.warnings(data["remarks"])


def _nothing(data: dict[str, Any]) -> None:
    first = data["missing"][0]
    look.empty("No hourly year of supply in this case yet.", first["needs"])
    if len(data["missing"]) > 1:
        _missing({"missing": data["missing"][1:]})


def _missing(data: dict[str, Any]) -> None:
    rows = [[m["part"], m["needs"]] for m in data["missing"]]
    look.table("Not in the scheme yet", [look.Column("part"), look.Column("what to add")], rows)


PAGE = Page(
    "supply",
    "Supply",
    "Supply",
    60,
    data,
    view,
    drawings,
    controls=controls,
    options=SupplyOptions,
    units=UNITS,
)
