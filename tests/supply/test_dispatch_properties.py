"""What must hold for every year: balance, bounds, and that more battery never leaves more unserved."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.supply import dispatch
from racewright.supply.dispatch_result import Dispatch
from racewright.supply.powerhouse import DispatchRules, Powerhouse
from tests.supply.random_years import Village, random_village

SEEDS = st.integers(0, 2**32 - 1)


def year_of(village: Village, house: Powerhouse | None = None, rules: DispatchRules | None = None) -> Dispatch:
    return dispatch(
        village.load,
        village.machine,
        house or village.house,
        rules or village.rules,
        interval=village.interval,
        sun=village.sun,
        ready=village.ready,
    )


@given(SEEDS)
@settings(max_examples=150, deadline=None)
def test_every_interval_and_the_year_balance(seed: int) -> None:
    village = random_village(seed, 500)
    year = year_of(village)
    assert year.series is not None
    s = year.series
    made = village.machine - s.machine_held_back + village.sun - s.sun_held_back + s.set_power.sum(axis=0)
    left = made + s.giving + s.unserved - village.load - s.taking - s.dumped
    power = max(float(village.load.max()), float((village.machine + village.sun).max()))
    assert np.abs(left).max() <= 1e-9 * power
    assert year.imbalance <= 1e-9
    scale = 1e-9 * (year.load_energy + year.machine_energy + year.sun_energy)
    into = year.machine_energy + year.sun_energy + year.sets_energy + year.battery_given + year.unserved_energy
    out = year.load_energy + year.battery_taken + year.unused_energy
    assert into == pytest.approx(out, rel=1e-9)
    assert year.served_energy + year.unserved_energy == pytest.approx(year.load_energy, rel=1e-9)
    bank = village.house.battery
    if bank is not None:
        gain = bank.charge_efficiency * year.battery_taken - year.battery_given / bank.discharge_efficiency
        assert year.stored_end - year.stored_start == pytest.approx(gain, abs=scale)
        lost = (1.0 - bank.charge_efficiency) * year.battery_taken
        lost += (1.0 / bank.discharge_efficiency - 1.0) * year.battery_given
        assert year.battery_loss == pytest.approx(lost, abs=scale)
    for one, of, row in zip(year.sets, village.house.sets, s.set_power, strict=True):
        assert one.energy == pytest.approx(village.interval * row.sum(), rel=1e-9)
        burned = of.slope * one.energy + of.intercept * of.rated_power * one.running_time + one.starts * of.start_fuel
        assert one.fuel == pytest.approx(burned, rel=1e-9)


@given(SEEDS)
@settings(max_examples=150, deadline=None)
def test_bounds_of_powers_and_of_the_state_of_charge(seed: int) -> None:
    village = random_village(seed, 500)
    year = year_of(village)
    assert year.series is not None
    s, tiny = year.series, 1e-9 * float(village.load.max())
    bank, sets = village.house.battery, village.house.sets
    for row in (s.taking, s.giving, s.unserved, s.dumped, s.machine_held_back, s.sun_held_back, s.set_power):
        assert (row >= 0.0).all()
    assert (s.unserved <= village.load).all()
    assert (s.machine_held_back <= village.machine).all()
    assert (s.sun_held_back <= village.sun).all()
    assert (s.dumped <= village.house.dump_power).all()
    assert not (s.taking * s.giving).any()
    assert not (s.unserved[s.taking + s.dumped > tiny]).any()
    if bank is None:
        assert not s.stored.any()
    else:
        assert (s.stored >= bank.least * bank.capacity).all()
        assert (s.stored <= bank.most * bank.capacity).all()
        assert (s.taking <= bank.charge_power).all()
        assert (s.giving <= bank.discharge_power).all()
    for j, one in enumerate(sets):
        runs = (s.running >> j & 1).astype(bool)
        assert not s.set_power[j][~runs].any()
        assert (s.set_power[j] <= one.rated_power * (1.0 + 1e-12)).all()
        if village.ready is not None:
            assert not (runs & ~village.ready[j]).any()
    if village.rules.keep_one_on and sets and village.ready is None:
        assert s.running.all()


@given(SEEDS, st.floats(1.0, 5.0))
@settings(max_examples=100, deadline=None)
def test_without_sets_more_capacity_never_leaves_more_unserved(seed: int, factor: float) -> None:
    """Both begin at the least state of charge. With sets it need not hold: a set that runs carries the whole load, so
    a larger battery may be spent in an early hour and leave a later one to the set."""
    village = random_village(seed, 500)
    bank = village.house.battery
    if bank is None:
        return
    bank = replace(bank, start=None)
    rules = DispatchRules(reserve=village.rules.reserve)
    bare = replace(village, ready=None)
    few, many = (
        year_of(bare, Powerhouse((), replace(bank, capacity=bank.capacity * f), village.house.dump_power), rules)
        for f in (1.0, factor)
    )
    tiny = 1e-9 * few.load_energy
    assert many.unserved_energy <= few.unserved_energy + tiny
    assert many.unused_energy <= few.unused_energy + 1e-9 * (few.machine_energy + few.sun_energy)
    none = year_of(bare, Powerhouse((), None, village.house.dump_power), rules)
    assert few.unserved_energy <= none.unserved_energy + tiny


@given(SEEDS)
@settings(max_examples=60, deadline=None)
def test_scale_of_power_does_not_matter(seed: int) -> None:
    """All powers and capacities twice as large: twice the energies, the same hours."""
    village = random_village(seed, 300)
    bank = village.house.battery
    double = replace(
        village,
        load=2.0 * village.load,
        machine=2.0 * village.machine,
        sun=2.0 * village.sun,
        house=Powerhouse(
            tuple(replace(o, rated_power=2 * o.rated_power, start_fuel=2 * o.start_fuel) for o in village.house.sets),
            None
            if bank is None
            else replace(
                bank,
                capacity=2.0 * bank.capacity,
                charge_power=2.0 * bank.charge_power,
                discharge_power=2.0 * bank.discharge_power,
            ),
            2.0 * village.house.dump_power,
        ),
    )
    one, two = year_of(village), year_of(double)
    assert two.fuel == pytest.approx(2.0 * one.fuel, rel=1e-9)
    assert two.unserved_energy == pytest.approx(2.0 * one.unserved_energy, rel=1e-9)
    assert two.unserved_time == one.unserved_time
    assert [s.starts for s in two.sets] == [s.starts for s in one.sets]
