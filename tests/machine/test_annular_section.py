"""The section's thickness form and its panels."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.annular_section import AnnularSection, section_contour, side_places
from racewright.machine.thickness_forms import half_thickness


def test_thickness_form_is_as_thick_as_it_says_and_closes() -> None:
    root = np.linspace(0.0, 1.0, 2001)
    assert 2.0 * half_thickness(root, 0.15).max() == pytest.approx(0.15, rel=3e-4)
    assert half_thickness(np.array([0.0, 1.0]), 0.15) == pytest.approx([0.0, 0.0], abs=1e-12)


def test_contour_closes_and_goes_inside_first() -> None:
    x, r = section_contour(AnnularSection(0.75, math.radians(10.0), 1.0, 0.15), 40)
    assert x.shape == r.shape == (81,)
    assert (x[0], r[0]) == (x[-1], r[-1])
    assert (x[40], r[40]) == pytest.approx((0.0, 0.75))
    assert r[:40].mean() < r[41:].mean()
    assert float(np.sum(x[:-1] * r[1:] - x[1:] * r[:-1])) < 0.0


@pytest.mark.parametrize("thickness", [0.02, 0.12, 0.25])
def test_panels_grow_smoothly_and_are_short_at_both_edges(thickness: float) -> None:
    places = side_places(thickness, 80)
    assert places[0] == 0.0
    assert places[-1] == 1.0
    steps = np.diff(places**2)
    assert np.all(steps > 0.0)
    assert steps[-1] < 0.1 * steps.max()
    assert np.max(np.maximum(steps[1:] / steps[:-1], steps[:-1] / steps[1:])[2:]) < 3.1


@pytest.mark.parametrize("panels", [9, 1001])
def test_count_out_of_range_is_refused(panels: int) -> None:
    with pytest.raises(InputError, match="panels_a_side"):
        section_contour(AnnularSection(0.75, 0.1, 1.0, 0.15), panels)


def test_section_on_the_axis_is_refused() -> None:
    with pytest.raises(InputError, match="axis"):
        section_contour(AnnularSection(0.05, 0.0, 1.0, 0.15), 20)
