"""A village's supply hour by hour: load, machine, every way of supply, and drawn years."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from racewright.ledger.hour_days import fuel_by_day, month_hours
from racewright.ledger.hour_machine import MACHINE_KEYS, hour_machine
from racewright.ledger.node import Given, Node
from racewright.ledger.supply_house import fill_to_by, house_by, reserve_by, ways_by
from racewright.ledger.supply_inputs import metered, priced, shapes_of
from racewright.ledger.supply_things import HourLoad, HourMachine, SupplyBand, SupplyYear
from racewright.records.zone import clock_of
from racewright.remark import Remark
from racewright.supply import dispatch
from racewright.supply.chance import normal
from racewright.supply.dispatch_many import dispatch_many
from racewright.supply.door import SECONDS_PER_YEAR
from racewright.supply.even_series import onto
from racewright.supply.fill import filled
from racewright.supply.load_profile import load_from_meter, load_from_profile
from racewright.supply.options import supply_options
from racewright.supply.quantiles import quantiles
from racewright.supply.speed_band import EnergyBand
from racewright.supply.time_grid import local_time, year_grid
from racewright.supply.year_doubt import YearDoubt
from racewright.tick import Tick

Floats = np.ndarray[Any, np.dtype[np.float64]]

LOAD_KEYS = (
    "community.supply.load.meter",
    "community.supply.load.shape",
    "community.supply.load.zone",
    "community.supply.load.rest_days",
)
"""Role paths of the load but for its spread."""

HOUSE_KEYS = (
    "community.diesel",
    "community.supply.set",
    "community.supply.battery",
    "community.supply.rules",
    "community.supply.fuel",
)
"""Role paths that the powerhouse, its rules and its fuel are read from."""


def _hour_load(given: Given, _tick: Tick) -> HourLoad:
    """Metered, or by shapes at the community's mean load."""
    keys = given.keys
    year, sun, meter = (keys[f"community.supply.{key}"] for key in ("year", "sun", "load.meter"))
    zone_name = keys["community.supply.load.zone"]
    grid, zone, told = year_grid(year), clock_of(zone_name), []
    if meter is not None:
        path = given.files["community.supply.load.meter.file"]
        found = filled(onto(metered(meter, path, meter["stamps_at"]), grid))
        wanted, told = load_from_meter(found, grid), list(found.remarks)
    else:
        rest = tuple(int(day) - 1 for day in keys["community.supply.load.rest_days"] or ())
        energy = keys["community.mean_load"] * SECONDS_PER_YEAR
        wanted = load_from_profile(shapes_of(keys["community.supply.load.shape"]), energy, grid, zone, rest)
    panels = None
    if sun is not None:
        row = filled(onto(metered(sun, given.files["community.supply.sun.file"], "start"), grid))
        panels, told = row.value, [*told, *row.remarks]
    return HourLoad(year, grid.start, wanted, panels, local_time(grid, zone), zone_name, tuple(told))


def _supply_year(given: Given, _tick: Tick) -> SupplyYear | None:
    """None where the place has no dated record to take an hourly year from."""
    keys, load = given.keys, given.nodes["hour_load"]
    machine: HourMachine | None = given.nodes["hour_machine"]
    if machine is None:
        return None
    price, way_of_fuel = priced(keys["community.diesel"], keys["community.supply.fuel"])
    house = house_by(keys, price)
    rules = keys["community.supply.rules"]
    ways = ways_by(keys, house, load)
    found = supply_options(
        load.load,
        machine.power,
        house,
        reserve=reserve_by(keys, load),
        fill_to=fill_to_by(keys),
        sun=load.sun,
        delivery=way_of_fuel,
        keep_one_on=rules["keep_one_on"],
    )
    fullest = max(range(1, len(ways)), key=lambda i: found.rows[i].fuel_saved)
    alone, full = (
        dispatch(
            load.load,
            machine.power if way.with_machine else None,
            way.house,
            way.rules,
            sun=load.sun if way.with_sun else None,
        )
        for way in (ways[0], ways[fullest])
    )
    sun = load.sun if ways[fullest].with_sun else None
    first, burned = fuel_by_day(load, house.sets, (alone, full))
    return SupplyYear(
        year=load.year,
        rows=found.rows,
        fullest=fullest,
        days=month_hours(load, machine.power, sun, full),
        first_day=first,
        fuel_by_day=burned,
        delivered=way_of_fuel,
        fuel_price=price,
        currency=found.currency,
        remarks=(
            *load.remarks,
            *machine.remarks,
            *found.remarks,
            *_no_reserve(rules["reserve"]),
            *_short(found.rows[fullest].year.unserved_time),
        ),
    )


