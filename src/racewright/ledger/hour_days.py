"""An hourly year drawn together: by month and hour of the village's clock, and fuel day by day."""

from __future__ import annotations

from typing import Any

import numpy as np

from racewright.ledger.supply_things import HourDays, HourLoad
from racewright.supply.dispatch_result import Dispatch
from racewright.supply.parties import DieselSet

Floats = np.ndarray[Any, np.dtype[np.float64]]


def month_hours(load: HourLoad, machine: Floats, sun: Floats | None, year: Dispatch) -> HourDays:
    """Mean powers by month and hour of a year that kept its series."""
    series = year.series
    assert series is not None  # the caller kept it
    day = load.local // 86400
    month = day.astype("datetime64[D]").astype("datetime64[M]").astype(np.int64) % 12
    place = month * 24 + load.local % 86400 // 3600
    hours = np.maximum(np.bincount(place, minlength=288), 1)

    def mean(row: Floats) -> Floats:
        return (np.bincount(place, weights=row, minlength=288) / hours).reshape(12, 24)

    panels = np.zeros(load.load.size) if sun is None else sun
    from_sun = panels - series.sun_held_back
    from_machine = machine - series.machine_held_back
    dumped = np.minimum(series.dumped, from_machine)
    return HourDays(
        load=mean(load.load),
        machine=mean(from_machine - dumped),
        sun=mean(from_sun - np.minimum(series.dumped - dumped, from_sun)),
        giving=mean(series.giving),
        taking=mean(series.taking),
        sets=mean(series.sets),
        unserved=mean(series.unserved),
        unused=mean(series.dumped + series.machine_held_back + series.sun_held_back),
    )


def fuel_by_day(load: HourLoad, sets: tuple[DieselSet, ...], years: tuple[Dispatch, ...]) -> tuple[int, Floats]:
    """First day of the village's clock, and fuel of each day in each year, shape (years, days) [m3]."""
    day = load.local // 86400
    first = int(day[0])
    rows = [np.bincount(day - first, weights=_burned(sets, year)) for year in years]
    return first, np.array(rows)


def _burned(sets: tuple[DieselSet, ...], year: Dispatch) -> Floats:
    """Fuel of each interval, starts included [m3]."""
    series = year.series
    assert series is not None  # the caller kept it
    interval = year.duration / series.running.size
    total = np.zeros(series.running.size)
    for j, one in enumerate(sets):
        on = (series.running >> j & 1).astype(np.float64)
        starts = np.diff(on, prepend=0.0) > 0.0
        total += interval * (one.intercept * one.rated_power * on + one.slope * series.set_power[j])
        total += np.where(starts, one.start_fuel, 0.0)
    return total
