"""Smoke of the coverage count: 100 campaigns at two loads."""

from __future__ import annotations

from tools.proofs.trials_coverage import coverage


def test_intervals_hold_the_truth_about_95_times_in_100():
    """Of 100 at 95 %, fewer than 87 or none missed at all four places would be 1 in 1000 chances."""
    found = coverage(100)
    assert min(found.readings) >= 97
    for share in (*found.power, *found.thrust):
        assert share >= 0.87, found.text()
    assert min(*found.power, *found.thrust) < 1.0, found.text()
    for error in (*found.power_error, *found.thrust_error):
        assert abs(error) < 0.005
    assert f"seed {found.seed}" in found.text()
