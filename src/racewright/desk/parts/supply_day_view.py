"""A day of the supply by the hour, and the calendar of fuel: one choice of way for both, a click for a day."""

from __future__ import annotations

import datetime
from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk import look
from racewright.desk.look.palette import NAMED
from racewright.desk.parts import supply_hours
from racewright.desk.parts.supply_calendar import fuel_calendar
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.parts.supply_live import Shown
    from racewright.desk.screen import Screen

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip

LEGEND = {"orientation": "h", "y": 1.03, "yanchor": "bottom", "x": 0, "font": {"size": 12}}
"""Above the hours, so that no row of it lies on the axis' title, however narrow the page is."""

SEEN = 0.005
"""What stays below this part of the greatest load would not be seen [-]."""


def hours(screen: Screen, year: dict[str, Any], shown: Shown) -> None:
    """Choosers, the day and the calendar; both are asked for here and again at every choice."""
    if shown.way is not None and shown.way > len(year["rows"]):
        shown.way = None
    if shown.day and not shown.day.startswith(str(year["year_yr"])):
        shown.day = ""
    Hours(screen, year, shown)


class Hours:
    """Day and calendar of one way of supply.

    Parameters
    ----------
    screen : Screen
    year : dict
        `SupplyYear` of the page's data.
    shown : Shown
        The reader's choice, which outlives an answer.
    """

    def __init__(self, screen: Screen, year: dict[str, Any], shown: Shown) -> None:
        self.screen, self.shown = screen, shown
        self._ends: dict[str, str] = {}
        self._told = False
        with look.section("A day by the hour"):
            with ui.element("div").classes("supply-choice"):
                self._choosers(year)
            self._day = ui.element("div")
        with look.section("Fuel through the year"):
            self._calendar = ui.element("div")
        self._ask_day()
        self._ask_calendar()

    def _choosers(self, year: dict[str, Any]) -> None:
        style = "outlined dense stack-label"
        names = {i: f"{i}. {row['sentence']}" for i, row in enumerate(year["rows"], 1)}
        way = self.shown.way or year["fullest"] + 1
        ui.select(names, value=way, label="way of supply", on_change=lambda e: self._choose(way=e.value)).props(style)
        months = dict(enumerate(MONTHS, 1))
        self._month = ui.select(
            months,
            value=None if self.shown.day else self.shown.month,
            label="mean day of",
            on_change=lambda e: self._choose(month=e.value, day="") if e.value else None,
        ).props(style)
        limits = f'type=date min="{year["year_yr"]}-01-01" max="{year["year_yr"]}-12-31"'
        self._date = ui.input("or one day", value=self.shown.day).props(f"{style} {limits}")
        self._date.on_value_change(lambda e: self._dated(str(e.value or "")))
        with look.knobs():
            look.button("Most fuel", lambda: self._end("most"), title="the day that burns most fuel")
            look.button("Least fuel", lambda: self._end("least"), title="the day that burns least fuel")
            look.button("Day before", lambda: self._step(-1))
            look.button("Day after", lambda: self._step(1))

    def _choose(self, **chosen: Any) -> None:
        if self._told:
            return
        for key, value in chosen.items():
            setattr(self.shown, key, value)
        self._ask_day()
        if "way" in chosen:
            self._ask_calendar()

    def _dated(self, text: str) -> None:
        if not text or text == self.shown.day:
            return
        try:
            datetime.date.fromisoformat(text)
        except ValueError:
            return  # half typed
        self._choose(day=text)

    def _end(self, which: str) -> None:
        if which in self._ends:
            self._choose(day=self._ends[which])

    def _step(self, days: int) -> None:
        start = self.shown.day or self._ends.get("most", "")
        if start:
            date = datetime.date.fromisoformat(start) + datetime.timedelta(days=days)
            if date.year == int(start[:4]):
                self._choose(day=date.isoformat())

    def _ask_day(self) -> None:
        shown = self.shown
        date = datetime.date.fromisoformat(shown.day) if shown.day else None
        with self._day:
            self.screen.further(
                "supply day", supply_hours.day, self._show_day, way=shown.way, month=shown.month, day=date
            )

    def _ask_calendar(self) -> None:
        with self._calendar:
            self.screen.further("supply calendar", supply_hours.calendar, self._show_calendar, way=self.shown.way)

    def _show_day(self, found: dict[str, Any]) -> None:
        day = found["day"]
        if day is None:
            return
        self._told = True  # what the choosers are set to now is no choice of the reader's
        self._month.set_value(None if day["date"] else day["month"])
        self._date.set_value(day["date"])
        self._told = False
        self._day.clear()
        with self._day:
            drawn(day)

    def _show_calendar(self, found: dict[str, Any]) -> None:
        calendar = found["calendar"]
        if calendar is None:
            return
        self._ends = {"most": calendar["most"], "least": calendar["least"]}
        self._calendar.clear()
        with self._calendar:
            fuel_calendar(calendar, lambda day: self._choose(day=day))


