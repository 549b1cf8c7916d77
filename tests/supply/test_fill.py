"""Gaps filled from hours and days about them; a series moved to other intervals."""

from __future__ import annotations

from datetime import UTC

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.supply.civil_time import even_series
from racewright.supply.even_series import EvenSeries, Gap, onto
from racewright.supply.fill import filled
from racewright.supply.load_profile import load_from_meter
from racewright.supply.time_grid import TimeGrid

HOURS = 24 * 28
DAY = 1000.0 + 300.0 * np.sin(2.0 * np.pi * np.arange(HOURS) / 24.0)


def series(value: np.ndarray, interval: int = 3600) -> EvenSeries:
    return EvenSeries(TimeGrid(0, interval, value.size), value)


def test_a_short_gap_is_a_straight_line() -> None:
    value = np.arange(48.0)
    value[[10, 11]] = np.nan
    found = filled(series(value))
    assert found.value == pytest.approx(np.arange(48.0))
    assert any(remark.about == "filled" for remark in found.remarks)


def test_a_day_that_is_missing_takes_its_neighbours() -> None:
    value = DAY + np.repeat(np.arange(28.0), 24)
    whole = value.copy()
    value[240:264] = np.nan
    assert filled(series(value)).value == pytest.approx(whole)


def test_gaps_at_both_ends_and_longer_than_two_weeks() -> None:
    value = np.concatenate((DAY, DAY, DAY))
    value[:30], value[-30:] = np.nan, np.nan
    value[800 : 800 + 24 * 16] = np.nan
    found = filled(series(value), most_filled=0.5)
    assert np.isfinite(found.value).all()
    assert found.value == pytest.approx(np.concatenate((DAY, DAY, DAY)))


def test_too_much_missing_is_refused() -> None:
    value = DAY.copy()
    value[: HOURS // 2] = np.nan
    with pytest.raises(NoAnswerError, match="50 %"):
        filled(series(value))
    with pytest.raises(NoAnswerError):
        filled(series(np.full(48, np.nan)), most_filled=1.0)
    with pytest.raises(InputError, match="divide"):
        filled(series(np.array([1.0, np.nan, 2.0, 3.0, 4.0]), 7000))


def test_a_whole_record_stays_as_it_is() -> None:
    whole = series(DAY)
    assert filled(whole) is whole


def test_quarter_hours_become_hours_with_the_same_energy() -> None:
    rng = np.random.default_rng(1)
    quarter = series(rng.uniform(0.0, 1e4, 96), 900)
    hour = onto(quarter, TimeGrid(0, 3600, 24))
    assert hour.value == pytest.approx(quarter.value.reshape(24, 4).mean(axis=1))
    assert hour.value.sum() * 3600 == pytest.approx(quarter.value.sum() * 900)


def test_a_shifted_grid_weighs_by_time() -> None:
    found = onto(series(np.array([1.0, 3.0, 5.0])), TimeGrid(900, 3600, 2))
    assert found.value == pytest.approx([1.5, 3.5])


def test_an_hour_half_recorded_counts_and_less_is_a_gap() -> None:
    value = np.array([1.0, np.nan, 3.0, np.nan, np.nan, np.nan, 5.0, np.nan])
    found = onto(series(value, 900), TimeGrid(0, 3600, 3))
    assert found.value[0] == pytest.approx(2.0)
    assert np.isnan(found.value[1:]).all()
    assert found.gaps == (Gap(3600, 7200),)
    with pytest.raises(InputError, match="least recorded"):
        onto(found, found.grid, 0.0)


def test_a_meter_with_gaps_wants_filling_first() -> None:
    clock = 3600 * np.array([0, 1, 2, 4, 5])
    metered = even_series(clock, [1.0, 2.0, 3.0, 5.0, 6.0], UTC)
    grid = TimeGrid(0, 3600, 6)
    with pytest.raises(InputError, match="no value for 1 h"):
        load_from_meter(metered, grid)
    assert load_from_meter(filled(metered), grid) == pytest.approx([1.0, 2.0, 3.0, 4.0, 5.0, 6.0])
    with pytest.raises(InputError, match="no value for 2 h"):
        load_from_meter(filled(metered), TimeGrid(0, 3600, 8))
