"""Ducts with camber, a given inlet or another lip."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.annular_section import AnnularSection, section_contour
from racewright.machine.diffuser import diffuser_remarks, half_angle, steepest_wall
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour, throat_x, wall_radius
from racewright.machine.duct_section import camber, duct_section, inlet_area_ratio
from racewright.machine.section_shape import check_shape, crossing
from racewright.machine.sections import section_points
from racewright.machine.thickness_forms import half_thickness, modified_half_thickness

PLAIN = Duct(throat_radius=0.5, exit_area_ratio=1.5, length=0.8, thickness=0.12)
SHAPED = (
    replace(PLAIN, camber=math.radians(25.0)),
    replace(PLAIN, camber=math.radians(-15.0)),
    replace(PLAIN, inlet_area_ratio=1.4),
    replace(PLAIN, inlet_area_ratio=1.4, lip=2.0),
    replace(PLAIN, camber=math.radians(25.0), lip=0.5),
)


@pytest.mark.parametrize("duct", SHAPED)
def test_throat_exit_and_inlet_are_those_asked_for(duct: Duct) -> None:
    x, r = duct_contour(duct, 400)
    assert r[:400].min() == pytest.approx(0.5, rel=5e-6)
    assert r[:400].min() > 0.5 - 1e-12
    assert (r[0] / 0.5) ** 2 == pytest.approx(1.5, rel=1e-12)
    assert (x[400], (r[400] / 0.5) ** 2) == pytest.approx((0.0, inlet_area_ratio(duct)))
    assert math.hypot(x[400] - x[0], r[400] - r[0]) == pytest.approx(duct.length, rel=1e-12)
    assert wall_radius(duct, throat_x(duct)) == pytest.approx(0.5, rel=1e-12)
    inside = x[:390] >= 0.0
    assert wall_radius(duct, x[:390][inside]) == pytest.approx(r[:390][inside], rel=1e-9)
    if duct.inlet_area_ratio is not None:
        assert inlet_area_ratio(duct) == pytest.approx(duct.inlet_area_ratio, rel=1e-12)


def test_inlet_and_camber_are_two_ways_to_one_section() -> None:
    """The inlet that follows from a camber, given instead of it, gives that camber back."""
    by_camber = SHAPED[0]
    by_inlet = replace(PLAIN, inlet_area_ratio=inlet_area_ratio(by_camber))
    assert camber(by_inlet) == pytest.approx(by_camber.camber, rel=1e-10)
    assert duct_contour(by_inlet, 40)[1] == pytest.approx(duct_contour(by_camber, 40)[1], rel=1e-11)


def test_small_shape_changes_stay_small() -> None:
    """Camber and lip come in without a step: a thousandth of the change makes a thousandth of the difference."""
    plain = np.array(duct_contour(PLAIN, 40))
    for full in (replace(PLAIN, camber=0.2), replace(PLAIN, lip=1.2)):
        key, value = ("camber", 2e-4) if full.camber else ("lip", 1.0 + 2e-4)
        little = np.array(duct_contour(replace(PLAIN, **{key: value}), 40))
        whole = np.abs(np.array(duct_contour(full, 40)) - plain).max()
        assert 0.0 < np.abs(little - plain).max() < 2e-3 * whole


def test_positive_camber_bulges_towards_the_axis_and_widens_the_inlet() -> None:
    """The mean line's middle lies nearer the axis than the chord by tan(camber/4)/2 of the length."""
    section = duct_section(SHAPED[0])
    middle = [section.side(np.array([math.sqrt(0.5)]), side)[1][0] for side in (-1.0, 1.0)]
    chord = section.leading_edge_radius + 0.5 * section.length * math.sin(section.angle)
    rise = 0.5 * math.tan(0.25 * section.camber) * section.length * math.cos(section.angle)
    assert chord - 0.5 * sum(middle) == pytest.approx(rise, rel=1e-9)
    assert inlet_area_ratio(SHAPED[0]) > inlet_area_ratio(PLAIN) > inlet_area_ratio(SHAPED[1])


def test_duct_and_row_share_one_section() -> None:
    """The duct's section with its chord along the axis is the row's of that camber and thickness, on both sides."""
    points = section_points("circular_arc", 0.5, 0.12, 60)
    root = np.sin(0.25 * np.pi * np.linspace(0.0, 2.0, 61))
    section = AnnularSection(2.0, 0.0, 1.0, 0.12, camber=0.5)
    for side, found in ((1.0, points[60::-1]), (-1.0, points[60:])):
        x, r = section.side(root, side)
        assert x == pytest.approx(found[:, 0], abs=1e-12)
        assert r - 2.0 == pytest.approx(found[:, 1], abs=1e-12)


def test_lip_adds_the_difference_of_two_modified_forms() -> None:
    """A nose index of 8 has (8/6)^2 times the nose radius of 6; both are thickest at 0.3."""
    root = np.linspace(0.0, 1.0, 101)
    asked = modified_half_thickness(root, 0.12, 0.3, 8.0) - modified_half_thickness(root, 0.12, 0.3, 6.0)
    found = half_thickness(root, 0.12, (8.0 / 6.0) ** 2) - half_thickness(root, 0.12)
    assert asked.max() > 3e-3
    assert found == pytest.approx(asked, abs=1e-7)


