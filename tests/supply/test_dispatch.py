"""A year of supply: days worked by hand, edges, what is refused."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.supply import dispatch
from racewright.supply.diesel import fuel_rate
from racewright.supply.parties import DieselSet
from racewright.supply.powerhouse import BatteryBank, DispatchRules, Powerhouse
from racewright.supply.time_grid import year_grid
from tests.supply.random_years import KWH, LITRE_PER_KWH

ONE = DieselSet(20e3, 0.246 * LITRE_PER_KWH, 0.08145 * LITRE_PER_KWH, 1400.0, 0.0, "USD")
SMALL, LARGE = replace(ONE, rated_power=10e3), replace(ONE, rated_power=30e3)
BANK = BatteryBank(10.0 * KWH, 4e3, 5e3, 0.9, 0.8, 0.2, 1.0, 0.2)
STOP = DispatchRules()


def test_machine_alone_charges_then_gives() -> None:
    """2 kW spare for an hour store 1.8 kWh; 5 kW wanted get the 1.44 kWh that come out again."""
    year = dispatch([3e3, 5e3, 0.0], [5e3, 0.0, 0.0], Powerhouse((), BANK), STOP)
    assert year.series is not None
    assert year.series.taking == pytest.approx([2e3, 0.0, 0.0])
    assert year.series.stored == pytest.approx(np.array([3.8, 2.0, 2.0]) * KWH)
    assert year.series.giving == pytest.approx([0.0, 1.44e3, 0.0])
    assert year.series.unserved == pytest.approx([0.0, 3.56e3, 0.0])
    assert year.unserved_time == 3600.0
    assert year.battery_loss == pytest.approx((2.0 - 1.44) * KWH)
    assert year.full_cycles == pytest.approx(1.8 / 8.0)


def test_dump_load_before_sun_before_machine() -> None:
    house = Powerhouse((), replace(BANK, charge_power=1e3), 2e3)
    year = dispatch([1e3], [5e3], house, STOP, sun=[3e3])
    assert (year.battery_taken, year.dumped_energy) == pytest.approx((1.0 * KWH, 2.0 * KWH))
    assert (year.sun_held_back, year.machine_held_back) == pytest.approx((3.0 * KWH, 1.0 * KWH))
    assert year.unused_energy == pytest.approx(6.0 * KWH)


def test_the_smallest_sufficient_combination_runs() -> None:
    load = [8e3, 15e3, 25e3, 35e3, 45e3, 55e3, 70e3]
    year = dispatch(load, None, Powerhouse((ONE, SMALL, LARGE)), STOP)
    assert year.series is not None
    # 10; 20; 30 alone before 20 + 10; 30 + 10; 30 + 20; all three; all three and short
    assert year.series.running.tolist() == [2, 1, 4, 6, 5, 7, 7]
    assert year.series.unserved[-1] == pytest.approx(10e3)


def test_equals_are_taken_in_the_order_of_the_list() -> None:
    year = dispatch([5e3, 15e3], None, Powerhouse((SMALL, SMALL, SMALL)), STOP)
    assert year.series is not None
    assert year.series.running.tolist() == [1, 3]
    assert [one.starts for one in year.sets] == [1, 1, 0]


def test_a_set_that_is_out_is_not_taken() -> None:
    ready = np.array([[True, False, False], [True, True, False]])
    year = dispatch([8e3] * 3, None, Powerhouse((SMALL, ONE)), DispatchRules(keep_one_on=True), ready=ready)
    assert year.series is not None
    assert year.series.running.tolist() == [1, 2, 0]
    assert year.series.unserved == pytest.approx([0.0, 0.0, 8e3])


def test_sets_share_above_their_own_minimum() -> None:
    sets = (replace(ONE, minimum_load_fraction=0.5), replace(SMALL, minimum_load_fraction=0.0))
    year = dispatch([25e3], None, Powerhouse(sets), STOP)
    assert year.series is not None
    # floor 10 + 0, room 10 + 10, 15 to share
    assert year.series.set_power[:, 0] == pytest.approx([17.5e3, 7.5e3])


def test_without_dump_load_the_set_falls_below_its_minimum() -> None:
    """6 kW is the floor, 4 kW the load: 2 kW are not made, and the fuel is that of 4 kW."""
    year = dispatch([4e3], None, Powerhouse((ONE,)), DispatchRules(keep_one_on=True))
    assert year.sets[0].energy == pytest.approx(4.0 * KWH)
    assert year.sets[0].low_time == 3600.0
    assert year.fuel == pytest.approx(3600.0 * fuel_rate(4e3, ONE.rated_power, ONE.slope, ONE.intercept))
    assert any(remark.about == "minimum load" for remark in year.remarks)


def test_fuel_is_the_curve_of_the_set() -> None:
    load = np.linspace(0.0, 20e3, 41)
    year = dispatch(load, None, Powerhouse((ONE,), None, 20e3), DispatchRules(keep_one_on=True))
    wanted = sum(fuel_rate(p, ONE.rated_power, ONE.slope, ONE.intercept, ONE.minimum_load_fraction) for p in load)
    assert year.fuel == pytest.approx(3600.0 * wanted, rel=1e-12)


def test_starts_burn_and_wear() -> None:
    worn = replace(ONE, start_fuel=5e-4, start_wear=7200.0, hourly_cost=1.0 / 3600.0)
    load, machine = np.full(6, 8e3), np.array([0.0, 9e3, 0.0, 9e3, 9e3, 0.0])
    year = dispatch(load, machine, Powerhouse((worn,)), STOP)
    plain = dispatch(load, machine, Powerhouse((ONE,)), STOP)
    assert year.sets[0].starts == 3
    assert year.fuel - plain.fuel == pytest.approx(3 * 5e-4)
    assert year.sets[0].wear == pytest.approx(3 * 3600.0 + 3 * 7200.0)
    assert year.set_cost == pytest.approx(9.0)
    assert year.fuel_cost == pytest.approx(1400.0 * year.fuel)


def test_a_set_fills_the_battery_and_then_stops() -> None:
    """From 2 kWh with 4 kW at 0.9: 3.6 kWh an hour, to 8 kWh in two hours; then 4 kW from the battery."""
    house = Powerhouse((ONE,), BANK)
    year = dispatch([4e3] * 6, None, house, DispatchRules(fill_to=0.8))
    assert year.series is not None
    assert year.series.stored[:2] == pytest.approx(np.array([5.6, 8.0]) * KWH)
    assert year.series.running.tolist()[:3] == [1, 1, 0]
    assert year.series.taking[:2] == pytest.approx([4e3, 2.4e3 / 0.9])
    assert year.series.giving[2] == pytest.approx(4e3)


def test_filling_alone_starts_no_set() -> None:
    """Half full, below what sets fill to, and the battery carries the load: nobody starts a set for it."""
    house = Powerhouse((ONE,), replace(BANK, start=0.5))
    year = dispatch([1e3, 1e3], None, house, DispatchRules(fill_to=0.8))
    assert year.sets[0].starts == 0
    assert year.battery_given == pytest.approx(2.0 * KWH)


def test_without_filling_a_set_lends_only_its_floor() -> None:
    """6 kW at least for 3 kW of load: 3 kW go into the battery, which then carries the load, to the same end."""
    year = dispatch([3e3] * 2, None, Powerhouse((ONE,), BANK), STOP)
    assert year.series is not None
    assert year.series.taking == pytest.approx([3e3, 3e3])
    again = dispatch([3e3] * 4, None, Powerhouse((ONE,), BANK), STOP)
    assert again.series is not None
    assert again.series.running.tolist() == [1, 1, 0, 1]


def test_the_reserve_keeps_a_set_on() -> None:
    machine, load = [10.5e3] * 3, [10e3] * 3
    assert dispatch(load, machine, Powerhouse((ONE,)), STOP).sets[0].running_time == 0.0
    kept = dispatch(load, machine, Powerhouse((ONE,)), DispatchRules(reserve=0.1))
    assert kept.sets[0].running_time == 3 * 3600.0


def test_a_leap_year_has_its_day_more() -> None:
    hours = [year_grid(year).count for year in (2023, 2024)]
    assert hours == [8760, 8784]
    short, long = (dispatch(np.full(h, 8e3), None, Powerhouse((ONE,)), STOP) for h in hours)
    assert long.fuel / short.fuel == pytest.approx(8784 / 8760, rel=1e-12)
    assert long.duration == 8784 * 3600.0


@pytest.mark.parametrize("load", [0.0, 8e3])
def test_all_ice_and_no_fuel_are_finite(load: float) -> None:
    """A machine that never runs, and sets without any: everything is a number and adds up."""
    ice = np.zeros(8760)
    year = dispatch(np.full(8760, load), ice, Powerhouse((ONE,), BANK), STOP, sun=ice)
    alone = dispatch(np.full(8760, load), ice, Powerhouse((), None), STOP)
    for one in (year, alone):
        values = [
            getattr(one, name) for name in ("fuel", "unserved_energy", "battery_loss", "full_cycles", "imbalance")
        ]
        assert np.isfinite(values).all()
    assert year.unserved_energy == 0.0
    assert alone.unserved_energy == pytest.approx(load * 8760 * 3600.0)
    assert alone.fuel == 0.0
    assert alone.unserved_time == (8760 * 3600.0 if load else 0.0)


def test_a_gap_is_refused_and_named() -> None:
    load = np.full(24, 8e3)
    load[7] = np.nan
    with pytest.raises(InputError, match="interval 8"):
        dispatch(load, None, Powerhouse((ONE,)), STOP)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"load": [-1.0, 1.0]}, "load"),
        ({"load": []}, "load"),
        ({"machine": [1.0]}, "machine"),
        ({"sun": [np.inf, 1.0]}, "sun"),
        ({"interval": 0.0}, "interval"),
        ({"ready": np.ones((1, 2))}, "ready"),
        ({"ready": np.ones((2, 2), dtype=bool)}, "ready"),
        ({"rules": DispatchRules(fill_to=0.5)}, "no battery"),
        (
            {"rules": DispatchRules(fill_to=0.97), "house": Powerhouse((ONE,), BatteryBank(1e7, 1.0, 1.0))},
            "never stop",
        ),
        ({"rules": DispatchRules(fill_to=0.5), "house": Powerhouse((ONE,), BatteryBank(1e7, 0.0, 1.0))}, "no charge"),
    ],
)
def test_bad_input_is_refused(change: dict, words: str) -> None:
    given = {"load": [1e3, 2e3], "machine": [0.0, 1e3], "house": Powerhouse((ONE,)), "rules": STOP} | change
    with pytest.raises(InputError, match=words):
        dispatch(**given)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: BatteryBank(0.0, 1.0, 1.0), "capacity"),
        (lambda: BatteryBank(1.0, 1.0, 1.0, charge_efficiency=0.0), "charge efficiency"),
        (lambda: BatteryBank(1.0, 1.0, 1.0, least=0.9, most=0.5), "least < most"),
        (lambda: BatteryBank(1.0, 1.0, 1.0, start=0.99), "inside the window"),
        (lambda: DispatchRules(reserve=3.0), "reserve"),
        (lambda: DispatchRules(fill_to=1.5), "fill to"),
        (lambda: Powerhouse((ONE,) * 7), "6 at most"),
        (lambda: Powerhouse((ONE, replace(ONE, currency="EUR"))), "one currency"),
        (lambda: Powerhouse((replace(ONE, start_fuel=float("nan")),)), "fuel of a start"),
        (lambda: Powerhouse((), None, -1.0), "dump load"),
    ],
)
def test_impossible_powerhouses_are_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()


def test_the_caution_travels_with_the_result() -> None:
    told = {remark.about for remark in dispatch([1e3], None, Powerhouse((ONE,), BANK), STOP).remarks}
    assert {"sets off", "battery"} <= told
