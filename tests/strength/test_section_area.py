"""Properties of closed contours: scaling, turning, hollows, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from racewright.errors import InputError
from racewright.machine.sections import FAMILIES, section_facts, section_points
from racewright.strength.section_area import section_area
from tests.strength.shapes import ellipse, rectangle, star, turned

RADII = arrays(np.float64, st.integers(5, 20), elements=st.floats(0.2, 2.0))


@given(RADII, st.floats(0.01, 100.0))
def test_scaling(radii, scale):
    one, other = section_area(star(radii)), section_area(scale * star(radii))
    assert other.area == pytest.approx(scale**2 * one.area)
    assert other.principal_small == pytest.approx(scale**4 * one.principal_small)
    assert other.modulus_small == pytest.approx(scale**3 * one.modulus_small)


@given(RADII, st.floats(-3.0, 3.0), st.floats(-50.0, 50.0), st.floats(-50.0, 50.0))
def test_turning_and_moving(radii, angle, dx, dy):
    one, other = section_area(star(radii)), section_area(turned(star(radii), angle, dx, dy))
    size = one.principal_large
    for name in ("principal_small", "principal_large"):
        assert getattr(other, name) == pytest.approx(getattr(one, name), abs=1e-9 * size)
    assert other.moment_xx + other.moment_yy == pytest.approx(one.moment_xx + one.moment_yy)
    moved = turned(np.array([[one.centroid_x, one.centroid_y]]), angle, dx, dy)[0]
    assert (other.centroid_x, other.centroid_y) == pytest.approx(tuple(moved), abs=1e-9)
    if one.principal_large > 1.01 * one.principal_small:
        assert math.sin(other.long_axis - one.long_axis - angle) == pytest.approx(0.0, abs=1e-6)


@given(RADII)
def test_signs_and_order(radii):
    found = section_area(star(radii))
    assert found.area > 0.0
    assert found.principal_large >= found.principal_small > 0.0
    assert found.moment_xx > 0.0
    assert found.moment_yy > 0.0
    assert found.moment_xx * found.moment_yy > found.moment_xy**2
    assert -0.5 * math.pi < found.long_axis <= 0.5 * math.pi


@given(RADII)
def test_either_direction_and_a_closed_end(radii):
    contour = star(radii)
    one = section_area(contour)
    for other in (section_area(contour[::-1]), section_area(np.vstack([contour, contour[:1]]))):
        assert other.area == pytest.approx(one.area)
        assert other.moment_xy == pytest.approx(one.moment_xy, abs=1e-9 * one.principal_large)


@given(RADII)
def test_a_mirror_turns_the_product_moment(radii):
    contour = star(radii)
    one, other = section_area(contour), section_area(contour * np.array([1.0, -1.0]))
    assert other.moment_xy == pytest.approx(-one.moment_xy, abs=1e-9 * one.principal_large)
    assert other.moment_xx == pytest.approx(one.moment_xx)


def test_far_from_the_origin_digits_stay():
    """A section of 0.1 m at 1 km."""
    one, far = section_area(rectangle(0.1, 0.02)), section_area(rectangle(0.1, 0.02) + 1000.0)
    assert far.principal_small == pytest.approx(one.principal_small, rel=1e-6)


def test_the_long_axis_is_along_the_chord():
    assert section_area(rectangle(4.0, 1.0)).long_axis == pytest.approx(0.0, abs=1e-12)
    assert section_area(rectangle(1.0, 4.0)).long_axis == pytest.approx(0.5 * math.pi)
    assert section_area(turned(rectangle(4.0, 1.0), 0.3)).long_axis == pytest.approx(0.3)
    tilted = section_area(turned(rectangle(4.0, 1.0), 0.3))
    assert (tilted.length, tilted.breadth) == pytest.approx((4.0, 1.0))


def test_a_hollow_is_taken_off():
    tube = section_area(ellipse(1.0, 1.0, 400), [ellipse(0.8, 0.8, 400)])
    whole, hole = section_area(ellipse(1.0, 1.0, 400)), section_area(ellipse(0.8, 0.8, 400))
    assert tube.area == pytest.approx(whole.area - hole.area)
    assert tube.principal_small == pytest.approx(whole.principal_small - hole.principal_small)
    assert tube.long_axis == 0.0
    aside = section_area(rectangle(2.0, 2.0), [rectangle(0.5, 0.5) + np.array([0.5, 0.0])])
    assert aside.centroid_x == pytest.approx(-0.25 * 0.5 / 3.75)


@pytest.mark.parametrize("family", list(FAMILIES))
def test_blade_sections_are_taken(family):
    """Area as the section's own facts say, slender as it looks."""
    found = section_area(section_points(family, 0.4, 0.12, 300))
    assert found.area == pytest.approx(section_facts(family, 0.4, 0.12).area, rel=1e-3)
    assert abs(found.long_axis) < 0.1
    assert 0.97 < found.length < 1.03
    assert found.principal_large > 5.0 * found.principal_small


@pytest.mark.parametrize(
    ("contour", "words"),
    [
        ([[0.0, 0.0], [1.0, 0.0]], "shape"),
        (np.zeros((4, 3)), "shape"),
        (np.zeros((3000, 2)), "shape"),
        ([[0.0, 0.0], [1.0, 0.0], [math.nan, 1.0]], "NaN"),
        ([[0.0, 0.0], [1.0, 0.0], [math.inf, 1.0]], "NaN or infinity"),
        ([[0.0, 0.0], [1.0, 1.0], [2.0, 2.0]], "no area"),
        (np.zeros((5, 2)), "no area"),
        ([[0.0, 0.0], [2.0, 0.0], [0.0, 1.5], [2.0, 2.0]], "crosses itself"),
    ],
)
def test_bad_contours(contour, words):
    with pytest.raises(InputError, match=words):
        section_area(contour)


def test_bad_holes():
    with pytest.raises(InputError, match="hole 1 reaches outside"):
        section_area(rectangle(1.0, 1.0), [rectangle(0.5, 1.5)])
    with pytest.raises(InputError, match="hole 2 holds NaN"):
        section_area(rectangle(1.0, 1.0), [rectangle(0.5, 0.5), np.full((3, 2), math.nan)])
