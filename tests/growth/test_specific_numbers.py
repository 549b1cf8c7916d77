"""Specific numbers and the identities of power, size and stream."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.growth.specific_numbers import diameter_for_power, specific_numbers, speed_for_power


@given(st.floats(0.1, 10.0), st.floats(0.2, 5.0), st.floats(800.0, 1100.0))
def test_specific_numbers_know_no_size(size: float, speed: float, density: float) -> None:
    """Like stages: Omega ~ U/D, Q ~ U D^2, dh ~ U^2, P ~ rho U^3 D^2."""
    one = specific_numbers(10.0, 1.5, 1.7, 2300.0, 1.0, 1000.0)
    other = specific_numbers(
        10.0 * speed / size,
        1.5 * speed * size**2,
        1.7 * speed**2,
        2300.0 * density / 1000.0 * speed**3 * size**2,
        size,
        density,
    )
    for name in one.__dataclass_fields__:
        assert getattr(other, name) == pytest.approx(getattr(one, name), rel=1e-12), name


def test_efficiency_links_the_two_specific_speeds() -> None:
    """Omega_sp = Omega_s sqrt(eta) where P = eta rho dh Q."""
    found = specific_numbers(10.0, 1.5, 1.7, 0.81 * 1000.0 * 1.7 * 1.5, 1.0, 1000.0)
    assert found.power_specific_speed == pytest.approx(0.9 * found.specific_speed, rel=1e-12)
    assert found.turns_specific_speed == pytest.approx(found.specific_speed / (2.0 * math.pi), rel=1e-12)


@given(st.floats(10.0, 1e5), st.floats(0.5, 5.0), st.floats(0.05, 1.0))
def test_speed_and_diameter_undo_each_other(power: float, speed: float, coefficient: float) -> None:
    across = diameter_for_power(power, speed, coefficient, 1025.0)
    again = speed_for_power(power, 0.25 * math.pi * across**2, coefficient, 1025.0)
    assert again == pytest.approx(speed, rel=1e-12)


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0, -1.0])
def test_refused(bad: float) -> None:
    for at in range(4):
        args = [5e3, 0.785, 0.4, 1000.0]
        args[at] = bad
        with pytest.raises(InputError):
            speed_for_power(*args)
        with pytest.raises(InputError):
            diameter_for_power(*args)
    for at in range(6):
        if at == 3 and bad == 0.0:
            continue  # a rotor that gives no power has specific numbers too
        values = [10.0, 1.5, 1.7, 2300.0, 1.0, 1000.0]
        values[at] = bad
        with pytest.raises(InputError):
            specific_numbers(*values)
