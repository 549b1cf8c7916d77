"""Rows: their stacking, rows given by sections, and whether they fit."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import throat_x
from racewright.machine.given_row import given_row
from racewright.machine.over_radius import read, row_at
from racewright.machine.row import Row, stacking_line
from racewright.machine.row_fit import axial_gap, check_row_within
from racewright.machine.row_solid import extent, outlines, surface
from racewright.machine.sections import section_points
from tests.machine.rows import straight, table

DUCT = Duct(0.5, 1.5, 0.8, 0.12)
EVEN = np.ones(5)


def _given(**change: object) -> Row:
    asked: dict[str, object] = {"count": 7, "place_x": 0.2, "hub_radius": 0.15, "wall_radius": 0.5}
    columns = {k: v for k, v in change.items() if k in ("radius", "chord", "stagger", "camber", "thickness", "sweep")}
    asked |= {k: v for k, v in change.items() if k not in columns}
    return given_row(table(**columns), kind="blades", **asked)  # type: ignore[arg-type]


def test_angles_not_given_are_none_and_of_the_rows_length() -> None:
    row = straight()
    assert row.sweep.tolist() == row.lean.tolist() == [0.0] * 5
    assert row.family == "circular_arc"
    with pytest.raises(InputError, match="2 angles for 5 radii"):
        straight(sweep=np.zeros(2))


def test_stacking_line_sweeps_downstream_and_leans_with_the_rotation() -> None:
    """Sweep of 45 degrees moves by the span; a lean of atan(r) turns by the span in radians, over 1 m."""
    row = straight(sweep=EVEN * math.pi / 4.0)
    row = replace(row, lean=np.arctan(row.radius))
    x, around = stacking_line(row)
    assert x[-1] - x[0] == pytest.approx(0.35)
    assert around[-1] == pytest.approx(0.35)
    solid = surface(row, 20)
    assert np.hypot(solid[:, :, 1], solid[:, :, 2]) == pytest.approx(np.repeat(row.radius[:, None], 41, axis=1))
    assert solid[-1, :, 2].mean() > solid[0, :, 2].mean()


def test_stagger_turns_the_section_with_the_rotation() -> None:
    """The trailing edge of a positive stagger lies further along the rotation than the leading edge."""
    flat = outlines(straight(stagger=EVEN * 0.3), 20)
    assert flat[0, 0] == pytest.approx([0.2 + 0.05 * math.cos(0.3), 0.05 * math.sin(0.3)])
    assert flat[0, 20] == pytest.approx([0.2 - 0.05 * math.cos(0.3), -0.05 * math.sin(0.3)])
    front, back = extent(straight())
    assert (front[0], back[0]) == pytest.approx((0.15, 0.25))


def test_outline_is_the_section_turned_as_a_whole() -> None:
    """In complex numbers: (x - 1/2 + i y) chord e^(i stagger), moved to the mid-chord."""
    flat = outlines(straight(stagger=EVEN * 0.3, camber=EVEN * 0.5), 20)[2]
    points = section_points("circular_arc", 0.5, 0.12, 20)
    turned = 0.2 + 0.1 * (points[:, 0] - 0.5 + 1j * points[:, 1]) * np.exp(0.3j)
    assert flat[:, 0] == pytest.approx(turned.real, abs=1e-15)
    assert flat[:, 1] == pytest.approx(turned.imag, abs=1e-15)


def test_given_row_keeps_the_tables_sections_and_ends_at_hub_and_tip() -> None:
    row = _given(clearance=0.005)
    assert row.radius.tolist() == [0.15, 0.25, 0.40, 0.495]
    assert row.chord[:3].tolist() == [0.12, 0.13, 0.14]
    assert 0.14 < row.chord[3] < 0.15
    assert _given(clearance=0.005, family="biconvex").family == "biconvex"


def test_given_row_reaches_a_little_beyond_its_table_and_no_further() -> None:
    row = _given(hub_radius=0.147, wall_radius=0.505)
    assert row.radius[[0, -1]].tolist() == [0.147, 0.505]
    assert row.chord[0] < 0.12
    assert row.chord[-1] > 0.15
    with pytest.raises(InputError, match="add a section at the hub"):
        _given(hub_radius=0.12)
    with pytest.raises(InputError, match="add a section there"):
        _given(wall_radius=0.52)


def test_reading_over_radius_returns_the_given_values_and_does_not_swing() -> None:
    radius, values = np.array([0.1, 0.2, 0.3, 0.4]), np.array([0.0, 0.0, 1.0, 1.0])
    assert read(radius, values, radius).tolist() == values.tolist()
    fine = read(radius, values, np.linspace(0.1, 0.4, 301))
    assert fine.min() >= 0.0
    assert fine.max() <= 1.0
    assert row_at(straight(), np.array([0.2, 0.3])).thickness == pytest.approx([0.12, 0.12])


@pytest.mark.parametrize(
    ("change", "key", "said"),
    [
        ({"radius": np.array([0.15, 0.25, 0.25, 0.5])}, "radius", "section 3 at 0.25 m"),
        ({"radius": np.array([0.15, float("nan"), 0.4, 0.5])}, "radius", "section 2"),
        ({"chord": np.array([0.1, 0.1])}, "chord", "2 values for 4 radii"),
        ({"chord": np.full(4, 0.9)}, "chord", "fill 6.7 pitches"),
        ({"stagger": np.full(4, 1.5), "count": 20}, "thickness", "touch at radius 0.15 m"),
        ({"stagger": np.full(4, 15.0)}, "stagger", "try 0.5"),
        ({"camber": np.full(4, float("inf"))}, "camber", "section 1"),
        ({"thickness": np.full(4, 12.0)}, "thickness", "of the chord"),
        ({"sweep": np.full(4, 2.0)}, "sweep", "try 0.1"),
        ({"count": 0}, "count", "1 to 60"),
        ({"clearance": 0.2}, "clearance", "a fifth of"),
        ({"clearance": float("nan")}, "clearance", "a fifth of"),
        ({"hub_radius": 0.6}, "radius", "0 < hub < wall"),
        ({"place_x": float("nan")}, "place_x", "try 0.2"),
        ({"family": "oval"}, "family", "take one of"),
    ],
)
def test_each_refusal_of_a_given_row_names_one_key(change: dict[str, object], key: str, said: str) -> None:
    with pytest.raises(InputError, match=said) as caught:
        _given(**change)
    assert caught.value.key == key


def _at_throat(**change: object) -> Row:
    return straight(**{"place_x": throat_x(DUCT), **change})  # type: ignore[arg-type]


def test_row_in_its_duct_is_accepted_with_its_distance_to_the_wall() -> None:
    assert check_row_within(straight("blades", clearance=0.005, radius=np.linspace(0.15, 0.495, 5)), DUCT) > 0.0
    assert check_row_within(_at_throat(), DUCT) == pytest.approx(0.0, abs=1e-3)


@pytest.mark.parametrize(
    ("row", "key", "said"),
    [
        (straight(place_x=0.02), "place_x", "the duct from 0"),
        (straight(place_x=0.79), "place_x", "the duct from 0"),
        (straight(place_x=0.5, sweep=EVEN * 0.8), "sweep", "less sweep"),
        (straight(radius=np.linspace(0.15, 0.54, 5)), "radius", "into the inner wall"),
        (straight("blades", clearance=0.004, radius=np.linspace(0.15, 0.54, 5)), "clearance", "more clearance"),
    ],
)
def test_row_outside_its_duct_is_refused(row: Row, key: str, said: str) -> None:
    with pytest.raises(InputError, match=said) as caught:
        check_row_within(row, DUCT)
    assert caught.value.key == key


def test_rows_keep_apart_until_sweep_or_place_brings_them_together() -> None:
    """Chords of 0.1 m, mid-chords 0.15 m apart: 0.05 m between; a sweep of 0.1 takes 0.0351 m at the tip."""
    blades = straight("blades", place_x=0.35)
    assert axial_gap(straight(), blades) == pytest.approx(0.05)
    swept = straight(sweep=EVEN * 0.1)
    assert axial_gap(swept, blades) == pytest.approx(0.05 - 0.35 * math.tan(0.1))
    with pytest.raises(InputError, match="vanes and blades overlap") as caught:
        axial_gap(straight(sweep=EVEN * 0.2), blades)
    assert caught.value.key == "place_x"
    with pytest.raises(InputError, match="no radius in common"):
        axial_gap(straight(radius=np.linspace(0.6, 0.7, 5)), blades)
