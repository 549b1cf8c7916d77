"""Means of records, counts, and what loading the package costs."""

from __future__ import annotations

import subprocess
import sys

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.uncertainty import binomial_limits, certificate, series_mean


def test_a_drifting_record_is_said() -> None:
    noise = np.random.default_rng(1).standard_normal(4000)
    assert not series_mean(noise).remarks
    step = np.where(np.arange(4000) < 2000, 0.0, 0.5)
    assert {one.about for one in series_mean(noise + step).remarks} >= {"drift"}


def test_steady_records_are_not_called_drifting() -> None:
    """300 records of an AR(1) series with phi 0.8: at most 1 % are called drifting."""
    from scipy.signal import lfilter

    many = lfilter([1.0], [1.0, -0.8], np.random.default_rng(3).standard_normal((300, 4200)))[:, 200:]
    assert sum(any(one.about == "drift" for one in series_mean(x).remarks) for x in many) <= 3


def test_a_short_record_is_said() -> None:
    slow = np.repeat(np.random.default_rng(1).standard_normal(20), 50)
    found = series_mean(slow)
    assert any(one.about == "record" for one in found.remarks)
    assert found.integrated_time > 20.0


def test_a_stuck_channel_is_said() -> None:
    found = series_mean(np.full(100, 2.5))
    assert found.standard_uncertainty == 0.0
    assert "stuck" in found.remarks[0].text


def test_plain_scatter_is_the_plain_error() -> None:
    noise = np.random.default_rng(2).standard_normal(20_000)
    assert series_mean(noise).standard_uncertainty == pytest.approx(noise.std() / 20_000**0.5, rel=0.05)


def test_bad_records_are_refused() -> None:
    for bad in ([1.0, 2.0], [np.nan] * 50, np.ones((10, 2))):
        with pytest.raises(InputError):
            series_mean(bad)


def test_limits_never_miss_more_than_they_say() -> None:
    """Coverage of the two-sided limits for 20 trials over chances: at least the level, by the binomial itself."""
    from scipy.special import comb

    limits = [binomial_limits(k, 20) for k in range(21)]
    for chance in np.linspace(0.01, 0.99, 50):
        weights = [comb(20, k) * chance**k * (1.0 - chance) ** (20 - k) for k in range(21)]
        inside = sum(w for w, one in zip(weights, limits, strict=True) if one.low <= chance <= one.high)
        assert inside >= 0.95


@pytest.mark.parametrize(("events", "trials"), [(-1, 10), (11, 10), (0, 0)])
def test_impossible_counts_are_refused(events: int, trials: int) -> None:
    with pytest.raises(InputError):
        binomial_limits(events, trials)


def test_a_certificate_is_divided_by_its_factor() -> None:
    assert certificate("U", 1.0, 0.03).standard_uncertainty == pytest.approx(0.015)


def test_bands_load_no_numerical_library_and_limits_no_statistics() -> None:
    for line, absent in (
        ("from racewright.uncertainty import Band, PRIOR_DUCTED_POWER", {"numpy", "scipy"}),
        ("from racewright.uncertainty import propagate, binomial_limits, series_mean", {"scipy.stats"}),
    ):
        code = f"{line}\nimport sys\nprint(*sys.modules)"
        loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
        assert not absent & set(loaded.split())
