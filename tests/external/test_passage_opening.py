"""Openings against plates, screens against worked figures."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.machine.row import Row
from racewright.passage.gap import free_opening, free_stick, neighbours
from racewright.passage.screen import screen_data
from tests.external.record import Record


@pytest.mark.outside(
    source="plane geometry of a row of plates: opening = s cos b - t", status="closed form", tolerance="0.5 %"
)
def test_plate_row(record_property: Record) -> None:
    worst = 0.0
    for stagger in (0.0, 0.4, 0.8, 1.1):
        for thickness in (0.01, 0.03, 0.06):
            radius = np.linspace(0.5, 0.8, 4)
            even = np.ones(4)
            row = Row(
                "vanes",
                24,
                0.5,
                radius,
                0.5 * even,
                stagger * even,
                0.0 * even,
                thickness * even,
                0.0,
                family="plate",
            )
            shapes, pitches = neighbours(row, radius)
            for shape, pitch in zip(shapes, pitches, strict=True):
                want = pitch * math.cos(stagger) - 0.5 * thickness
                worst = max(worst, abs(free_opening(shape, float(pitch)) / want - 1.0))
    record_property("measured", f"{100.0 * worst:.1g} %")
    assert worst < 5e-3


@pytest.mark.outside(
    source="plane geometry: a thin stick at an angle to parallel walls, (s cos b - t)/sin",
    status="closed form",
    tolerance="0.5 %",
)
def test_stick_between_plates(record_property: Record) -> None:
    even = np.ones(3)
    row = Row(
        "vanes",
        24,
        0.5,
        np.array([0.5, 0.6, 0.7]),
        0.9 * even,
        0.6 * even,
        0.0 * even,
        0.02 * even,
        0.0,
        family="plate",
    )
    shapes, pitches = neighbours(row, np.array([0.6]))
    height = float(pitches[0]) * math.cos(0.6) - 0.018
    worst = max(
        abs(free_stick(shapes[0], float(pitches[0]), angle, 0.0, 10.0) * abs(math.sin(angle - 0.6)) / height - 1.0)
        for angle in (-1.3, -0.5, 0.1, 1.2)
    )
    record_property("measured", f"{100.0 * worst:.1g} %")
    assert worst < 5e-3


@pytest.mark.outside(
    source="California fish-screen criteria (2000): 1.0 ft3/s at 0.33 ft/s wants 3.0 ft2",
    status="published",
    tolerance="1 % (rounded)",
)
def test_area_of_a_screen(record_property: Record) -> None:
    area = 0.3048**3 / screen_data()["approach"]["limit"] / 0.3048**2
    record_property("measured", f"{100.0 * abs(area / 3.0 - 1.0):.1f} %, {area:.3f} ft2 before rounding")
    assert area == pytest.approx(3.03, rel=1e-3)
    assert area == pytest.approx(3.0, rel=0.0102)