def test_lip_sets_the_nose_radius_and_nothing_behind_three_tenths() -> None:
    root = np.array([1e-4, math.sqrt(0.3), 0.9])
    near = np.array([AnnularSection(1.0, 0.0, 1.0, 0.12, lip=lip).side(root, 1.0)[1] - 1.0 for lip in (1.0, 1.8)])
    assert (near[1, 0] / near[0, 0]) ** 2 == pytest.approx(1.8, rel=1e-3)
    assert near[1, 1:] == pytest.approx(near[0, 1:], rel=1e-12)


@pytest.mark.parametrize(
    ("change", "key", "said"),
    [
        ({"camber": float("nan")}, "camber", "try 0.2"),
        ({"camber": 1.2}, "camber", "-30 to 60 degrees"),
        ({"lip": 2.5}, "lip", "0.5 to 2"),
        ({"lip": float("inf")}, "lip", "0.5 to 2"),
        ({"inlet_area_ratio": 0.9}, "inlet_area_ratio", "1 to 3"),
        ({"inlet_area_ratio": float("nan")}, "inlet_area_ratio", "try 1.2"),
        ({"inlet_area_ratio": 1.2, "camber": 0.1}, "inlet_area_ratio", "not both"),
        ({"inlet_area_ratio": 3.0, "length": 0.3}, "inlet_area_ratio", "more than 40 degrees"),
        ({"inlet_area_ratio": 2.4}, "inlet_area_ratio", "can be had"),
        ({"inlet_area_ratio": 1.0}, "inlet_area_ratio", "can be had"),
        ({"inlet_area_ratio": 2.0, "exit_area_ratio": 1.3, "length": 1.2}, "exit_area_ratio", "smaller inlet"),
        ({"camber": 0.9, "thickness": 0.02}, "camber", "nose would point"),
        ({"camber": -0.5, "thickness": 0.02}, "exit_area_ratio", "of more camber"),
    ],
)
def test_each_refusal_names_one_key_and_what_would_do(change: dict[str, float], key: str, said: str) -> None:
    with pytest.raises(InputError, match=said) as caught:
        duct_section(replace(PLAIN, **change))
    assert caught.value.key == key


def test_inlet_that_is_offered_can_be_had() -> None:
    """With the exit beside it, so that the chord keeps its turn."""
    with pytest.raises(InputError) as caught:
        duct_section(replace(PLAIN, exit_area_ratio=2.0, inlet_area_ratio=1.0))
    low, high = (float(part) for part in caught.value.message.split("as it is, ")[1].split(" can")[0].split(" to "))
    turn = math.sqrt(2.0) - 1.0
    inlet = 0.5 * (low + high)
    duct = replace(PLAIN, exit_area_ratio=(math.sqrt(inlet) + turn) ** 2, inlet_area_ratio=inlet)
    assert math.radians(-30.0) < camber(duct) < math.radians(60.0)


def test_shape_that_is_no_section_is_refused() -> None:
    """A mean line that turns by 170 degrees over a thick section folds its inner side."""
    with pytest.raises(InputError, match="crosses itself"):
        section_contour(AnnularSection(3.0, 0.0, 1.0, 1.6, camber=math.radians(-170.0)), 60)
    with pytest.raises(InputError, match="turns back"):
        section_contour(AnnularSection(3.0, math.radians(60.0), 1.0, 0.12, camber=math.radians(90.0)), 60)
    x, r = duct_contour(PLAIN, 40)
    with pytest.raises(InputError, match="outer side lies inside"):
        check_shape(x[::-1], r[::-1])
    assert crossing(x, r) is None
    assert crossing(np.array([0.0, 1.0, 0.0, 1.0, 0.0]), np.array([0.0, 1.0, 1.0, 0.0, 0.0])) == pytest.approx(0.5)


def test_steepest_wall_is_told_for_a_cambered_duct() -> None:
    """At the trailing edge a plain section's wall opens by its chord's angle and half its edge's angle."""
    slope, place = steepest_wall(PLAIN)
    edge = math.atan(0.24225 / 0.2 * 0.12)
    assert slope == pytest.approx(duct_section(PLAIN).angle + edge, abs=1e-3)
    assert place == pytest.approx(duct_contour(PLAIN, 20)[0][0], rel=1e-3)
    cambered = SHAPED[0]
    assert steepest_wall(cambered)[0] > half_angle(cambered)
    assert "The wall is steepest with" in diffuser_remarks(cambered)[0].text
    assert "steepest" not in diffuser_remarks(PLAIN)[0].text
    (said,) = diffuser_remarks(replace(PLAIN, exit_area_ratio=1.2, camber=0.2))
    assert (said.severity, said.about) == ("note", "separation")
    assert diffuser_remarks(replace(PLAIN, exit_area_ratio=1.1, camber=-0.2)) == ()
