"""Unsymmetric bending: plain cases, turned axes, equilibrium."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from racewright.errors import InputError
from racewright.strength.bending import bending_stress
from racewright.strength.section_area import section_area
from tests.strength.shapes import rectangle, star, turned

RADII = arrays(np.float64, st.integers(5, 15), elements=st.floats(0.5, 2.0))
MOMENT = st.floats(-1e4, 1e4)


def test_rectangle():
    """6 M/(b h^2): 120 N m on 40 x 10 mm bent towards y; pulled on the side of -y."""
    bar = rectangle(0.04, 0.01)
    found = bending_stress(section_area(bar), bar, 0.0, 120.0)
    assert found.highest == pytest.approx(180e6)
    assert found.lowest == pytest.approx(-180e6)
    assert found.highest_y == pytest.approx(-0.005)
    along = bending_stress(section_area(bar), bar, 120.0, 0.0)
    assert along.highest == pytest.approx(45e6)
    assert along.highest_x == pytest.approx(-0.02)


def test_pull_adds():
    bar = rectangle(0.04, 0.01)
    found = bending_stress(section_area(bar), bar, 0.0, 0.0, 4000.0)
    assert (found.highest, found.lowest) == pytest.approx((10e6, 10e6))
    pressed = bending_stress(section_area(bar), bar, 0.0, 120.0, -4000.0)
    assert (pressed.highest, pressed.lowest, pressed.largest) == pytest.approx((170e6, -190e6, 190e6))


def test_notch_factor_multiplies():
    bar = rectangle(0.04, 0.01)
    plain, notched = (bending_stress(section_area(bar), bar, 50.0, 20.0, 10.0, notch_factor=k) for k in (1.0, 1.8))
    assert notched.largest == pytest.approx(1.8 * plain.largest)


@given(RADII, MOMENT, MOMENT, st.floats(-3.0, 3.0))
def test_a_turned_section_under_a_turned_moment_bears_the_same(radii, mx, my, angle):
    contour, other = star(radii), turned(star(radii), angle)
    one = bending_stress(section_area(contour), contour, mx, my)
    bent = turned(np.array([[mx, my]]), angle)[0]
    two = bending_stress(section_area(other), other, float(bent[0]), float(bent[1]))
    assert two.highest == pytest.approx(one.highest, rel=1e-6, abs=1e-3)
    assert two.lowest == pytest.approx(one.lowest, rel=1e-6, abs=1e-3)


@given(RADII, MOMENT, MOMENT)
def test_stress_carries_the_moments(radii, mx, my):
    """Integrals of stress times lever over the section, by triangles from the origin, are the moments given."""
    contour = star(radii)
    section = section_area(contour)
    ends = np.array(
        [
            bending_stress(section, np.array([[section.centroid_x + dx, section.centroid_y + dy]]), mx, my).highest
            for dx, dy in ((1.0, 0.0), (0.0, 1.0))
        ]
    )
    following = np.roll(contour, -1, axis=0)
    middles = [0.5 * (contour + following), 0.5 * contour, 0.5 * following]
    area = 0.5 * (contour[:, 0] * following[:, 1] - contour[:, 1] * following[:, 0])
    centre = np.array([section.centroid_x, section.centroid_y])
    got = np.zeros(2)
    for middle in middles:
        about = middle - centre
        got -= ((about @ ends) * area / 3.0) @ about
    assert got == pytest.approx(np.array([mx, my]), rel=1e-7, abs=1e-5)


@given(RADII, MOMENT, MOMENT)
def test_turning_the_moment_round_swaps_the_sides(radii, mx, my):
    contour = star(radii)
    one, other = (bending_stress(section_area(contour), contour, s * mx, s * my) for s in (1.0, -1.0))
    assert other.highest == pytest.approx(-one.lowest)


def test_basis_and_caution_travel_with_it():
    bar = rectangle(0.04, 0.01)
    found = bending_stress(section_area(bar), bar, 1.0, 0.0)
    assert found.safety.edition == "closed form"
    assert "shear, torsion and taper left out" in found.safety.basis
    assert "certificate" in found.safety.caution


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ((math.nan, 0.0, 0.0, 1.0), "bending_x"),
        ((0.0, math.inf, 0.0, 1.0), "bending_y"),
        ((0.0, 0.0, math.nan, 1.0), "pull"),
        ((0.0, 0.0, 0.0, 0.5), "notch factor"),
        ((0.0, 0.0, 0.0, math.nan), "notch factor"),
    ],
)
def test_bad_numbers(numbers, words):
    bar = rectangle(0.04, 0.01)
    mx, my, pull, notch = numbers
    with pytest.raises(InputError, match=words):
        bending_stress(section_area(bar), bar, mx, my, pull, notch_factor=notch)


def test_bad_contour():
    bar = rectangle(0.04, 0.01)
    with pytest.raises(InputError, match="finite points"):
        bending_stress(section_area(bar), [[math.nan, 0.0]], 1.0, 1.0)
