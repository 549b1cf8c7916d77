"""Coordinates of sections and contours as tables."""

from __future__ import annotations

import csv

import numpy as np
import pytest

from racewright.machine.sections import section_facts
from racewright.records.section_tables import section_tables
from tests.machine.rows import straight
from tests.machine.test_solids import DUCT, HUB


def rows(content: bytes) -> tuple[str, list[dict[str, str]]]:
    units, *rest = content.decode().splitlines()
    return units, list(csv.DictReader(rest))


def test_outlines_are_the_sections_unrolled_and_in_space() -> None:
    """At half size: chord 50 mm, area as the section's own, points at their radius; 161 points a section."""
    files = section_tables(DUCT, HUB, straight(stagger=0.3 * np.ones(5)), straight("blades", 0.35), 0.5)
    assert sorted(files) == [
        "blade_outlines.csv",
        "blade_sections.csv",
        "duct_contour.csv",
        "hub_contour.csv",
        "vane_outlines.csv",
        "vane_sections.csv",
    ]
    units, found = rows(files["vane_outlines.csv"])
    assert units == "# units: -, -, mm, mm, mm, mm, mm, mm"
    assert len(found) == 5 * 161
    third = [{k: float(v) for k, v in row.items()} for row in found if row["section"] == "3.0"]
    axial, arc, radius = (np.array([row[key] for row in third]) for key in ("axial", "arc", "radius"))
    size = 0.5 * abs(float(np.sum(axial[:-1] * arc[1:] - axial[1:] * arc[:-1])))
    assert size == pytest.approx(section_facts("circular_arc", 0.0, 0.12).area * 50.0**2, rel=2e-3)
    assert radius == pytest.approx(0.5 * 325.0)
    y, z = (np.array([row[key] for row in third]) for key in "yz")
    assert np.hypot(y, z) == pytest.approx(radius)
    assert np.arctan2(z, y) * radius == pytest.approx(arc)
    assert axial[0] - axial[80] == pytest.approx(50.0 * np.cos(0.3), rel=1e-9)


def test_sections_in_numbers_and_contours() -> None:
    files = section_tables(DUCT, HUB, straight(), straight("blades", 0.35, stagger=-0.5 * np.ones(5)), 2.0)
    units, found = rows(files["blade_sections.csv"])
    assert units.startswith("# units: -, mm, mm, deg, deg")
    assert float(found[-1]["radius"]) == pytest.approx(1000.0)
    assert float(found[0]["angle"]) == pytest.approx(np.degrees(-0.5))
    _units, duct = rows(files["duct_contour.csv"])
    assert min(float(row["radius"]) for row in duct) == pytest.approx(1000.0, rel=1e-4)
    _units, hub = rows(files["hub_contour.csv"])
    assert float(hub[0]["x"]) == pytest.approx(-400.0)
