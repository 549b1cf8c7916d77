"""Climate by year and month: names, lengths, coverage, conservation."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place import years
from racewright.place.years import calendar_of, month_of, year_seconds

DAY = 86400


def days(first: str, last: str) -> np.ndarray:
    return np.arange(np.datetime64(first), np.datetime64(last)).astype("datetime64[s]").astype(np.int64)


EDGE = np.array([0.0, 1.0, 2.0, 3.0])


def test_calendar_years_cover_and_add_up_to_the_whole() -> None:
    time = days("1999-01-01", "2001-03-02")
    speed = np.random.default_rng(1).uniform(0.0, 3.0, time.size)
    weight = np.full(time.size, float(DAY))
    found = calendar_of(time, speed, weight, EDGE)
    assert found.year.tolist() == [1999, 2000, 2001]
    np.testing.assert_allclose(found.covered, [1.0, 1.0, 60.0 / 365.0], rtol=1e-12)
    np.testing.assert_allclose(found.year_share.sum(axis=1), 1.0)
    whole = np.histogram(speed, EDGE)[0] / time.size
    by_month = found.month_time @ found.month_share / found.month_time.sum()
    by_year = (found.covered * year_seconds(found.year, 1)) @ found.year_share / weight.sum()
    np.testing.assert_allclose(by_month, whole, rtol=1e-12)
    np.testing.assert_allclose(by_year, whole, rtol=1e-12)
    assert found.month_time[0] / DAY == 93.0
    assert found.month_time[1] / DAY == 28.0 + 29.0 + 28.0


def test_water_years_are_named_by_their_end() -> None:
    time = days("1999-09-30", "2000-10-02")
    found = calendar_of(time, np.ones(time.size), np.full(time.size, float(DAY)), EDGE, start_month=10)
    assert found.year.tolist() == [1999, 2000, 2001]
    np.testing.assert_allclose(found.covered * year_seconds(found.year, 10) / DAY, [1.0, 366.0, 1.0])


def test_years_and_months_without_values_are_left_out() -> None:
    time = np.concatenate((days("1965-05-01", "1965-06-01"), days("1968-05-01", "1968-06-01")))
    found = calendar_of(time, np.ones(time.size), np.full(time.size, float(DAY)), EDGE)
    assert found.year.tolist() == [1965, 1968]
    assert found.month_share.sum(axis=1).tolist() == [0, 0, 0, 0, 1, 0, 0, 0, 0, 0, 0, 0]


def test_months_before_1970() -> None:
    assert month_of(days("1969-12-30", "1970-01-02")).tolist() == [12, 12, 1]


def test_blocks_do_not_change_the_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    time = days("1999-01-01", "2001-01-01")
    speed = np.random.default_rng(2).uniform(0.0, 3.0, time.size)
    weight = np.full(time.size, float(DAY))
    whole = calendar_of(time, speed, weight, EDGE)
    monkeypatch.setattr(years, "BLOCK", 100)
    parts = calendar_of(time, speed, weight, EDGE)
    np.testing.assert_array_equal(whole.year_share, parts.year_share)
    np.testing.assert_array_equal(whole.month_share, parts.month_share)


def test_bad_arguments_are_refused() -> None:
    time = days("1999-01-01", "1999-01-05")
    weight = np.full(4, float(DAY))
    with pytest.raises(InputError, match="month"):
        calendar_of(time, np.ones(4), weight, EDGE, start_month=0)
    with pytest.raises(InputError, match="bins"):
        calendar_of(time, np.full(4, 3.5), weight, EDGE)
