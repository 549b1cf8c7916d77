"""Spread of years against a hundred years of a river, tables of Student's t and closed forms."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.place.duration import duration_curve, quantile
from racewright.place.years import calendar_of
from racewright.supply.power_table import PowerTable
from racewright.supply.resample import resampled_mean
from racewright.supply.spread import spread
from racewright.supply.years import energy_by_year
from tests.external.record import Record
from tests.external.supply_rows import rows


def nile() -> tuple[np.ndarray, np.ndarray]:
    table = rows("supply_nile")
    year, flow = (np.array([float(row[k]) for row in table]) for k in ("year", "flow_1e8_m3"))
    return year, flow


@pytest.mark.outside(
    source="Nile at Aswan 1871-1970 (Cobb 1978): mean 919.35, deviation 169.2275, Q5 1219.5, Q50 893.5, Q90 718.8 "
    "of a packaged copy; lag-one correlation 0.498 as statistics texts print it",
    status="from memory",
    tolerance="5e-5 on mean and deviation, exact on quantiles, 0.002 on the correlation (printed to three places)",
)
def test_a_hundred_years_of_the_nile(record_property: Record) -> None:
    year, flow = nile()
    found = spread(year, flow)
    record_property("measured", f"lag one {found.lag_one:.3f}, {found.effective_years:.0f} independent years")
    assert found.mean == pytest.approx(919.35, abs=5e-5)
    assert found.deviation == pytest.approx(169.2275, abs=5e-5)
    curve = duration_curve(flow)
    for exceedance, value in ((0.05, 1219.5), (0.5, 893.5), (0.9, 718.8)):
        assert quantile(curve, exceedance) == pytest.approx(value, abs=1e-9)
    assert found.lag_one == pytest.approx(0.498, abs=2e-3)
    assert found.effective_years == pytest.approx(100.0 * (1.0 - found.lag_one) / (1.0 + found.lag_one))
    assert found.trend_chance < 1e-4  # the well-known fall about 1898
    assert found.p90_year < found.p90_mean < found.p50


@pytest.mark.outside(
    source="Student's t, 90 % one-sided, printed tables: 3.078, 1.886, 1.533, 1.383, 1.311 at 1, 2, 4, 9, 29 degrees",
    status="published",
    tolerance="5e-4: printed to three places",
)
@pytest.mark.parametrize(("years", "t"), [(2, 3.078), (3, 1.886), (5, 1.533), (10, 1.383), (30, 1.311)])
def test_p90_with_few_years(years: int, t: float) -> None:
    value = 1000.0 + 40.0 * np.cos(2.4 * np.arange(years))
    found = spread(np.arange(years) * 2, value)  # every other year: no lag-one correlation is taken
    assert found.effective_years == years
    assert (found.p50 - found.p90_mean) / found.standard_error == pytest.approx(t, abs=5e-4)
    widening = np.sqrt(1.0 + 1.0 / years)
    assert (found.p50 - found.p90_year) / found.deviation == pytest.approx(t * widening, rel=4e-4)


@pytest.mark.outside(
    source="P90/P50 = 1 - 1.281552 u for u = 10.6771 % and a normal distribution: 0.863168",
    status="closed form",
    tolerance="2e-4: t with 4000 years stands for the normal",
)
def test_p90_of_many_years_tends_to_the_normal() -> None:
    chance = np.random.default_rng(5).normal(0.0, 1.0, 4000)
    chance = (chance - chance.mean()) / chance.std(ddof=1)
    found = spread(np.arange(4000) * 2, 1.0 + 0.106771 * chance)
    assert found.p90_year == pytest.approx(0.863168, abs=2e-4)


@pytest.mark.outside(
    source="bootstrap of a mean: deviation sqrt((n - 1) / n) / sqrt(n), as draws grow",
    status="closed form",
    tolerance="3 %: 4000 draws have a standard error of 1.1 %",
)
def test_resampled_means_have_the_bootstraps_standard_error(record_property: Record) -> None:
    _, flow = nile()
    found = resampled_mean(flow[:20], seed=11)
    exact = float(np.std(flow[:20])) / np.sqrt(20.0)
    record_property("measured", f"{100.0 * (found.standard_error / exact - 1.0):+.1f} %")
    assert found.standard_error == pytest.approx(exact, rel=0.03)
    assert found.p50 == pytest.approx(float(flow[:20].mean()), rel=0.01)


@pytest.mark.outside(
    source="two years of steady speed, 1.0 and 1.3 m/s, and a cubic power curve: energies as 1.3^3 = 2.197",
    status="closed form",
    tolerance="1 %: bins of 0.1 m/s spread a single speed over its bin (w^2/4v^2, 0.2 %), curve points of 0.005 m/s",
)
def test_two_steady_years() -> None:
    time = (
        np.arange(np.datetime64("2001-01-01"), np.datetime64("2003-01-01")).astype("datetime64[s]").astype(np.int64)
    )
    speed = np.where(time < time[365], 1.05, 1.35)
    edge = np.round(0.1 * np.arange(16), 12)
    calendar = calendar_of(time, speed, np.full(time.size, 86400.0), edge)
    curve = np.linspace(0.0, 2.0, 401)
    found = energy_by_year(calendar, PowerTable(curve, 100.0 * curve**3, 0.0, 800.0))
    assert found.energy[1] / found.energy[0] == pytest.approx((1.35 / 1.05) ** 3, rel=0.01)
    assert found.energy[0] == pytest.approx(100.0 * 1.05**3 * 8760.0 * 3600.0, rel=0.01)