def _no_reserve(reserve: float) -> tuple[Remark, ...]:
    if reserve > 0.0:
        return ()
    text = (
        "No reserve is kept: what is on the line covers the hour's load to the watt. A larger load within the hour,"
        " or a machine that stops, goes unserved until another set has started, which these hours do not count. Say"
        " reserve in [community.NAME.supply.rules]; it does not cover a machine that stops."
    )
    return (Remark("caution", text, "reserve"),)


def _short(time: float) -> tuple[Remark, ...]:
    if time == 0.0:
        return ()
    text = (
        f"In the fullest way of supply load goes unserved, in part or whole, for {time / 3600.0:.4g} h of the year."
    )
    return (Remark("warning", text, "hours without supply"),)


def _supply_band(given: Given, tick: Tick) -> SupplyBand | None:
    """Years drawn for the fullest way: load, power curve, water and stops."""
    keys, load, year = given.keys, given.nodes["hour_load"], given.nodes["supply_year"]
    machine: HourMachine | None = given.nodes["hour_machine"]
    if machine is None:
        return None
    house = house_by(keys, year.fuel_price)
    ways = ways_by(keys, house, load)
    way = ways[year.fullest]
    spread = keys["community.supply.load.spread"]
    doubt = YearDoubt(
        load_factor=normal("load", 1.0, spread),
        machine_factor=normal("machine", 1.0, _curve_doubt(given.nodes["energy_band"])),
        causes=machine.causes,
        machines=keys["case.count"],
        most_machine=machine.greatest,
    )
    sun = load.sun if way.with_sun else None
    count = keys["community.supply.years"]
    many = dispatch_many(
        load.load,
        machine.even_share * machine.never_stopped,
        way.house,
        way.rules,
        doubt,
        count=count,
        seed=given.seed,
        sun=sun,
        tick=tick,
    )
    factor = np.linspace(0.0, max(float(many.load_factor.max()), 1.0), 25)
    alone = [dispatch(f * load.load, None, ways[0].house, ways[0].rules, keep_series=False).fuel for f in factor]
    saved = np.interp(many.load_factor, factor, alone) - many.fuel
    used = many.served_energy - many.sets_energy
    return SupplyBand(
        sentence=way.sentence,
        years=count,
        water_years=int(machine.years.size),
        fuel=quantiles(many.fuel),
        fuel_saved=quantiles(saved),
        unserved_time=quantiles(many.unserved_time),
        unused_energy=quantiles(many.unused_energy),
        used_energy=quantiles(used),
        running=quantiles(machine.even_share * many.running),
        fuel_deviation=_relative(saved),
        energy_deviation=_relative(used),
        together=_together(saved, used),
    )


def _curve_doubt(band: EnergyBand) -> float:
    """Relative standard uncertainty of the machine's power, without the years, which are drawn themselves [-]."""
    rows = [row.relative_standard for row in band.rows if row.cause != "years on record"]
    return math.sqrt(math.fsum(row**2 for row in rows))


def _relative(row: Floats) -> float:
    mean = float(row.mean())
    return float(row.std(ddof=1)) / mean if mean > 0.0 else 0.0


def _together(one: Floats, other: Floats) -> float:
    """Correlation of drawn years; 0 where one does not vary."""
    if float(np.ptp(one)) == 0.0 or float(np.ptp(other)) == 0.0:
        return 0.0
    return float(np.corrcoef(one, other)[0, 1])


NEEDS = ("place", "machine", "community", "community.supply")

HOURLY_NODES = (
    Node(
        "hour_load",
        1,
        _hour_load,
        keys=("community.mean_load", "community.supply.year", *LOAD_KEYS, "community.supply.sun"),
        files=("community.supply.load.meter.file", "community.supply.sun.file"),
        needs=("community", "community.supply"),
    ),
    Node(
        "hour_machine",
        1,
        hour_machine,
        keys=MACHINE_KEYS,
        files=("place.record.file", "place.transect.file"),
        nodes=("rating", "site", "power_curve", "availability", "parts"),
        needs=NEEDS,
    ),
    Node(
        "supply_year",
        2,
        _supply_year,
        keys=HOUSE_KEYS,
        nodes=("hour_load", "hour_machine"),
        needs=NEEDS,
    ),
    Node(
        "supply_band",
        1,
        _supply_band,
        keys=(*HOUSE_KEYS, "community.supply.load.spread", "community.supply.years", "case.count"),
        nodes=("hour_load", "hour_machine", "supply_year", "energy_band"),
        needs=NEEDS,
    ),
)
