"""Random years against a reference that was written from docs/dispatch_rules.md alone.

The reference stands in `tests/supply/dispatch_reference.py` and imports nothing of `racewright`. It has one function,

    reference(interval, load, machine, sun, ready, sets, battery, dump_power, keep_one_on, reserve, fill_to) -> dict

with plain numbers and lists: `ready` a list of lists, one for each set; `sets` a list of dicts with rated, minimum,
idle, slope, start_fuel, start_wear; `battery` a dict with capacity, charge_power, discharge_power, charge_efficiency,
discharge_efficiency, least, most, start (without a battery: capacity and powers 0, efficiencies 1, least, most and
start 0). It returns lists over the intervals: taken, given, stored, unserved, dumped, sun_held_back,
machine_held_back; and set_power, a list of such lists, one for each set; and sums: fuel (a list, one for each set),
running_time, starts, low_time, wear (the same), unserved_time, unused_energy.
"""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from racewright.supply import dispatch
from tests.supply import dispatch_reference as module
from tests.supply.random_years import Village, random_village

TOLERANCE = 1e-9


def answer(village: Village) -> dict[str, Any]:
    """The reference's year."""
    bank, sets = village.house.battery, village.house.sets
    ready = np.ones((len(sets), village.load.size), dtype=bool) if village.ready is None else village.ready
    names = (
        "capacity",
        "charge_power",
        "discharge_power",
        "charge_efficiency",
        "discharge_efficiency",
        "least",
        "most",
    )
    battery = dict.fromkeys(names, 0.0) | {"charge_efficiency": 1.0, "discharge_efficiency": 1.0, "start": 0.0}
    if bank is not None:
        battery = {name: getattr(bank, name) for name in names} | {"start": bank.first}
    found: dict[str, Any] = module.reference(
        village.interval,
        village.load.tolist(),
        village.machine.tolist(),
        village.sun.tolist(),
        ready.tolist(),
        [
            {
                "rated": one.rated_power,
                "minimum": one.minimum_load_fraction,
                "idle": one.intercept * one.rated_power,
                "slope": one.slope,
                "start_fuel": one.start_fuel,
                "start_wear": one.start_wear,
            }
            for one in sets
        ],
        battery,
        village.house.dump_power,
        village.rules.keep_one_on,
        village.rules.reserve,
        village.rules.fill_to,
    )
    return found


@pytest.mark.parametrize("seed", range(60))
def test_a_random_year_is_the_reference_year(seed: int) -> None:
    village = random_village(seed, count=8760 if seed < 6 else 1500)
    found = dispatch(
        village.load,
        village.machine,
        village.house,
        village.rules,
        interval=village.interval,
        sun=village.sun,
        ready=village.ready,
    )
    wanted, series = answer(village), found.series
    assert series is not None
    power = float(max(village.load.max(), (village.machine + village.sun).max()))
    bank = village.house.battery
    rows = {
        "taken": series.taking,
        "given": series.giving,
        "unserved": series.unserved,
        "dumped": series.dumped,
        "sun_held_back": series.sun_held_back,
        "machine_held_back": series.machine_held_back,
    }
    for name, row in rows.items():
        np.testing.assert_allclose(row, wanted[name], rtol=0.0, atol=TOLERANCE * power, err_msg=name)
    capacity = 0.0 if bank is None else bank.capacity
    np.testing.assert_allclose(series.stored, wanted["stored"], rtol=0.0, atol=TOLERANCE * capacity)
    for j, one in enumerate(found.sets):
        np.testing.assert_allclose(series.set_power[j], wanted["set_power"][j], rtol=0.0, atol=TOLERANCE * power)
        assert one.fuel == pytest.approx(wanted["fuel"][j], rel=TOLERANCE, abs=1e-15)
        assert one.starts == wanted["starts"][j]
        for name in ("running_time", "low_time", "wear"):
            assert getattr(one, name) == pytest.approx(wanted[name][j], rel=TOLERANCE), name
    assert found.unserved_time == pytest.approx(wanted["unserved_time"], rel=TOLERANCE)
    whole = found.load_energy + found.machine_energy
    assert found.unused_energy == pytest.approx(wanted["unused_energy"], rel=TOLERANCE, abs=TOLERANCE * whole)


def test_the_random_villages_try_every_rule() -> None:
    """Together the villages fill, hold back, dump, go short, start and stop, and choose among three sets and more."""
    seen = dict.fromkeys(("filled", "held", "dumped", "short", "stopped", "low", "several", "kept", "absent"), 0)
    for seed in range(60):
        village = random_village(seed, count=1500)
        year = dispatch(
            village.load,
            village.machine,
            village.house,
            village.rules,
            interval=village.interval,
            sun=village.sun,
            ready=village.ready,
        )
        assert year.series is not None
        seen["filled"] += village.rules.fill_to > 0.0 and year.battery_taken > 0.0 and year.sets_energy > 0.0
        seen["held"] += year.sun_held_back > 0.0 and year.machine_held_back > 0.0
        seen["dumped"] += year.dumped_energy > 0.0
        seen["short"] += year.unserved_time > 0.0
        seen["stopped"] += sum(one.starts for one in year.sets) > 10
        seen["low"] += sum(one.low_time for one in year.sets) > 0.0
        seen["several"] += int(np.unique(year.series.running).size) > 3
        seen["kept"] += village.rules.keep_one_on
        seen["absent"] += village.ready is not None
    assert min(seen.values()) >= 5, seen
