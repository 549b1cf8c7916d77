"""Areas and volumes against closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from racewright.machine.measures import area_of_revolution, measures, row_area, row_volume, volume_of_revolution
from racewright.machine.sections import section_facts
from tests.machine.rows import straight

EVEN = np.ones(5)


def test_sphere_as_a_hub() -> None:
    """Nose and tail of one radius make a sphere: 4 pi R^2 and 4/3 pi R^3; the error falls as 1/N^2."""
    ball = Hub(0.3, -0.3, 0.3, 0.0, 0.3)
    off = []
    for panels in (100, 200, 400):
        x, r = hub_contour(ball, panels)
        off.append(
            (
                1.0 - area_of_revolution(x, r) / (4.0 * math.pi * 0.09),
                1.0 - volume_of_revolution(x, r) / (4.0 / 3.0 * math.pi * 0.027),
            )
        )
    ratios = np.array(off[:-1]) / np.array(off[1:])
    assert np.all((ratios > 3.5) & (ratios < 4.5))
    assert off[-1] == pytest.approx([0.0, 0.0], abs=5e-5)


def test_torus() -> None:
    """A circle of 0.1 m about a ring of 0.5 m: area 4 pi^2 R a, volume 2 pi^2 R a^2 (Pappus), either way round."""
    angle = np.linspace(0.0, 2.0 * np.pi, 4001)
    x, r = 0.1 * np.cos(angle), 0.5 + 0.1 * np.sin(angle)
    assert area_of_revolution(x, r) == pytest.approx(4.0 * math.pi**2 * 0.05, rel=1e-6)
    assert volume_of_revolution(x, r) == pytest.approx(2.0 * math.pi**2 * 0.005, rel=1e-6)
    assert volume_of_revolution(x[::-1], r[::-1]) == pytest.approx(2.0 * math.pi**2 * 0.005, rel=1e-6)


def test_duct_by_pappus() -> None:
    """Volume = 2 pi x (distance of the section's centroid from the axis) x (section area)."""
    duct = Duct(0.5, 1.5, 0.8, 0.12, camber=0.4)
    x, r = duct_contour(duct, 400)
    cross = x[:-1] * r[1:] - x[1:] * r[:-1]
    area = 0.5 * cross.sum()
    centroid = float(np.sum((r[:-1] + r[1:]) * cross) / (6.0 * area))
    whole = measures(duct, Hub(0.15, -0.1, 0.2, 0.3, 0.3), straight(), straight("blades", 0.35))
    assert whole.duct_volume == pytest.approx(2.0 * math.pi * centroid * abs(area), rel=1e-12)
    assert whole.duct_inner_area + whole.duct_outer_area == pytest.approx(area_of_revolution(x, r), rel=1e-12)
    assert whole.duct_inner_area < whole.duct_outer_area
    assert whole.vanes_area == pytest.approx(whole.blades_area, rel=1e-12)


def test_straight_row_is_its_outline_along_its_span() -> None:
    facts = section_facts("circular_arc", 0.0, 0.12)
    row = straight()
    assert row_area(row) == pytest.approx(7 * facts.perimeter * 0.1 * 0.35, rel=3e-3)
    assert row_volume(row) == pytest.approx(7 * facts.area * 0.01 * 0.35, rel=1e-9)


def test_square_end_of_a_plate_is_wetted() -> None:
    """Perimeter of a plate: pi t/2 around the nose, two sides, the end."""
    facts = section_facts("plate", 0.0, 0.12)
    assert facts.perimeter == pytest.approx(0.06 * math.pi + 2.0 * 0.94 + 0.12, rel=1e-5)


def test_sweep_slides_volume_and_stretches_area() -> None:
    """A flat row swept by 45 degrees: its faces grow less than by the root of 2, its volume not at all."""
    row, swept = straight(), straight(sweep=EVEN * math.pi / 4.0)
    leaned = straight(lean=EVEN * 0.6)
    assert row_volume(swept) == pytest.approx(row_volume(row), rel=1e-12)
    assert row_area(row) < row_area(swept) < 1.2 * row_area(row)
    assert row_area(leaned) > 1.1 * row_area(row)


def test_taper_is_integrated_over_the_span() -> None:
    """Chord from 0.1 to 0.2 m over 0.35 m: mean of chord^2 is 7/300 m2 (monotone cubics through a line are it)."""
    row = straight(chord=np.linspace(0.1, 0.2, 5))
    area = section_facts("circular_arc", 0.0, 0.12).area
    assert row_volume(row) == pytest.approx(7 * area * 0.35 * 7.0 / 300.0, rel=1e-9)
