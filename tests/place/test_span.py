"""What a stamp stands for: even records, gaps, a change of interval."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place.result import Series
from racewright.place.span import span_of

DAY = 86400


def _series(days: np.ndarray, values: np.ndarray | None = None) -> Series:
    time = np.round(np.asarray(days, dtype=float) * DAY).astype(np.int64)
    return Series("discharge", time, np.ones(time.size) if values is None else values)


def test_an_even_record_weighs_all_stamps_alike() -> None:
    span = span_of(_series(np.arange(3653)))
    np.testing.assert_array_equal(span.weight, DAY)
    assert span.years == pytest.approx(3653 / 365.25)
    assert span.missing == 0.0


def test_a_gap_is_not_filled_by_its_neighbours() -> None:
    days = np.concatenate((np.arange(50), np.arange(150, 200)))
    span = span_of(_series(days))
    np.testing.assert_array_equal(span.weight, DAY)
    assert span.missing == pytest.approx(0.5)
    hourly = span_of(_series(days / 24.0))
    np.testing.assert_array_equal(hourly.weight, 3600.0)


def test_each_part_keeps_its_own_interval() -> None:
    """Ten days by the hour, then ninety by the day: the hours weigh an hour each."""
    days = np.concatenate((np.arange(240) / 24.0, 10.0 + np.arange(90)))
    span = span_of(_series(days))
    assert span.weight[:240].sum() == pytest.approx(10 * DAY)
    assert span.weight[240:].sum() == pytest.approx(90 * DAY, rel=0.02)


def test_a_lone_stamp_between_gaps_stands_for_neither() -> None:
    days = np.concatenate((np.arange(100), [1000], 2000 + np.arange(100)))
    span = span_of(_series(days))
    np.testing.assert_array_equal(span.weight, DAY)
    monthly = span_of(_series(30.0 * np.arange(60)))
    np.testing.assert_array_equal(monthly.weight, 30 * DAY)


def test_bad_records_are_refused() -> None:
    with pytest.raises(InputError, match="at least 19"):
        span_of(_series(np.arange(18)))
    with pytest.raises(InputError, match="grow"):
        span_of(_series(np.concatenate((np.arange(30), [29]))))
    for bad in (np.nan, -1.0, np.inf):
        values = np.ones(30)
        values[7] = bad
        with pytest.raises(InputError, match="negative"):
            span_of(_series(np.arange(30), values))
    with pytest.raises(InputError, match="stamps but"):
        span_of(Series("discharge", np.arange(30, dtype=np.int64), np.ones(29)))
