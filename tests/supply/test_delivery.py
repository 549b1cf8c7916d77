"""Fuel at the village: parts that add up, trips, and the travel time that answers a price."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError, NoAnswerError
from racewright.supply.delivery import Leg, delivered, travel_time_at
from racewright.supply.diesel import road_transport

TRUCK = Leg("truck", 200e3, 11.0, 14.0, 3.3e-6, 5.0, crew_cost=0.006, port_time=7200.0, trip_cost=80.0)
BOAT = Leg("boat", 90e3, 2.5, 6.0, 4e-6, 0.8, crew_cost=0.005, port_time=10800.0, trip_cost=20.0)


@given(st.floats(0.0, 3000.0), st.floats(0.0, 0.5))
def test_parts_add_up(price: float, spoilt: float) -> None:
    found = delivered(price, (TRUCK, BOAT), spoilt)
    parts = found.bought_part + found.fuel_part + found.crew_part + found.trip_part + found.spoilt_part
    assert found.price == pytest.approx(parts)
    assert found.price == pytest.approx((parts - found.spoilt_part) / (1.0 - spoilt))
    assert found.price >= price


def test_equal_times_are_the_formula_of_road_transport() -> None:
    plain = Leg("truck", 180e3, 10.0, 10.0, 12e-3 / 3600.0, 0.3)
    assert delivered(1000.0, (plain,)).fuel_part == pytest.approx(
        road_transport(1000.0, 12e-3 / 3600.0, 18000.0, 0.3)
    )


def test_trips_count_a_part_of_a_cargo_as_one() -> None:
    found = delivered(1000.0, (TRUCK, BOAT), 0.25)
    assert found.cargo == pytest.approx(0.6)
    assert [found.trips(fuel) for fuel in (0.0, 0.01, 0.6, 0.61, 6.0)] == [0, 1, 1, 2, 10]
    assert found.trip_time == pytest.approx(TRUCK.trip_time + BOAT.trip_time)
    assert delivered(1000.0, ()).trips(5.0) == 0


@given(st.floats(0.0, 3e6), st.floats(0.0, 0.3), st.sampled_from([0, 1, -1]))
def test_travel_time_answers_its_own_price(under_way: float, spoilt: float, leg: int) -> None:
    legs = [TRUCK, BOAT]
    distance = under_way / (1.0 / legs[leg].speed_there + 1.0 / legs[leg].speed_back)
    longer = list(legs)
    longer[leg] = replace(legs[leg], distance=distance)
    price = delivered(1100.0, tuple(longer), spoilt).price
    assert travel_time_at(price, 1100.0, tuple(legs), spoilt, leg=leg) == pytest.approx(under_way, abs=1e-3)


def test_a_price_below_that_without_any_way_has_no_travel_time() -> None:
    with pytest.raises(NoAnswerError, match="without any"):
        travel_time_at(1000.0, 1000.0, (BOAT,))
    with pytest.raises(NoAnswerError, match="costs nothing"):
        travel_time_at(1500.0, 1000.0, (replace(BOAT, fuel_rate=0.0, crew_cost=0.0),))
    with pytest.raises(InputError, match="leg 2"):
        travel_time_at(1500.0, 1000.0, (TRUCK, BOAT), leg=2)


@pytest.mark.parametrize(
    "change",
    [
        {"distance": -1.0},
        {"speed_there": 0.0},
        {"speed_back": float("inf")},
        {"fuel_rate": -1.0},
        {"cargo": 0.0},
        {"crew_cost": -1.0},
        {"port_time": float("nan")},
        {"trip_cost": -5.0},
    ],
)
def test_bad_legs_are_refused(change: dict) -> None:
    with pytest.raises(InputError):
        replace(BOAT, **change)


@pytest.mark.parametrize("spoilt", [-0.1, 1.0, float("nan")])
def test_bad_spoilt_share(spoilt: float) -> None:
    with pytest.raises(InputError, match="spoilt"):
        delivered(1000.0, (BOAT,), spoilt)
