"""A rating fitted to a textbook's gaugings."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.special import stdtrit

from racewright.place.rating_band import rating_band
from racewright.place.rating_fit import rating
from tests.external.record import Record
from tests.external.supply_rows import rows


def gaugings() -> tuple[np.ndarray, np.ndarray]:
    table = rows("place_gaugings")
    level, discharge = (np.array([float(row[k]) for row in table]) for k in ("level_m", "discharge_m3_s"))
    return level, discharge


@pytest.mark.outside(
    source="Subramanya, Engineering Hydrology, ch. 4: 14 gaugings, zero level 7.50 m; least squares on log10 by hand "
    "gives b = 1.455786, C = 275.522 m3/s, correlation 0.991258, 1045.85 m3/s at 10.0 m",
    status="closed form",
    tolerance="1e-6 on b, 1e-5 on C and correlation (six figures stated), 1e-5 on discharge",
)
def test_textbook_gaugings(record_property: Record) -> None:
    level, discharge = gaugings()
    fit = rating(level, discharge, zero_level=7.5)
    record_property("measured", f"b {fit.rating.exponent:.6f}, C {fit.rating.coefficient:.3f}")
    assert fit.rating.exponent == pytest.approx(1.455786, abs=1e-6)
    assert fit.rating.coefficient == pytest.approx(275.522, abs=1e-3)
    log_q = np.log(discharge)
    unexplained = float(fit.residual @ fit.residual) / float(np.sum((log_q - log_q.mean()) ** 2))
    assert np.sqrt(1.0 - unexplained) == pytest.approx(0.991258, abs=1e-6)
    assert float(rating_band(fit, 10.0).discharge[0]) == pytest.approx(1045.85, abs=0.01)
    assert fit.degrees == 12


@pytest.mark.outside(
    source="regression of a straight line: variance of the slope s^2/Sxx, of the mean relation "
    "s^2 (1/n + (x - mean)^2/Sxx)",
    status="closed form",
    tolerance="1e-12, linear algebra",
)
def test_errors_of_the_straight_line() -> None:
    level, discharge = gaugings()
    fit = rating(level, discharge, zero_level=7.5)
    x = np.log(level - 7.5)
    spread = float(np.sum((x - x.mean()) ** 2))
    assert fit.covariance[2, 2] == pytest.approx(fit.standard_error**2 / spread, rel=1e-12)
    assert fit.exponent_error == pytest.approx(fit.standard_error / np.sqrt(spread), rel=1e-12)
    assert fit.zero_level_error == 0.0
    band = rating_band(fit, [7.7, 9.0, 12.5])
    at = np.log(np.array([7.7, 9.0, 12.5]) - 7.5)
    error = fit.standard_error * np.sqrt(1.0 / x.size + (at - x.mean()) ** 2 / spread)
    np.testing.assert_allclose(band.relative, error, rtol=1e-10)
    t = float(stdtrit(12, 0.975))
    assert t == pytest.approx(2.1788, abs=1e-4)  # printed tables of Student's t
    np.testing.assert_allclose(np.log(band.high / band.discharge), t * error, rtol=1e-10)
    assert band.extrapolated.tolist() == [False, False, True]


@pytest.mark.outside(
    source="the same 14 gaugings on a grid of zero levels of 1e-5 m: the least sum of squares",
    status="computed",
    tolerance="1e-5 m",
)
def test_fitted_zero_level_of_the_textbook_gaugings(record_property: Record) -> None:
    level, discharge = gaugings()
    fit = rating(level, discharge)
    grid = np.arange(7.40, 7.60, 1e-5)
    squares = []
    for zero in grid:
        x = np.vander(np.log(level - zero), 2)
        squares.append(np.linalg.lstsq(x, np.log(discharge), rcond=None)[1][0])
    record_property("measured", f"zero level {fit.rating.zero_level:.4f} +- {np.sqrt(fit.covariance[1, 1]):.4f} m")
    assert fit.rating.zero_level == pytest.approx(float(grid[int(np.argmin(squares))]), abs=1e-5)
    assert float(fit.residual @ fit.residual) <= min(squares)
