"""Energy by year and by month: conservation, what is left out, remarks, refusals."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place import site_from_speed
from racewright.place.result import Calendar, Series
from racewright.place.season import Season, months_closed
from racewright.supply.energy import yearly_energy
from racewright.supply.months import energy_by_month
from racewright.supply.power_table import PowerTable
from racewright.supply.resample import resampled_mean
from racewright.supply.spread import spread
from racewright.supply.years import YearlySpread, energy_by_year

CURVE = np.linspace(0.0, 4.0, 81)
TABLE = PowerTable(CURVE, np.minimum(200.0 * CURVE**3, 2000.0), 0.7, 2000.0, 0.9)


def record(first: str, last: str, seed: int = 6, drift: float = 0.0) -> Series:
    time = np.arange(np.datetime64(first), np.datetime64(last)).astype("datetime64[s]").astype(np.int64)
    chance = np.random.default_rng(seed)
    year = time.astype("datetime64[s]").astype("datetime64[Y]").astype(int)
    wet = chance.normal(1.0, 0.06, int(np.ptp(year)) + 1)[year - year.min()] * np.exp(drift * (year - year.min()))
    month = 2.0 * np.pi * (time / (365.25 * 86400.0))
    return Series("speed", time, wet * (1.5 + 0.5 * np.sin(month) + 0.1 * chance.random(time.size)))


def calendar(series: Series, season: Season | None = None) -> Calendar:
    found = site_from_speed(series, season=season).calendar
    assert found is not None
    return found


def about(found: YearlySpread) -> dict[str, str]:
    return {remark.about: remark.severity for remark in found.remarks}


def test_years_average_to_the_whole_record() -> None:
    """Years of 365 days each: the mean of the yearly energies is the energy of the whole climate."""
    series = record("2001-01-01", "2004-01-01")
    site = site_from_speed(series)
    found = energy_by_year(calendar(series), TABLE)
    whole = yearly_energy(
        site.climate.edge,
        site.climate.share,
        CURVE,
        TABLE.power,
        availability=0.9,
        rated_power=2000.0,
        cut_in_speed=0.7,
    )
    assert found.year.tolist() == [2001, 2002, 2003]
    assert found.spread is not None
    assert found.spread.mean == pytest.approx(whole.total.value, rel=2e-3)
    assert about(found)["years"] == "warning"


def test_a_year_under_nine_tenths_is_left_out() -> None:
    series = record("2001-01-01", "2004-01-01")
    kept = np.ones(series.time.size, dtype=bool)
    kept[365 + 100 : 365 + 140] = False
    found = energy_by_year(
        calendar(dataclasses.replace(series, time=series.time[kept], value=series.value[kept])), TABLE
    )
    assert found.left_out == (2002,)
    assert found.year.tolist() == [2001, 2003]
    assert (found.covered > 0.99).all()


def test_one_year_tells_no_spread() -> None:
    found = energy_by_year(calendar(record("2001-01-01", "2002-03-01")), TABLE)
    assert found.spread is None
    assert found.energy.size == 1
    assert any(r.severity == "warning" and "P90" in r.text for r in found.remarks)


def test_long_records_say_nothing_and_drifting_ones_do() -> None:
    assert about(energy_by_year(calendar(record("1990-01-01", "2010-01-01")), TABLE)) == {}
    drifting = energy_by_year(calendar(record("1990-01-01", "2010-01-01", drift=-0.03)), TABLE)
    assert about(drifting)["trend"] == "caution"
    assert drifting.spread is not None
    assert drifting.spread.trend < -0.02


def test_correlated_years_count_less() -> None:
    year = np.arange(40)
    chance = np.random.default_rng(2).normal(0.0, 1.0, 40)
    slow = np.zeros(40)
    for i in range(1, 40):
        slow[i] = 0.8 * slow[i - 1] + chance[i]
    alone, together = spread(year, 100.0 + 5.0 * chance), spread(year, 100.0 + 5.0 * slow)
    assert alone.effective_years == 40.0
    assert together.effective_years < 20.0


def test_resampling_repeats_with_its_seed_and_brackets_the_mean() -> None:
    value = np.random.default_rng(1).normal(100.0, 10.0, 15)
    one, again, other = (resampled_mean(value, seed) for seed in (3, 3, 4))
    assert one == again
    assert one != other
    formula = spread(np.arange(15) * 2, value)
    assert one.p90 < one.p50 < one.p10
    assert one.p90 == pytest.approx(formula.p90_mean, rel=0.01)


def test_months_add_up_and_tell_what_the_season_costs() -> None:
    series = record("2001-01-01", "2004-01-01")
    closed = site_from_speed(series, season=Season(months_closed("ice", (1, 2, 3))))
    assert closed.calendar is not None
    found = energy_by_month(closed.calendar, TABLE, closed.open_calendar)
    assert [row.month for row in found.rows] == list(range(1, 13))
    assert sum(row.energy for row in found.rows) == pytest.approx(found.energy)
    assert [row.energy for row in found.rows[:3]] == [0.0, 0.0, 0.0]
    assert [row.running for row in found.rows[:3]] == [0.0, 0.0, 0.0]
    lost = sum(row.open_energy for row in found.rows[:3])
    assert found.open_energy - found.energy == pytest.approx(lost, rel=1e-3)
    plain = energy_by_month(calendar(series), TABLE)
    assert plain.energy == plain.open_energy == pytest.approx(found.open_energy)
    years = energy_by_year(calendar(series), TABLE).energy
    assert plain.energy == pytest.approx(float(years.mean()), rel=3e-3)
    assert plain.rows[3].running == pytest.approx(1.0)
    assert plain.rows[3].energy == pytest.approx(plain.rows[3].mean_power * 30 * 86400.0)


def test_twelve_months_of_steady_power_are_8760_hours() -> None:
    series = record("2001-01-01", "2004-01-01")
    steady = PowerTable(np.array([0.0, 10.0]), np.array([500.0, 500.0]), 0.0, 500.0)
    found = energy_by_month(calendar(series), steady)
    assert found.energy == pytest.approx(500.0 * 8760.0 * 3600.0, rel=1e-9)
    assert [round(row.energy / 500.0 / 86400.0) for row in found.rows] == [
        31,
        28,
        31,
        30,
        31,
        30,
        31,
        31,
        30,
        31,
        30,
        31,
    ]


def test_months_without_values_are_named_not_filled() -> None:
    found = energy_by_month(calendar(record("2001-03-01", "2001-07-01")), TABLE)
    assert [row.month for row in found.rows] == [3, 4, 5, 6]
    assert "1, 2, 7, 8, 9, 10, 11, 12" in found.remarks[0].text
    assert found.remarks[0].severity == "warning"


def test_bad_arguments_are_refused() -> None:
    for year, value in (([1.0], [1.0]), ([1, 2], [1.0, np.nan]), ([1, 1], [1.0, 2.0]), ([1, 2], [1.0, -2.0])):
        with pytest.raises(InputError):
            spread(year, value)
    for value, seed, draws in (([1.0], 1, 500), ([1.0, np.inf], 1, 500), ([1.0, 2.0], -1, 500), ([1.0, 2.0], 1, 5)):
        with pytest.raises(InputError):
            resampled_mean(value, seed, draws)
    with pytest.raises(InputError):
        energy_by_year(calendar(record("2001-01-01", "2003-01-01")), TABLE, 1.2)
    with pytest.raises(InputError, match="another record"):
        energy_by_month(
            calendar(record("2001-01-01", "2003-01-01")), TABLE, calendar(record("2001-01-01", "2002-01-01"))
        )
    for change in ({"speed": CURVE[::-1]}, {"power": -CURVE}, {"rated_power": 0.0}, {"availability": np.nan}):
        with pytest.raises(InputError):
            dataclasses.replace(TABLE, **change)