def drawn(day: dict[str, Any]) -> None:
    """Stacked hours against the load, and the battery's state below where it is moved."""
    top = max(*day["load_W"], *day["machine_W"], 1.0)
    scale = fmt.pick(fmt.POWER, top)
    hour = [float(h) + 0.5 for h in day["hour_h"]]
    rows = [(label, key, colour, shape) for label, key, colour, shape in _STACK if max(day[key]) > SEEN * top]
    traces = [
        _bars(hour, [v / scale.factor for v in day[key]], label, colour, shape) for label, key, colour, shape in rows
    ]
    steps = [float(h) for h in day["hour_h"]]
    steps.append(steps[-1] + 1.0)
    load = [v / scale.factor for v in (*day["load_W"], day["load_W"][-1])]
    unit = scale.unit
    look.chart(
        _title(day),
        [look.Line(steps, load, "load", "ink", "steps")],
        x="hour of the village's clock",
        y=f"{'power' if day['date'] else 'mean power'}, {unit}",
        name="supply_day",
        height=340,
        more={
            "barmode": "stack",
            "bargap": 0,
            "showlegend": True,
            "legend": LEGEND,
            "margin": {"t": 40},
            "xaxis": {"dtick": 3, "range": [steps[0], steps[-1]]},
            "yaxis": {"rangemode": "tozero"},
        },
        traces=traces,
    )
    if max(*day["taking_W"], *day["dumped_W"], *day["held_back_W"]) > SEEN * top:
        look.note("What stands above the load goes into the battery, is dumped or is held back.", "soft")
    if max(*day["taking_W"], *day["giving_W"]) > SEEN * top:
        stored = fmt.pick(fmt.ENERGY, max(day["stored_J"]))
        look.chart(
            "Energy in the battery at the end of each hour",
            [look.Line([h + 0.5 for h in hour], [v / stored.factor for v in day["stored_J"]], "battery", "accent")],
            x="hour of the village's clock",
            y=f"stored, {stored.unit}",
            name="supply_battery",
            height=170,
            more={"xaxis": {"dtick": 3, "range": [steps[0], steps[-1]]}, "yaxis": {"rangemode": "tozero"}},
        )


_STACK = (
    ("machine", "machine_W", "accent", ""),
    ("sun", "sun_W", "second", "."),
    ("out of battery", "giving_W", "accent", "/"),
    ("diesel sets", "sets_W", "second", ""),
    ("not served", "unserved_W", "ink", "x"),
    ("dumped", "dumped_W", "soft", "\\"),
    ("held back", "held_back_W", "soft", "."),
)
"""From the bottom: label, field, colour, and how it is hatched; what lies above the load fills the battery or is
not used."""


def _bars(x: list[float], y: list[float], label: str, colour: str, shape: str) -> dict[str, Any]:
    ink = NAMED[colour]
    marker: dict[str, Any] = {"color": ink, "line": {"width": 0}}
    if shape:
        marker = {
            "color": NAMED["paper"],
            "line": {"width": 0},
            "pattern": {"shape": shape, "fgcolor": ink, "bgcolor": NAMED["paper"], "size": 7, "solidity": 0.35},
        }
    return {"type": "bar", "x": x, "y": y, "name": label, "marker": marker, "width": 1.0}


def _title(day: dict[str, Any]) -> str:
    fuel = fmt.quantity(day["fuel_m3"], fmt.FUEL)
    if day["date"]:
        date = datetime.date.fromisoformat(day["date"])
        when = f"On {date.day} {MONTHS[date.month - 1]} {date.year}"
    else:
        when = f"On a mean day of {MONTHS[day['month'] - 1]}"
    load = sum(day["load_W"])
    share = sum(day["sets_W"]) / load if load > 0.0 else 0.0
    return f"{when} the sets make {fmt.fixed(share, fmt.SHARE, 0)} of the load's energy with {fuel} of fuel"
