"""Hollow sections, and sections of rows as they stand."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.row import Row
from racewright.strength.hollow import hollows
from racewright.strength.row_sections import row_contour, row_sections
from racewright.strength.section_area import section_area

BOX = np.array([[0.0, 1.0], [2.0, 1.0], [2.0, 2.0], [0.0, 2.0]])


@pytest.mark.parametrize("box", [BOX, BOX[::-1]], ids=["one way round", "the other"])
def test_a_box_with_a_skin(box: np.ndarray) -> None:
    holes = hollows(box, 0.1)
    found = section_area(box, holes)
    assert found.area == pytest.approx(2.0 - 1.8 * 0.8, rel=1e-9)
    assert found.moment_xx == pytest.approx((2.0 - 1.8 * 0.8**3) / 12.0, rel=1e-9)


def test_skins_that_meet_leave_no_hollow() -> None:
    assert hollows(BOX, 0.5) == ()
    with pytest.raises(InputError, match="wall"):
        hollows(BOX, 0.0)


def test_two_bulges_make_two_hollows() -> None:
    x = np.array([0, 1, 1, 2, 2, 3, 3, 2, 2, 1, 1, 0])
    y = np.array([0, 0, 0.45, 0.45, 0, 0, 1, 1, 0.55, 0.55, 1, 1])
    assert len(hollows(np.column_stack([x, y]), 0.1)) == 2


def row(stagger: float) -> Row:
    two = np.ones(2)
    return Row("blades", 5, 0.3, np.array([0.1, 0.5]), 0.2 * two, stagger * two, 0.0 * two, 0.12 * two, 0.0)


def test_a_section_is_turned_from_axial_towards_the_direction_of_rotation() -> None:
    contour = row_contour(row(0.7), 0)
    trailing, leading = contour[0], contour[80]
    assert trailing - leading == pytest.approx(0.2 * np.array([math.cos(0.7), math.sin(0.7)]))
    assert contour.mean(axis=0) == pytest.approx(np.zeros(2), abs=0.02)
    assert row_sections(row(0.7))[1].long_axis == pytest.approx(0.7, abs=1e-9)


def test_turning_a_section_keeps_its_area() -> None:
    flat, turned = row_sections(row(0.0))[0], row_sections(dataclasses.replace(row(-1.1)))[0]
    assert turned.area == pytest.approx(flat.area)
    assert turned.principal_small == pytest.approx(flat.principal_small)
