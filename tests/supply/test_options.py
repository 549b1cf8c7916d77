"""The ways to supply a village side by side."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.supply import dispatch
from racewright.supply.delivery import Leg, delivered
from racewright.supply.options import ALONE, SETS_STOP, WITH_BATTERY, WITH_SET_ON, supply_options
from racewright.supply.parties import DieselSet
from racewright.supply.powerhouse import BatteryBank, DispatchRules, Powerhouse
from tests.supply.random_years import KWH, LITRE_PER_KWH

SET = DieselSet(20e3, 0.246 * LITRE_PER_KWH, 0.08145 * LITRE_PER_KWH, 1400.0, 0.02 / KWH, "USD", start_fuel=2e-4)
HOUSE = Powerhouse((SET, SET), BatteryBank(20.0 * KWH, 6e3, 8e3), 6e3)
HOUR = np.arange(8760)
LOAD = 8e3 + 4e3 * np.sin(2.0 * np.pi * (HOUR - 12) / 24.0)
MACHINE = 5e3 * (1.0 + 0.5 * np.sin(2.0 * np.pi * HOUR / 8760.0))
SUN = 4e3 * np.clip(np.sin(2.0 * np.pi * (HOUR - 6) / 24.0), 0.0, None)
WAY = delivered(1000.0, (Leg("boat", 60e3, 2.0, 5.0, 4e-6, 0.8, crew_cost=0.005),), 0.02)


def test_sentences_and_savings() -> None:
    found = supply_options(LOAD, MACHINE, HOUSE, sun=SUN, delivery=WAY, fill_to=0.5)
    sentences = [row.sentence for row in found.rows]
    assert sentences[:4] == [ALONE, WITH_SET_ON, SETS_STOP, WITH_BATTERY]
    assert sentences[4:] == [s.replace("Machine", "Machine, sun", 1) for s in sentences[1:4]]
    assert all(sentence.endswith(".") for sentence in sentences)
    alone = found.rows[0]
    assert (alone.fuel_saved, alone.trips_saved, alone.money_saved) == (0.0, 0, 0.0)
    for row in found.rows[1:]:
        assert row.fuel_saved == pytest.approx(alone.year.fuel - row.year.fuel)
        assert row.trips == WAY.trips(row.year.fuel)
        assert row.trips_saved == alone.trips - row.trips
        assert row.year.unserved_energy == 0.0
        assert row.money_saved == pytest.approx(
            alone.year.fuel_cost + alone.year.set_cost - row.year.fuel_cost - row.year.set_cost
        )
    fuel = [row.year.fuel for row in found.rows]
    assert fuel[0] > fuel[1] > fuel[2] > fuel[3]
    assert all(with_sun < without for with_sun, without in zip(fuel[4:], fuel[1:4], strict=True))
    assert found.currency == "USD"
    assert any(remark.about == "sets off" for remark in found.remarks)


def test_the_rows_are_the_years_that_dispatch_gives() -> None:
    found = supply_options(LOAD, MACHINE, HOUSE, fill_to=0.5)
    year = dispatch(LOAD, MACHINE, HOUSE, DispatchRules(fill_to=0.5), keep_series=False)
    assert found.rows[3].year == year
    assert len(found.rows) == 4
    bare = replace(HOUSE, battery=None)
    assert [row.year for row in supply_options(LOAD, MACHINE, bare).rows] == [row.year for row in found.rows[:3]]


def test_without_sets_there_is_nothing_to_compare() -> None:
    with pytest.raises(InputError, match="nothing to set"):
        supply_options(LOAD, MACHINE, replace(HOUSE, sets=()))
