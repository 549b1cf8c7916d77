"""Diesel set: floor, parts of the cost, directions, refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.supply.diesel import delivered_price, diesel_cost, fuel_rate, road_transport

SLOPE, INTERCEPT = 6.8e-11, 2.3e-11
POWERS = st.floats(1.0, 20e3)


def cost(mean_load=8e3, **changes):
    given_ = {"delivered_price": 1400.0, "running_cost": 1e-8} | changes
    return diesel_cost(mean_load, 20e3, SLOPE, INTERCEPT, **given_)


@given(POWERS, POWERS, st.floats(0.0, 1.0))
def test_fuel_grows_with_power_and_rests_on_the_floor(one, other, floor):
    low, high = sorted((one, other))
    burn = [fuel_rate(p, 20e3, SLOPE, INTERCEPT, floor) for p in (low, high)]
    assert burn[0] <= burn[1]
    least = fuel_rate(0.0, 20e3, SLOPE, INTERCEPT, floor)
    assert burn[0] >= least
    assert least == pytest.approx(20e3 * (SLOPE * floor + INTERCEPT))
    if high <= floor * 20e3:
        assert burn[1] == least


@given(POWERS, st.floats(0.0, 5000.0), st.floats(0.0, 5000.0), st.floats(0.0, 0.5))
def test_cost_grows_with_price(load, one, other, floor):
    low, high = sorted((one, other))
    cheap = cost(load, delivered_price=low, minimum_load_fraction=floor)
    dear = cost(load, delivered_price=high, minimum_load_fraction=floor)
    assert cheap.cost <= dear.cost
    assert (cheap.fuel_use, cheap.fuel_yearly) == (dear.fuel_use, dear.fuel_yearly)


@given(POWERS, POWERS, st.floats(0.0, 0.5))
def test_fuel_per_energy_falls_with_load(one, other, floor):
    low, high = sorted((one, other))
    light, full = (cost(p, minimum_load_fraction=floor) for p in (low, high))
    assert light.fuel_use >= full.fuel_use * (1.0 - 1e-12)
    assert light.fuel_yearly <= full.fuel_yearly * (1.0 + 1e-12)


def test_parts():
    got = cost(8e3, capital=20e3, rate=0.0, years=10.0)
    assert got.load_fraction == pytest.approx(0.4)
    assert got.fuel_part == pytest.approx(got.fuel_use * 1400.0)
    assert got.capital_part == pytest.approx(2000.0 / (8e3 * 8760 * 3600))
    assert got.cost == pytest.approx(got.fuel_part + got.running_part + got.capital_part)
    assert got.fuel_yearly == pytest.approx(got.fuel_use * 8e3 * 8760 * 3600)
    assert cost().capital_part == 0.0


def test_surplus_below_the_floor_is_burnt_and_dumped():
    """At 2 kW with a floor of 6 kW the set burns for 6 kW, and each useful joule costs more."""
    floor, free = cost(2e3, minimum_load_fraction=0.3), cost(2e3)
    assert floor.fuel_use - free.fuel_use == pytest.approx(SLOPE * 4e3 / 2e3)


@given(st.floats(0.0, 5e3), st.floats(0.0, 1e5))
def test_delivered_price_is_never_below_the_price(price, time):
    transport = road_transport(price, 3e-6, time, 0.3)
    assert delivered_price(price, transport) >= price
    assert transport == pytest.approx(price * road_transport(1.0, 3e-6, time, 0.3), rel=1e-12, abs=1e-300)


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ((25e3, 20e3, SLOPE, INTERCEPT), "above the set's rated power"),
        ((-1.0, 20e3, SLOPE, INTERCEPT), "power is"),
        ((1e3, 0.0, SLOPE, INTERCEPT), "rated power"),
        ((1e3, 20e3, math.nan, INTERCEPT), "slope"),
        ((1e3, 20e3, SLOPE, -1e-11), "intercept"),
        ((1e3, 20e3, SLOPE, INTERCEPT, 1.5), "minimum load fraction"),
    ],
)
def test_fuel_rate_refusals(numbers, words):
    with pytest.raises(InputError, match=words):
        fuel_rate(*numbers)


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"mean_load": 0.0}, "mean load"),
        ({"mean_load": 21e3}, "above the set's rated power"),
        ({"delivered_price": math.inf}, "fuel price"),
        ({"running_cost": -1.0}, "running cost"),
        ({"capital": math.nan}, "capital"),
        ({"capital": 1.0, "years": 0.0}, "life"),
    ],
)
def test_diesel_cost_refusals(changes, words):
    with pytest.raises(InputError, match=words):
        cost(**changes)


@pytest.mark.parametrize(
    "numbers", [(-1.0, 1.0, 1.0, 1.0), (1.0, -1.0, 1.0, 1.0), (1.0, 1.0, math.nan, 1.0), (1.0, 1.0, 1.0, 0.0)]
)
def test_transport_refusals(numbers):
    with pytest.raises(InputError, match="wanted a finite number"):
        road_transport(*numbers)
