"""The headline of the supply page of one tab: its newest figures, beside those of the file as it was last saved."""

from __future__ import annotations

import weakref
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk import look
from racewright.desk.answer import answer_with
from racewright.desk.parts.supply_read import money, range_of, sum_of
from racewright.desk.parts.supply_year import year
from racewright.dossier import format as fmt

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

HOURS = (fmt.Scale("h", 3600.0),)


@dataclass
class Shown:
    """What the reader chose to see hour by hour.

    Attributes
    ----------
    way : int or None
        Number of the way of supply, from 1; None: the one that saves most fuel.
    month : int or None
        Whose mean day, 1 to 12; None: the month whose sets make least.
    day : str
        One day like '2023-02-14'; '' for the month's mean.
    """

    way: int | None = None
    month: int | None = None
    day: str = ""


class Live:
    """Figures above the fields; they stay, marked as old, while newer ones are computed.

    Parameters
    ----------
    screen : Screen
    """

    def __init__(self, screen: Screen) -> None:
        self.screen = screen
        self.shown = Shown()
        self._data: dict[str, Any] = {}
        self._saved: dict[str, Any] = {}
        self._digest = ""
        self._place = ui.element("div").classes("supply-head").props("role=status")
        _LIVES[screen] = self
        screen.follow(self._moved)
        self._build()

    def took(self, data: dict[str, Any]) -> None:
        """The page's answer is there; the saved file's is asked for while the draft differs."""
        self._data, self._digest = data, self.screen.desk.keeper.loaded.digest
        self._build()
        self._ask_saved()

    def _moved(self) -> None:
        keeper = self.screen.desk.keeper
        if not keeper.unsaved:
            self._saved = {}
        if self._data:
            self._build()

    def _ask_saved(self) -> None:
        screen, keeper = self.screen, self.screen.desk.keeper
        if not keeper.unsaved:
            return
        data = keeper.saved_bytes()
        if data is None:
            return
        sent = (year, data, keeper.shown, screen.options)
        screen.beside("saved supply", answer_with, *sent, place=self._place, show=self._took_saved)

    def _took_saved(self, found: dict[str, Any]) -> None:
        if self.screen.desk.keeper.unsaved:
            self._saved = found
            self._build()

    def _build(self) -> None:
        self._place.clear()
        with self._place:
            if not self._data:
                look.note("The hourly year is being computed; figures follow.", "soft")
                return
            headline(self._data, self._saved)
            if self._digest != self.screen.desk.keeper.loaded.digest:
                look.note("These are figures of the draft before; newer ones are being computed.", "soft")


def headline(data: dict[str, Any], saved: dict[str, Any]) -> None:
    """The answer in a sentence and its figures; `saved` is the data of the saved file, {} without a difference."""
    supply = data["supply"]
    if supply is not None:
        look.note(_sentence(data), "lead")
    if data["description"]:
        look.note(data["description"])
    if data["invented"]:
        look.cautions(data["invented"])
    if supply is None:
        return
    year_now = supply["year"]
    full = year_now["rows"][year_now["fullest"]]
    before = saved.get("supply")
    old = before["year"]["rows"][before["year"]["fullest"]] if before else None
    with look.figures():
        _fuel(supply, full, old)
        look.figure(
            "Hours without supply",
            fmt.fixed(full["year"]["unserved_time_s"], HOURS, 0),
            _band(supply["band"]["unserved_time_s"], HOURS),
            say=_apart(
                full["year"]["unserved_time_s"] / 3600.0,
                None if old is None else old["year"]["unserved_time_s"] / 3600.0,
                "h",
            )
            or "in part or whole",
        )
        look.figure(
            "Unused energy",
            fmt.quantity(full["year"]["unused_energy_J"], fmt.ENERGY),
            _band(supply["band"]["unused_energy_J"], fmt.ENERGY),
            say=look.against_saved(
                full["year"]["unused_energy_J"], None if old is None else old["year"]["unused_energy_J"], 1
            )
            or "dumped or held back",
        )
        _money(supply, full["sentence"], before)


