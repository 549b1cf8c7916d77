"""The closed form of strike: a chance, growing with what should make it grow."""

from __future__ import annotations

import doctest
import importlib
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.passage.strike_chance import strike_chance

SPEED = st.floats(0.05, 8.0)
RADIUS = st.floats(0.05, 10.0)
LENGTH = st.floats(0.01, 3.0)
TURN = st.floats(0.0, 60.0)
COUNT = st.integers(1, 30)
SWIRL = st.floats(-5.0, 5.0)
ANGLE = st.floats(-1.5, 1.5)


@given(COUNT, TURN, SPEED, RADIUS, LENGTH, SWIRL, ANGLE, st.floats(0.0, 1.0), st.floats(0.0, 0.1))
@settings(max_examples=300, deadline=None)
def test_a_chance(count, turn, speed, radius, length, swirl, angle, girth, edge):
    chance = strike_chance(
        count,
        turn,
        speed,
        radius,
        length,
        swirl=swirl,
        body_angle=angle,
        body_width=girth * length,
        edge_thickness=edge,
    )
    assert 0.0 <= chance <= 1.0


@given(COUNT, TURN, SPEED, RADIUS, LENGTH, SWIRL, ANGLE, st.floats(0.0, 1.0), st.floats(1.0, 3.0))
@settings(max_examples=200, deadline=None)
def test_grows_with_length(count, turn, speed, radius, length, swirl, angle, girth, factor):
    def at(size):
        return strike_chance(count, turn, speed, radius, size, swirl=swirl, body_angle=angle, body_width=girth * size)

    assert at(length * factor) >= at(length) * (1.0 - 1e-12)


@given(COUNT, TURN, SPEED, RADIUS, LENGTH, SWIRL, ANGLE, st.integers(0, 9))
@settings(max_examples=200, deadline=None)
def test_grows_with_count(count, turn, speed, radius, length, swirl, angle, more):
    few, many = (
        strike_chance(n, turn, speed, radius, length, swirl=swirl, body_angle=angle, body_width=0.2 * length)
        for n in (count, count + more)
    )
    assert many >= few


@given(COUNT, TURN, SPEED, RADIUS, LENGTH, st.floats(1.0, 3.0), st.floats(0.0, 1.0))
@settings(max_examples=200, deadline=None)
def test_grows_with_rotor_speed_from_the_swirl_on(count, turn, speed, radius, length, factor, part):
    """Swirl in the direction of rotation, no faster than the blade: a faster blade strikes more."""
    swirl = part * turn * radius
    slow, fast = (
        strike_chance(count, one, speed, radius, length, swirl=min(swirl, 90.0), body_width=0.1 * length)
        for one in (turn, turn * factor)
    )
    assert fast >= slow * (1.0 - 1e-12)


@pytest.mark.parametrize("radius", [0.1, 0.3, 1.0])
def test_pre_swirl_enters_as_the_difference(radius):
    """Thin body along the axis: B L (Omega - Cth/r)/(2 pi V)."""
    got = strike_chance(5, 8.0, 2.5, radius, 0.1, swirl=0.9)
    assert got == pytest.approx(5 * 0.1 * abs(8.0 - 0.9 / radius) / (2.0 * math.pi * 2.5), rel=1e-12)


@pytest.mark.parametrize("swirl", [0.0, 0.5, 1.5])
def test_a_body_along_the_water_gains_only_the_cosine(swirl):
    """tan a = Cth/V: B L Omega cos a/(2 pi V); swirl helps such a fish by its shorter axial length alone."""
    angle = math.atan2(swirl, 2.0)
    got = strike_chance(4, 9.0, 2.0, 0.4, 0.12, swirl=swirl, body_angle=angle)
    assert got == pytest.approx(4 * 0.12 * 9.0 * math.cos(angle) / (2.0 * math.pi * 2.0), rel=1e-12)


def test_a_row_that_stands_meets_only_width_and_edge():
    """Vanes in water along the axis: (w + t)/s."""
    got = strike_chance(7, 0.0, 2.0, 0.3, 0.2, body_width=0.04, edge_thickness=0.005)
    assert got == pytest.approx(7 * 0.045 / (2.0 * math.pi * 0.3), rel=1e-12)


def test_a_body_that_moves_with_the_blade_is_met_only_by_its_width():
    """At r = Cth/Omega nothing moves across: the chance is that of a standing row."""
    got = strike_chance(3, 10.0, 2.0, 0.2, 0.2, swirl=2.0, body_width=0.02)
    assert got == pytest.approx(3 * 0.02 / (2.0 * math.pi * 0.2), rel=1e-12)


def test_arrays_are_laid_over_each_other():
    got = strike_chance(3, 8.0, np.array([2.0, 3.0]), 0.4, np.array([[0.1], [0.2], [0.3]]))
    assert got.shape == (3, 2)
    assert np.all(np.diff(got, axis=0) > 0.0)


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("count", 0),
        ("count", 2.5),
        ("rotor_speed", -1.0),
        ("rotor_speed", math.nan),
        ("axial_speed", 0.0),
        ("axial_speed", math.inf),
        ("radius", -0.1),
        ("length", 0.0),
        ("length", math.nan),
        ("swirl", math.inf),
        ("body_angle", 2.0),
        ("body_width", -0.01),
        ("edge_thickness", math.nan),
    ],
)
def test_refused(key, value):
    given_ = {"count": 3, "rotor_speed": 8.0, "axial_speed": 2.0, "radius": 0.4, "length": 0.2} | {key: value}
    with pytest.raises(InputError, match=key):
        strike_chance(**given_)


def test_docstring_examples():
    result = doctest.testmod(importlib.import_module("racewright.passage.strike_chance"))
    assert result.attempted > 0
    assert result.failed == 0
