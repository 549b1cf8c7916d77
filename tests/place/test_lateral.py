"""Speed across the river: limits."""

from __future__ import annotations

import numpy as np

from racewright.place.lateral import local_ratio
from racewright.place.transect import Transect


def test_a_box_runs_evenly() -> None:
    box = Transect(np.array([0.0, 15.0, 30.0]), np.zeros(3))
    np.testing.assert_allclose(local_ratio(box, 7.0, [0.5, 2.0, 9.0]), 1.0, rtol=1e-14)


def test_dry_ground_and_dry_rivers_have_no_speed() -> None:
    vee = Transect(np.array([0.0, 4.0, 10.0]), np.array([2.0, 0.0, 3.0]))
    np.testing.assert_array_equal(local_ratio(vee, 0.5, [-1.0, 0.0, 1.0]), 0.0)


def test_deeper_runs_faster() -> None:
    vee = Transect(np.array([0.0, 4.0, 10.0]), np.array([2.0, 0.0, 3.0]))
    middle, flank = float(local_ratio(vee, 4.0, 2.0)), float(local_ratio(vee, 6.0, 2.0))
    assert middle > 1.0 > 0.0
    assert np.isclose(flank / middle, 0.5 ** (2.0 / 3.0))
