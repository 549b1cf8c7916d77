"""Transect: dry parts, several channels, walls above the banks, the touching circle."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.place.transect import Transect

VEE = Transect(np.array([0.0, 4.0, 10.0]), np.array([2.0, 0.0, 3.0]))
TWO = Transect(np.array([0.0, 2.0, 4.0, 6.0, 8.0]), np.array([4.0, 0.0, 2.0, 1.0, 4.0]))


def test_a_vee_is_cut_exactly() -> None:
    """Sides run 2 to 1 and 2 to 1 in 4 and 6 m: at level 1 the width is 2 + 2, the area half of it."""
    assert float(VEE.top_width(1.0)) == pytest.approx(4.0, rel=1e-14)
    assert float(VEE.wetted_area(1.0)) == pytest.approx(2.0, rel=1e-14)
    assert float(VEE.wetted_area(-0.5)) == 0.0
    assert float(VEE.depth_at(4.0, 1.0)) == 1.0
    assert float(VEE.depth_at(0.5, 1.0)) == 0.0


def test_two_channels_both_count() -> None:
    """At level 1.5 the bar at 2.0 stands dry: 1.25 + 0.75 * 2 of width to the left and the right of it."""
    left = 0.75 + 1.5
    right = 0.5 / 3.0 * 2.0 + 0.5 * 2.0
    assert float(TWO.top_width(1.5)) == pytest.approx(left + right, rel=1e-14)
    assert float(TWO.wetted_area(1.5)) == pytest.approx(left * 0.75 + right * 0.25, rel=1e-14)


def test_above_the_banks_the_ends_are_walls() -> None:
    assert VEE.bank_level == 2.0
    high, higher = VEE.wetted_area([4.0, 5.0])
    assert higher - high == pytest.approx(10.0)
    assert float(VEE.top_width(5.0)) == 10.0


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.floats(-3.0, 3.0), min_size=3, max_size=9),
    st.floats(-2.5, 4.0),
    st.sampled_from([0.0, 1.0, 5.0 / 3.0]),
)
def test_power_integral_equals_fine_sums(bed: list[float], level: float, power: float) -> None:
    """Against the midpoint rule on 20 000 strips; the tolerance is their own error at the water line."""
    x = np.arange(len(bed), dtype=float)
    transect = Transect(x, np.array(bed))
    strips = (np.arange(20_000) + 0.5) / 20_000 * x[-1]
    depth = level - np.interp(strips, x, bed)
    expected = np.sum(np.where(depth > 0.0, np.maximum(depth, 0.0) ** power, 0.0)) * x[-1] / 20_000
    assert float(transect.depth_power_integral(level, power)) == pytest.approx(expected, rel=1e-5, abs=4e-3)


def test_a_nearly_level_piece_joins_smoothly() -> None:
    """The series for nearly level pieces and the closed form agree where one takes over from the other."""
    for slope in (9.9e-4, 1.01e-3):
        transect = Transect(np.array([0.0, 1.0, 2.0]), np.array([0.0, 2.0 * slope, 2.0 * slope]))
        a, b = 2.0, 2.0 - 2.0 * slope
        exact = (a ** (8 / 3) - b ** (8 / 3)) / ((8 / 3) * (a - b)) + b ** (5 / 3)
        assert float(transect.depth_power_integral(2.0, 5.0 / 3.0)) == pytest.approx(exact, rel=1e-11)


def test_touching_circle() -> None:
    """In the vee's middle the circle rests on both flanks; on one flank it touches where it is tangent."""
    flat = Transect(np.array([0.0, 5.0, 10.0]), np.array([1.0, 1.0, 1.0]))
    assert flat.touching_level(5.0, 0.6) == pytest.approx(1.6)
    flank = VEE.touching_level(8.0, 0.6)
    assert flank == pytest.approx(VEE.bed_at(8.0) + 0.6 * np.sqrt(1.25), rel=1e-12)
    centre = VEE.touching_level(4.0, 0.6)
    assert centre == pytest.approx(0.6 * np.sqrt(1.25), rel=1e-12)


def test_outside_the_survey_is_refused() -> None:
    for x, radius in ((0.3, 0.6), (9.7, 0.6)):
        with pytest.raises(InputError, match="outside the transect"):
            VEE.touching_level(x, radius)
    with pytest.raises(InputError, match="outside the transect"):
        VEE.depth_at(-0.1, 1.0)
    with pytest.raises(InputError, match="finite"):
        VEE.wetted_area(np.nan)


@pytest.mark.parametrize(
    ("distance", "bed", "words"),
    [
        ([0.0, 1.0], [0.0, 1.0], "at least 3"),
        ([0.0, 1.0, 1.0], [0.0, 1.0, 2.0], "must grow"),
        ([0.0, 2.0, 1.0], [0.0, 1.0, 2.0], "point 3"),
        ([0.0, 1.0, 2.0], [0.0, np.nan, 2.0], "finite"),
        ([0.0, 1.0, 2.0], [0.0, 1.0], "bed levels"),
    ],
)
def test_bad_surveys_are_refused(distance: list[float], bed: list[float], words: str) -> None:
    with pytest.raises(InputError, match=words):
        Transect(np.array(distance), np.array(bed))
