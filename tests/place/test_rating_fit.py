"""Rating from gaugings: recovery, coverage of the band, flags, refusals."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import curve_fit

from racewright.errors import InputError, NoAnswerError
from racewright.place.rating_band import rating_band, rating_error
from racewright.place.rating_fit import RatingFit, rating
from racewright.place.result import DurationCurve

LEVEL = np.array([0.8, 0.9, 1.0, 1.2, 1.3, 1.5, 1.7, 1.8, 2.1, 2.4, 2.9, 3.3])
TRUE = (12.0, 0.35, 1.8)


def gauged(scatter: float, seed: int = 1) -> np.ndarray:
    c, zero, b = TRUE
    noise = np.random.default_rng(seed).normal(0.0, scatter, LEVEL.size)
    return c * (LEVEL - zero) ** b * np.exp(noise)


def about(fit: RatingFit) -> list[tuple[str, str]]:
    return [(remark.about, remark.severity) for remark in fit.remarks]


def test_exact_gaugings_give_the_rating_back() -> None:
    fit = rating(LEVEL, gauged(0.0))
    got = (fit.rating.coefficient, fit.rating.zero_level, fit.rating.exponent)
    np.testing.assert_allclose(got, TRUE, rtol=1e-9)
    assert fit.standard_error < 1e-10
    assert not fit.outlier.any()
    assert fit.degrees == 9


def test_the_order_of_gaugings_does_not_matter() -> None:
    q, order = gauged(0.05), np.random.default_rng(0).permutation(LEVEL.size)
    one, other = rating(LEVEL, q), rating(LEVEL[order], q[order])
    assert one.rating.zero_level == pytest.approx(other.rating.zero_level, abs=1e-10)
    np.testing.assert_allclose(one.residual[order], other.residual, atol=1e-9)


def test_the_fit_is_a_least_square() -> None:
    q = gauged(0.05)
    fit = rating(LEVEL, q)

    def squares(c: float, zero: float, b: float) -> float:
        return float(np.sum((np.log(q) - np.log(c) - b * np.log(LEVEL - zero)) ** 2))

    best = (fit.rating.coefficient, fit.rating.zero_level, fit.rating.exponent)
    least = squares(*best)
    for i in range(3):
        for step in (-1e-3, 1e-3):
            moved = list(best)
            moved[i] += step
            assert squares(*moved) > least


def test_the_covariance_is_that_of_a_general_least_squares_solver() -> None:
    q = gauged(0.05)
    fit = rating(LEVEL, q)
    found = (np.log(fit.rating.coefficient), fit.rating.zero_level, fit.rating.exponent)
    best, covariance = curve_fit(lambda h, a, zero, b: a + b * np.log(h - zero), LEVEL, np.log(q), found)
    np.testing.assert_allclose(best, found, rtol=1e-6)
    np.testing.assert_allclose(fit.covariance, covariance, rtol=1e-4)


def test_the_95_per_cent_band_covers_the_truth_about_95_times_in_100() -> None:
    """250 sets of 12 gaugings: the true discharge at 2 m lies within the band of the mean relation."""
    c, zero, b = TRUE
    true, inside = c * (2.0 - zero) ** b, 0
    for seed in range(250):
        band = rating_band(rating(LEVEL, gauged(0.08, seed)), 2.0)
        inside += bool(band.low[0] <= true <= band.high[0])
    assert 0.92 < inside / 250 < 0.98


def test_the_band_widens_and_is_flagged_beyond_the_gaugings() -> None:
    band = rating_band(rating(LEVEL, gauged(0.05)), [0.6, 1.5, 3.3, 4.5])
    assert band.extrapolated.tolist() == [True, False, False, True]
    assert band.relative[3] > 1.5 * band.relative[1]
    assert (band.single_high > band.high).all()
    assert (band.single_low < band.low).all()


def test_the_rating_error_of_a_river_lies_among_those_of_its_levels() -> None:
    fit = rating(LEVEL, gauged(0.05))
    level = np.linspace(3.0, 0.7, 200)
    exceedance = np.linspace(0.005, 0.995, 200)
    band = rating_band(fit, level)
    error = rating_error(fit, DurationCurve(band.discharge, exceedance))
    assert band.relative.min() < error < band.relative.max()
    one = DurationCurve(np.full(5, float(band.discharge[50])), np.linspace(0.1, 0.9, 5))
    assert rating_error(fit, one) == pytest.approx(float(band.relative[50]), rel=1e-9)
    with pytest.raises(InputError, match="flowing"):
        rating_error(fit, DurationCurve(np.zeros(3), np.linspace(0.1, 0.9, 3)))


def test_an_outlier_is_flagged_and_kept() -> None:
    q = gauged(0.03)
    q[4] *= 1.5
    fit = rating(LEVEL, q)
    assert np.flatnonzero(fit.outlier).tolist() == [4]
    assert fit.level.size == LEVEL.size
    assert ("gaugings", "caution") in about(fit)
    assert not rating(LEVEL, gauged(0.03)).outlier.any()


def test_a_shift_in_time_is_a_warning_with_its_date() -> None:
    order = np.random.default_rng(3).permutation(LEVEL.size)
    time = 86400 * 365 * (30 + order)
    q = gauged(0.03) * np.where(order >= 6, 1.25, 1.0)
    told = [r for r in rating(LEVEL, q, time=time).remarks if r.about == "rating"]
    assert told[0].severity == "warning"
    assert "2005-12-23" in told[0].text
    assert ("rating", "warning") not in about(rating(LEVEL, gauged(0.03), time=time))


def test_a_bend_in_the_control_is_told() -> None:
    """Two power laws joined at 1.7 m, as where the banks begin; one law goes over, under and over."""
    level = np.linspace(0.7, 4.0, 24)
    q = np.where(level < 1.7, 5.0 * (level - 0.4) ** 3.0, 5.0 * 1.3**3 * ((level - 0.4) / 1.3) ** 1.2)
    assert ("rating", "caution") in about(rating(level, q, zero_level=0.4))


def test_few_gaugings_are_a_caution() -> None:
    assert ("gaugings", "caution") in about(rating(LEVEL[:6], gauged(0.02)[:6], zero_level=0.35))
    assert ("gaugings", "caution") not in about(rating(LEVEL, gauged(0.02)))


def test_gaugings_that_do_not_fix_the_zero_level_have_no_answer() -> None:
    with pytest.raises(NoAnswerError, match="zero level"):
        rating(LEVEL, np.exp(LEVEL))


def test_falling_discharge_has_no_answer() -> None:
    with pytest.raises(NoAnswerError):
        rating(LEVEL, gauged(0.0)[::-1], zero_level=0.3)


@pytest.mark.parametrize(
    ("level", "discharge", "extra"),
    [
        (LEVEL, gauged(0.0)[:-1], {}),
        (np.where(LEVEL > 3.0, np.nan, LEVEL), gauged(0.0), {}),
        (LEVEL, np.zeros(LEVEL.size), {}),
        (LEVEL, gauged(0.0), {"zero_level": 0.9}),
        (LEVEL, gauged(0.0), {"zero_level": np.inf}),
        (LEVEL, gauged(0.0), {"time": np.arange(3.0)}),
        (LEVEL[:4], gauged(0.0)[:4], {}),
        (LEVEL[:2], gauged(0.0)[:2], {"zero_level": 0.1}),
    ],
)
def test_bad_gaugings_are_refused(level, discharge, extra) -> None:
    with pytest.raises(InputError):
        rating(level, discharge, **extra)


def test_bad_levels_are_refused() -> None:
    fit = rating(LEVEL, gauged(0.05))
    for bad in (np.nan, fit.rating.zero_level, np.inf):
        with pytest.raises(InputError):
            rating_band(fit, bad)
