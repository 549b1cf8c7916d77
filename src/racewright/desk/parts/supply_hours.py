"""One way of supply hour by hour of a day, and fuel day by day through the year."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.desk.seam import Asked
from racewright.errors import InputError
from racewright.ledger.graph import plan
from racewright.ledger.hour_days import fuel_by_day
from racewright.ledger.inputs import case_of
from racewright.ledger.supply_things import HourLoad
from racewright.supply.dispatch_result import Dispatch

Floats = NDArray[np.float64]
Whole = NDArray[np.int64]
DAY = 86400


@dataclass(frozen=True)
class SupplyDay:
    """Hours of a day in one way of supply; means over the month's days where it is a mean day.

    Attributes
    ----------
    sentence : str
        The way.
    way : int
        Its number, from 1 [-].
    month : int
        Of the year, 1 to 12 [-].
    date : str
        Of one day, like '2023-02-14'; '' for the month's mean day.
    hour : ndarray of int, shape (n,)
        At which each begins, by the village's clock; counted on through a changed clock [h].
    load, machine, sun, giving, taking, sets, unserved : ndarray, shape (n,)
        Wanted; used of machine and sun; out of and into the battery; all sets; not served [W].
    dumped, held_back : ndarray, shape (n,)
        Dumped, and held back from machine and sun [W].
    stored : ndarray, shape (n,)
        In the battery at the hour's end [J].
    fuel : float
        Of the day [m3].
    """

    sentence: str
    way: int
    month: int
    date: str
    hour: Whole
    load: Floats
    machine: Floats
    sun: Floats
    giving: Floats
    taking: Floats
    sets: Floats
    unserved: Floats
    dumped: Floats
    held_back: Floats
    stored: Floats
    fuel: float


@dataclass(frozen=True)
class FuelCalendar:
    """Fuel day by day.

    Attributes
    ----------
    sentence : str
        The way.
    way : int
        Its number, from 1 [-].
    first_day : int
        Of the rows, by the village's clock [d since 1970-01-01].
    alone, here : ndarray, shape (days,)
        Burned with the sets alone, and in this way [m3].
    most, least : str
        Whole days that burn most and least in this way, like '2023-02-14'.
    """

    sentence: str
    way: int
    first_day: int
    alone: Floats
    here: Floats
    most: str
    least: str


UNITS = {
    "SupplyDay": {
        "way": "-",
        "month": "-",
        "hour": "h",
        "stored": "J",
        "fuel": "m3",
        **dict.fromkeys(
            ("load", "machine", "sun", "giving", "taking", "sets", "unserved", "dumped", "held_back"), "W"
        ),
    },
    "FuelCalendar": {"way": "-", "first_day": "d", "alone": "m3", "here": "m3"},
}


@dataclass(frozen=True)
class _Run:
    """A way that was run: its number and sentence, load, machine's and sun's power [W], sets, what came of it."""

    number: int
    sentence: str
    load: HourLoad
    machine: Floats
    sun: Floats
    sets: Any
    alone: Dispatch
    year: Dispatch


def day(asked: Asked) -> dict[str, Any]:
    """One day of the asked way of supply, or the mean day of a month; None without an hourly year."""
    run = _run(asked)
    return {"day": None if run is None else _day(run, asked.options.day, asked.options.month)}


def calendar(asked: Asked) -> dict[str, Any]:
    """Fuel through the year in the asked way of supply; None without an hourly year."""
    run = _run(asked)
    if run is None:
        return {"calendar": None}
    first, burned = fuel_by_day(run.load, run.sets, (run.alone, run.year))
    whole = np.bincount(run.load.local // DAY - first) >= 23
    days = np.flatnonzero(whole)
    here = burned[1][days]
    most, least = (_written(first + int(days[i])) for i in (int(np.argmax(here)), int(np.argmin(here))))
    return {"calendar": FuelCalendar(run.sentence, run.number, first, burned[0], burned[1], most, least)}


def _run(asked: Asked) -> _Run | None:
    from racewright.ledger.supply_house import house_by, ways_by
    from racewright.supply.dispatch_year import dispatch

    values = asked.values("supply_year")
    found, load, machine = values["supply_year"], values["hour_load"], values["hour_machine"]
    if found is None:
        return None
    name, case = case_of(asked.loaded, asked.options.case)
    keys = plan(asked.loaded, name, case, ("supply_year",)).given["supply_year"].keys
    house = house_by(keys, found.fuel_price)
    ways = ways_by(keys, house, load)
    number = asked.options.way or found.fullest + 1
    if not 1 <= number <= len(ways):
        raise InputError(f"there is no way of supply {number}; the case has {len(ways)}")

    def run(at: int) -> Dispatch:
        way = ways[at]
        sun = load.sun if way.with_sun else None
        return dispatch(load.load, machine.power if way.with_machine else None, way.house, way.rules, sun=sun)

    way, nothing = ways[number - 1], np.zeros(load.load.size)
    given = machine.power if way.with_machine else nothing
    sun = load.sun if way.with_sun and load.sun is not None else nothing
    alone = run(0)
    year = alone if number == 1 else run(number - 1)
    return _Run(number, way.sentence, load, given, sun, house.sets, alone, year)


def _day(run: _Run, date: datetime.date | None, month: int | None) -> SupplyDay:
    local, series = run.load.local, run.year.series
    assert series is not None  # `_run` keeps it
    days = local // DAY
    first, burned = fuel_by_day(run.load, run.sets, (run.year,))
    from_machine, from_sun = run.machine - series.machine_held_back, run.sun - series.sun_held_back
    dumped = np.minimum(series.dumped, from_machine)
    rows = {
        "load": run.load.load,
        "machine": from_machine - dumped,
        "sun": from_sun - np.minimum(series.dumped - dumped, from_sun),
        "giving": series.giving,
        "taking": series.taking,
        "sets": series.sets,
        "unserved": series.unserved,
        "dumped": series.dumped,
        "held_back": series.machine_held_back + series.sun_held_back,
        "stored": series.stored,
    }
    if date is not None:
        wanted = (date - datetime.date(1970, 1, 1)).days
        at = np.flatnonzero(days == wanted)
        if at.size == 0:
            raise InputError(f"{date} is no day of the hourly year {run.load.year}")
        hour = int(local[at[0]] % DAY // 3600) + np.arange(at.size)
        picked = {key: row[at] for key, row in rows.items()}
        return SupplyDay(
            run.sentence,
            run.number,
            date.month,
            date.isoformat(),
            hour,
            fuel=float(burned[0][wanted - first]),
            **picked,
        )
    months = _months(days)
    by_day = _months(first + np.arange(burned.shape[1]))
    burning = np.bincount(months, weights=series.sets, minlength=12) / np.maximum(
        np.bincount(months, minlength=12), 1
    )
    least = int(np.argmin(np.where(np.bincount(months, minlength=12) > 0, burning, np.inf)))
    shown = least if month is None else month - 1
    at = np.flatnonzero(months == shown)
    if at.size == 0:
        raise InputError(f"month {shown + 1} is not in the hourly year {run.load.year}")
    clock = local[at] % DAY // 3600
    hours = np.bincount(clock, minlength=24)
    mean = {key: np.bincount(clock, weights=row[at], minlength=24) / hours for key, row in rows.items()}
    fuel = float(burned[0][by_day == shown].sum()) / (at.size / 24.0)
    return SupplyDay(run.sentence, run.number, shown + 1, "", np.arange(24), fuel=fuel, **mean)


def _months(day: Whole) -> Whole:
    """Months of days since 1970, 0 to 11."""
    months: Whole = day.astype("datetime64[D]").astype("datetime64[M]").astype(np.int64) % 12
    return months


def _written(day: int) -> str:
    return (datetime.date(1970, 1, 1) + datetime.timedelta(days=day)).isoformat()
