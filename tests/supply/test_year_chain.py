"""From a meter's local clock to the ways of supply, and everything that comes out kept and brought back."""

from __future__ import annotations

import dataclasses
from typing import Any
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from racewright.growth.doubt import plan_doubt, tornado
from racewright.growth.programme_cash import programme_cash
from racewright.growth.programme_value import programme_value
from racewright.growth.worth import worth
from racewright.ledger.codec import decode, encode
from racewright.place.season import Season, months_closed, outages
from racewright.supply import dispatch
from racewright.supply.cable import Cable, cable_from_sender
from racewright.supply.chance import Chance
from racewright.supply.civil_time import even_series
from racewright.supply.converter import Converter
from racewright.supply.delivery import Leg, delivered
from racewright.supply.dispatch_many import dispatch_many
from racewright.supply.fill import filled
from racewright.supply.load_profile import load_from_meter
from racewright.supply.machine_power import machine_series, power_at
from racewright.supply.options import SupplyOptions, supply_options
from racewright.supply.parties import DieselSet
from racewright.supply.power_table import PowerTable
from racewright.supply.powerhouse import BatteryBank, DispatchRules, Powerhouse
from racewright.supply.stops_drawn import StopCause, draw_stops
from racewright.supply.time_grid import offsets_at, year_grid
from racewright.supply.year_doubt import YearDoubt
from racewright.upkeep.carrying import Carrying, carried
from racewright.upkeep.parts import MachinePart, sure_band
from racewright.upkeep.parts_availability import parts_availability
from racewright.upkeep.pieces import LiftedPiece
from racewright.upkeep.recovery import recovery_pull
from racewright.upkeep.spares import choose_spares
from tests.growth.plans import BASE
from tests.growth.test_programme import TWO
from tests.supply.random_years import KWH, LITRE_PER_KWH
from tests.supply.test_kept import same

GRID = year_grid(2024)
ZONE = ZoneInfo("America/Anchorage")
SET = DieselSet(30e3, 0.246 * LITRE_PER_KWH, 0.08145 * LITRE_PER_KWH, 1400.0, 0.0, "USD")
HOUSE = Powerhouse((SET,), BatteryBank(20.0 * KWH, 6e3, 8e3), 6e3)
HALF_HOURS = GRID.start + 1800 * np.arange(2 * GRID.count)
CLOCK = HALF_HOURS + offsets_at(HALF_HOURS, ZONE)
SEEN = np.ones(HALF_HOURS.size, dtype=bool)
SEEN[5000:5200] = SEEN[9001] = False
METER = even_series(CLOCK[SEEN], (9e3 + 3e3 * np.sin(HALF_HOURS * 2.0 * np.pi / 86400.0))[SEEN], ZONE)
LOAD = load_from_meter(filled(METER), GRID)


def machine() -> np.ndarray:
    """Two machines on a river that is frozen from November to May, behind a converter and a cable."""
    speed = 1.6 + 0.5 * np.sin(2.0 * np.pi * np.arange(GRID.count) / 8784.0)
    table = PowerTable(np.array([0.8, 2.5]), np.array([0.0, 5000.0]), 0.8, 5000.0)
    ice, _ = outages(
        Season(months_closed("ice", (11, 12, 1, 2, 3, 4))), GRID.middles(), speed, None, np.ones(GRID.count)
    )
    stops = draw_stops((StopCause("debris", 20.0, 36 * 3600.0),), GRID, 1, machines=2)
    sent = Converter(10e3, 0.01, 0.01, 0.03).output(machine_series(power_at(table, speed), stops.running, ice))
    return cable_from_sender(Cable(300.0, 50e-6, 400.0, "three phase"), sent).received


MACHINE = machine()


def ways() -> SupplyOptions:
    return supply_options(LOAD, MACHINE, HOUSE, delivery=delivered(1000.0, (Leg("boat", 6e4, 2.0, 5.0, 4e-6, 0.8),)))


def test_a_leap_year_with_clock_changes_gaps_and_ice() -> None:
    assert METER.grid.count == 2 * 8784
    assert (len(METER.gaps), METER.nowhere, METER.clashing) == (2, 0, 0)
    assert LOAD.size == 8784
    assert LOAD.mean() == pytest.approx(9e3, rel=2e-3)
    found = ways()
    months = (GRID.middles() // 86400).astype("datetime64[D]").astype("datetime64[M]").astype(int) % 12 + 1
    assert not MACHINE[np.isin(months, (11, 12, 1, 2, 3, 4))].any()
    for row in found.rows:
        assert row.year.duration == 8784 * 3600.0
        assert row.year.imbalance < 1e-9
        assert row.year.unserved_energy == pytest.approx(0.0, abs=1e-9 * row.year.load_energy)
    assert found.rows[-1].fuel_saved > found.rows[1].fuel_saved > 0.0


PARTS = (MachinePart("seal", sure_band(1e-7), sure_band(3600.0), sure_band(1e6), price=50.0),)
KEPT: dict[str, Any] = {
    "dispatch": dispatch(LOAD[:48], MACHINE[:48], HOUSE, DispatchRules(fill_to=0.5)),
    "ways": ways(),
    "many": dispatch_many(LOAD[:48], MACHINE[:48], HOUSE, DispatchRules(), YearDoubt(), count=3, seed=1),
    "meter": filled(METER),
    "delivered": delivered(1000.0, ()),
    "worth": worth(BASE),
    "doubt": plan_doubt(BASE, (Chance("capital", 4e4, 5e4, 7e4),), seed=1, draws=1000),
    "tornado": tornado(BASE, {"rate": (0.05, 0.1)}),
    "programme": programme_value(TWO),
    "cash": programme_cash(TWO, seed=1, draws=100),
    "availability": parts_availability(PARTS),
    "spares": choose_spares(PARTS, 2e3, 1e-7, 0.1),
    "carried": carried((LiftedPiece("hub", 90.0, 0.9, 0.3, 0.3),), (Carrying("canoe", 100.0),), 1000.0),
    "recovery": recovery_pull(1.0, 1.5, 1000.0),
}


def classes_in(value: Any) -> dict[str, type]:
    """Dataclasses that a value is made of."""
    found = {}
    if dataclasses.is_dataclass(value):
        found[type(value).__name__] = type(value)
        for field in dataclasses.fields(value):
            found |= classes_in(getattr(value, field.name))
    for item in value if isinstance(value, tuple) else ():
        found |= classes_in(item)
    return found


@pytest.mark.parametrize("name", KEPT)
def test_it_comes_back_from_the_cache(name: str) -> None:
    value = KEPT[name]
    assert same(decode(encode(value, "key"), "key", classes_in(value)), value)
