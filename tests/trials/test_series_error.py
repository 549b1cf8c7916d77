"""Standard errors of series: limits and refusals (closed forms are among the outside checks)."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.trials.budget import correlation, coverage_factor
from racewright.trials.series_error import series_error


def test_white_noise_has_about_as_many_values_as_it_has():
    rng = np.random.default_rng(1)
    counts = [series_error(rng.standard_normal(120)).effective_count for _ in range(200)]
    assert 85.0 < np.median(counts) <= 120.0


def test_a_constant_is_known_exactly():
    found = series_error(np.full(30, 5.0))
    assert (found.mean, found.standard_error, found.effective_count) == (5.0, 0.0, 30.0)


def test_a_slow_series_has_few_values():
    rng = np.random.default_rng(2)
    slow = np.repeat(rng.standard_normal(20), 10)
    assert series_error(slow).effective_count < 40.0


def test_scale_and_shift_carry_through():
    x = np.random.default_rng(3).standard_normal(80)
    one, other = series_error(x), series_error(100.0 - 7.0 * x)
    assert other.standard_error == pytest.approx(7.0 * one.standard_error, rel=1e-9)
    assert other.order == one.order


@pytest.mark.parametrize("values", [np.zeros(5), np.full(20, np.nan), np.zeros((20, 2))])
def test_what_bears_no_standard_error_is_refused(values):
    with pytest.raises(InputError):
        series_error(values)


def test_correlation_of_batch_means():
    rng = np.random.default_rng(4)
    a, b = rng.standard_normal(2000), rng.standard_normal(2000)
    found = correlation([a, -2.0 * a, b, np.ones(2000)])
    assert found[0, 1] == pytest.approx(-1.0)
    assert abs(found[0, 2]) < 0.6
    assert found[3].tolist() == [0.0, 0.0, 0.0, 1.0]


def test_coverage_factors():
    assert coverage_factor(float("inf"), 0.95) == pytest.approx(1.959964, abs=1e-6)
    assert coverage_factor(10.0, 0.95) == pytest.approx(2.228139, abs=1e-6)
