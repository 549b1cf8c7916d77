"""Speed climate: bins, weights, histograms."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place.climate import climate_from_shares, climate_from_values, histogram_edges


def test_bins_start_at_zero_and_hold_everything() -> None:
    speed = np.array([0.0, 0.1, 0.25, 0.3, 0.95])
    climate = climate_from_values(speed, np.array([1.0, 1.0, 1.0, 1.0, 4.0]))
    np.testing.assert_allclose(climate.edge, np.arange(11) / 10.0, atol=1e-12)
    assert climate.share.sum() == pytest.approx(1.0, abs=1e-14)
    assert climate.share[9] == pytest.approx(0.5)
    assert climate.mean_speed == pytest.approx((0.1 + 0.25 + 0.3 + 4 * 0.95) / 8)
    assert climate.mean_cube_speed**3 == pytest.approx((0.1**3 + 0.25**3 + 0.3**3 + 4 * 0.95**3) / 8)


def test_the_largest_speed_on_an_edge_has_a_bin() -> None:
    for top in (0.3, 0.7, 1.1, 2.9, 0.0):
        climate = climate_from_values(np.array([top]), np.array([1.0]))
        assert climate.share.sum() == 1.0
        assert climate.edge[-1] > top


def test_a_histogram_takes_speeds_spread_within_its_bins() -> None:
    """Mean of v^3 over a bin is mid^3 + w^2 mid / 4."""
    edge = np.arange(0.0, 3.1, 0.5)
    share = np.array([0.05, 0.15, 0.30, 0.30, 0.15, 0.05])
    climate = climate_from_shares(edge, share)
    middle = 0.5 * (edge[1:] + edge[:-1])
    assert climate.mean_speed == pytest.approx(1.5)
    assert climate.mean_cube_speed**3 == pytest.approx(float(share @ (middle**3 + 0.25 * middle / 4.0)))


def test_rounded_shares_are_scaled() -> None:
    climate = climate_from_shares([0.0, 1.0, 2.0, 3.0], [0.33, 0.33, 0.33])
    assert climate.share.sum() == pytest.approx(1.0, abs=1e-15)


@pytest.mark.parametrize(
    ("edge", "share"),
    [
        ([0.0, 1.0], [0.5]),
        ([0.0, 1.0, 2.0], [1.0]),
        ([0.0, 2.0, 1.0], [0.5, 0.5]),
        ([-1.0, 1.0, 2.0], [0.5, 0.5]),
        ([0.0, 1.0, 2.0], [1.5, -0.5]),
        ([0.0, 1.0, 2.0], [0.5, np.nan]),
        ([0.0, 1.0, 30.0], [0.5, 0.5]),
    ],
)
def test_bad_histograms_are_refused(edge: list[float], share: list[float]) -> None:
    with pytest.raises(InputError):
        climate_from_shares(edge, share)


def test_edges_from_limits() -> None:
    np.testing.assert_array_equal(histogram_edges([0.0, 0.5], [0.5, 1.0]), [0.0, 0.5, 1.0])
    with pytest.raises(InputError, match="bin 2 starts"):
        histogram_edges([0.0, 0.6], [0.5, 1.0])
    with pytest.raises(InputError, match="lower but"):
        histogram_edges([0.0, 0.6], [0.5])


@pytest.mark.parametrize("width", [0.0, -0.1, np.nan, 2.0])
def test_bad_bin_widths_are_refused(width: float) -> None:
    with pytest.raises(InputError, match="bin width"):
        climate_from_values(np.array([1.0]), np.array([1.0]), width)