def _sentence(data: dict[str, Any]) -> str:
    supply = data["supply"]
    found = supply["year"]
    full, alone = found["rows"][found["fullest"]], found["rows"][0]
    share = full["fuel_saved_m3"] / alone["year"]["fuel_m3"] if alone["year"]["fuel_m3"] > 0.0 else 0.0
    return (
        f"In the year {found['year_yr']} the village burns {fmt.fixed(share, fmt.SHARE, 1)} less fuel than with its "
        f"sets alone. Shown: {full['sentence']}{_best(supply['money'])}"
    )


def _best(found: dict[str, Any] | None) -> str:
    """The way that is worth most over the life, where that is known."""
    rows = [] if found is None else found["rows"]
    if found is None or not rows:
        return ""
    best = max(rows, key=lambda row: money(row, "net_present_value", found["currency"]))
    return f" Worth most over the life: {best['sentence']}"


def _fuel(supply: dict[str, Any], full: dict[str, Any], old: dict[str, Any] | None) -> None:
    band, found = supply["band"], supply["year"]
    look.figure(
        "Fuel saved in the year",
        fmt.quantity(full["fuel_saved_m3"], fmt.FUEL),
        _band(band["fuel_saved_m3"], fmt.FUEL),
        say=look.against_saved(full["fuel_saved_m3"], None if old is None else old["fuel_saved_m3"], 1)
        or f"of {fmt.quantity(found['rows'][0]['year']['fuel_m3'], fmt.FUEL)} by the sets alone",
    )
    if found["delivered"] is not None:
        look.figure(
            "Trips saved",
            fmt.number(full["trips_saved"], 0),
            say=_apart(full["trips_saved"], None if old is None else old["trips_saved"], "")
            or f"of {found['rows'][0]['trips']} by the fuel's last carrier",
        )


def _money(supply: dict[str, Any], sentence: str, before: dict[str, Any] | None) -> None:
    """Cost and worth of the way shown, both in the money's own terms."""
    found = supply["money"]
    plan = _plan(found, sentence)
    if plan is None:
        return
    currency = found["currency"]
    there = before["money"] if before else None
    ghost = _plan(there, sentence) if there is not None and there["terms"] == found["terms"] else None
    per = fmt.per_energy(currency)
    cost, worth = money(plan, "levelised", currency, "/J"), money(plan, "net_present_value", currency)
    look.figure(
        f"Cost of used energy, by the hour, {found['terms']}",
        fmt.quantity(cost, per),
        range_of(money(plan, "cost_band", currency, "/J"), per),
        say=look.against_saved(cost, None if ghost is None else money(ghost, "levelised", currency, "/J"), 1)
        or "machine, battery, panels, over the life",
    )
    look.figure(
        f"Net present value, {found['terms']}",
        sum_of(worth, currency),
        range_of(money(plan, "value_band", currency), fmt.money(currency)),
        say=_moved_by(worth, None if ghost is None else money(ghost, "net_present_value", currency), currency)
        or f"gains in {fmt.number(100.0 * plan['chance_of_gain'], 0)} of 100 draws",
    )


def _plan(found: dict[str, Any] | None, sentence: str) -> dict[str, Any] | None:
    rows = [] if found is None else found["rows"]
    return next((row for row in rows if row["sentence"] == sentence), None)


def _band(quantiles: dict[str, float], scales: tuple[fmt.Scale, ...]) -> str:
    if quantiles["p10"] == quantiles["p90"]:
        return ""
    return range_of(quantiles, scales)


def _apart(value: float, before: float | None, unit: str) -> str:
    """The same as a difference of whole numbers."""
    if before is None:
        return ""
    gap = round(value - before)
    if gap == 0:
        return "as in the saved version"
    return f"{'+' if gap > 0 else ''}{fmt.number(gap, 0)}{fmt.THIN + unit if unit else ''} against the saved version"


def _moved_by(value: float, before: float | None, currency: str) -> str:
    if before is None:
        return ""
    gap = value - before
    if abs(gap) < 0.5:
        return "as in the saved version"
    return f"{'+' if gap > 0 else ''}{sum_of(gap, currency)} against the saved version"


_LIVES: weakref.WeakKeyDictionary[Any, Live] = weakref.WeakKeyDictionary()


def live_of(screen: Screen) -> Live | None:
    """The live part of a page; None where its case has no community and no growth."""
    return _LIVES.get(screen)
