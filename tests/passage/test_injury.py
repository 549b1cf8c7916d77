"""Injury: bounds that hold each other, a value between them."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.passage.injury import injury, mutilation_ratio, safe_speed

SPEED = st.floats(0.0, 20.0)
LENGTH = st.floats(0.01, 2.0)
EDGE = st.floats(0.0, 0.3)
SLANT = st.floats(0.0, 0.5 * math.pi)


@given(SPEED, LENGTH, EDGE, SLANT)
@settings(max_examples=300, deadline=None)
def test_a_range_with_its_value_inside(speed, length, edge, slant):
    found = injury(speed, length, edge, slant)
    assert 0.0 <= found.low <= found.value <= found.high <= 1.0


@given(
    SPEED, LENGTH, EDGE, SLANT, st.floats(0.0, 10.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(1.0, 3.0)
)
@settings(max_examples=300, deadline=None)
def test_harsher_is_never_told_milder(speed, length, edge, slant, faster, thinner, squarer, longer):
    """Faster, thinner and squarer edges, longer fish: neither end nor the value falls."""
    mild = injury(speed, length, edge, slant)
    hard = injury(speed + faster, length * longer, edge * (1.0 - thinner), slant + squarer * (0.5 * math.pi - slant))
    assert hard.low >= mild.low
    assert hard.high >= mild.high
    assert hard.value >= mild.value - 1e-15


def test_slow_strikes_hardly_kill():
    found = injury(np.array([1.0, safe_speed()]), 0.3, 0.001, 0.5 * math.pi)
    assert np.all(found.high <= 0.02)


def test_where_nothing_is_known_the_range_is_open():
    """Thin edge at 8 m/s: no row of the laboratory bounds it."""
    found = injury(8.0, 0.2, 0.004, 0.5 * math.pi)
    assert (float(found.low), float(found.high)) == (0.0, 1.0)
    assert found.value == mutilation_ratio(0.2)


def test_slant_and_square_on_at_ten_metres_a_second():
    slanted = injury(10.0, 0.2, 0.1, math.radians(30.0))
    square = injury(10.0, 0.2, 0.1, math.radians(90.0))
    assert slanted.high == pytest.approx(0.02)
    assert square.low == square.high == pytest.approx(0.732)


def test_it_carries_its_caution():
    safety = injury(3.0, 0.2, 0.01, 1.0).safety
    assert "trout" in safety.basis
    assert safety.edition
    assert "consent" in safety.caution


@pytest.mark.parametrize(
    "arguments", [(math.nan, 0.2, 0.01, 1.0), (3.0, -0.2, 0.01, 1.0), (3.0, 0.2, -0.01, 1.0), (3.0, 0.2, 0.01, 2.0)]
)
def test_refused(arguments):
    with pytest.raises(InputError):
        injury(*arguments)
