"""Openings against plates, whose answers are closed."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.machine.row import Row
from racewright.passage.gap import free_opening, free_stick, neighbours
from racewright.passage.opening import ANGLES, opening
from racewright.passage.sphere import largest_sphere
from tests.passage.machine import machine


def plates(count=60, stagger=0.5, chord=1.5, thickness=0.04, hub=5.0, wall=6.0) -> Row:
    """A dense row of plates in a wide, nearly plane annulus."""
    even = np.ones(4)
    return Row(
        "vanes", count, 0.5, np.linspace(hub, wall, 4), chord * even, stagger * even, 0.0 * even, thickness * even,
        0.0, family="plate",
    )  # fmt: skip


@given(st.floats(-1.2, 1.2), st.integers(20, 60), st.floats(0.01, 0.08))
@settings(max_examples=40, deadline=None)
def test_opening_of_overlapping_plates(stagger, count, thickness):
    """s cos b - t, where the plates overlap."""
    row = plates(count, stagger, 3.0, thickness / 2.0)
    shapes, pitches = neighbours(row, np.array([5.0, 5.6]))
    for shape, pitch in zip(shapes, pitches, strict=True):
        want = pitch * math.cos(stagger) - 1.5 * thickness
        if want > 0.0 and pitch * abs(math.sin(stagger)) < 2.5:
            assert free_opening(shape, float(pitch)) == pytest.approx(want, rel=1e-9)


def test_opening_of_plates_too_short_to_overlap():
    """Then from one's rear corner to the other's nose, farther than s cos b - t."""
    row = plates(10, 1.0, 1.0, 0.02)
    shapes, pitches = neighbours(row, np.array([5.5]))
    assert free_opening(shapes[0], float(pitches[0])) > pitches[0] * math.cos(1.0) - 0.02


@pytest.mark.parametrize("angle", [-1.4, -0.6, 0.1, 1.1])
def test_thin_stick_between_walls(angle):
    """(s cos b - t)/|sin(angle - b)|."""
    stagger = 0.5
    shapes, pitches = neighbours(plates(60, stagger, 3.0, 0.02), np.array([5.5]))
    want = (pitches[0] * math.cos(stagger) - 0.06) / abs(math.sin(angle - stagger))
    assert free_stick(shapes[0], float(pitches[0]), angle, 0.0, 50.0) == pytest.approx(want, rel=1e-9)


@pytest.mark.parametrize("diameter", [0.05, 0.2, 0.4])
def test_thick_stick_between_walls(diameter):
    """Round-ended: (l - d)|sin| + d = h."""
    stagger, angle = 0.5, -0.5
    shapes, pitches = neighbours(plates(60, stagger, 3.0, 0.02), np.array([5.5]))
    height = pitches[0] * math.cos(stagger) - 0.06
    want = (height - diameter) / math.sin(stagger - angle) + diameter
    assert free_stick(shapes[0], float(pitches[0]), angle, diameter, 50.0) == pytest.approx(want, rel=0.01)


def test_a_stick_along_straight_channels_has_no_limit():
    shapes, pitches = neighbours(plates(stagger=0.5), np.array([5.5]))
    assert free_stick(shapes[0], float(pitches[0]), 0.5, 0.05, 50.0) == 50.0


def test_a_stick_thicker_than_the_opening_does_not_pass():
    shapes, pitches = neighbours(plates(), np.array([5.5]))
    width = free_opening(shapes[0], float(pitches[0]))
    assert free_stick(shapes[0], float(pitches[0]), 0.5, 1.001 * width, 50.0) == 0.0
    assert free_stick(shapes[0], float(pitches[0]), 0.5, 0.98 * width, 50.0) > 0.9 * width


@pytest.mark.parametrize("stagger", [0.0, 0.7, 1.1])
def test_sphere_between_plates_and_walls(stagger):
    """Where pitch and wall leave the same: r (2 pi/n) cos b - t = 2 (wall - r), the annulus being nearly plane."""
    row = plates(stagger=stagger)
    across = 2.0 * math.pi / 60 * math.cos(stagger)
    radius = (2.0 * 6.0 + 0.06) / (2.0 + across)
    found, at = largest_sphere(row, 5.0, 6.0)
    assert found == pytest.approx(2.0 * (6.0 - radius), rel=5e-3)
    assert at == pytest.approx(radius, rel=2e-3)


def test_a_sphere_in_a_low_passage_is_the_height():
    found, _at = largest_sphere(plates(count=12, hub=5.0, wall=5.3), 5.0, 5.3)
    assert found == pytest.approx(0.3, rel=1e-6)


def test_both_rows_of_the_machine():
    one = machine()
    found = opening(one.vanes, one.blades, stations=5)
    for row in (found.vanes, found.blades):
        assert np.all(np.diff(row.opening) > 0.0)
        assert np.all(row.opening < row.pitch)
        assert row.sphere <= row.height
        assert np.all(row.stick >= 0.0)
    assert found.sphere == min(found.vanes.sphere, found.blades.sphere)
    assert found.stick_anywhere == pytest.approx(found.stick.min())
    assert found.smallest == pytest.approx(found.vanes.opening[0])
    assert np.all(found.stick <= found.longest)
    assert found.bridging[8] == pytest.approx(found.axial_gap / math.cos(found.angle[8]))
    assert "Flood" not in found.safety.basis
    assert found.safety.caution


def test_more_vanes_leave_less():
    one = machine()
    dense = replace(one.vanes, count=10)
    few, many = (opening(vanes, one.blades, stations=2, angle=(0.3, 1.2)) for vanes in (one.vanes, dense))
    assert np.all(many.vanes.opening < few.vanes.opening)
    assert many.sphere < few.sphere
    assert np.all(many.stick <= few.stick)


def test_default_angles_are_even():
    assert len(ANGLES) == 18
    assert np.ptp(np.diff(ANGLES)) == pytest.approx(0.0, abs=1e-12)


@pytest.mark.parametrize(
    "more",
    [{"stick_diameter": -0.1}, {"stick_diameter": math.nan}, {"stations": 1}, {"longest": 0.0}, {"angle": 2.0}],
)
def test_refused(more):
    with pytest.raises(InputError):
        opening(machine().vanes, machine().blades, **more)


def test_rows_that_touch_are_refused():
    one = machine()
    with pytest.raises(InputError, match="overlap"):
        opening(one.vanes, replace(one.blades, place_x=one.vanes.place_x + 0.05))
