"""Local clocks to UTC: spring, autumn, half-hour zones, gaps, repeats, uneven stamps."""

from __future__ import annotations

from datetime import UTC, datetime, tzinfo
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.supply.civil_time import even_series
from racewright.supply.even_series import Gap
from racewright.supply.time_grid import TimeGrid, local_time, offsets_at, year_grid

BERLIN, ANCHORAGE, NEPAL, LORD_HOWE = (
    ZoneInfo(name) for name in ("Europe/Berlin", "America/Anchorage", "Asia/Kathmandu", "Australia/Lord_Howe")
)


def at(*fields: int) -> int:
    """Seconds since 1970 of fields read as if they were UTC."""
    return int(datetime(*fields, tzinfo=UTC).timestamp())


def shown(start: int, count: int, interval: int, zone: tzinfo) -> np.ndarray:
    """What the zone's clocks show at even instants in UTC."""
    utc = start + interval * np.arange(count)
    return utc + offsets_at(utc, zone)


@pytest.mark.parametrize("zone", [BERLIN, ANCHORAGE, NEPAL, LORD_HOWE, UTC], ids=str)
@pytest.mark.parametrize("interval", [900, 1800, 3600])
def test_a_whole_year_on_a_local_clock_comes_back_even(zone: tzinfo, interval: int) -> None:
    start, count = at(2023, 1, 1), 365 * 86400 // interval
    value = np.arange(count, dtype=float)
    found = even_series(shown(start, count, interval, zone), value, zone)
    assert found.grid == TimeGrid(start, interval, count)
    assert np.array_equal(found.value, value)
    assert (found.gaps, found.repeated, found.clashing, found.nowhere, found.largest_shift) == ((), 0, 0, 0, 0.0)
    assert found.unsure == 0


@settings(deadline=None, max_examples=60)
@given(st.sampled_from([BERLIN, LORD_HOWE]), st.integers(0, 364), st.integers(2, 400))
def test_any_stretch_comes_back_even(zone: tzinfo, day: int, count: int) -> None:
    """Stretches that begin inside the doubled hour are the only ones that cannot be told."""
    start = at(2024, 1, 1) + 86400 * day
    found = even_series(shown(start, count, 1800, zone), np.arange(count, dtype=float), zone, interval=1800)
    assert found.grid.start == start
    assert found.gaps == ()


def test_one_row_missing_in_the_doubled_hour_is_a_gap_and_said() -> None:
    """Berlin, 29 October 2023: 02:00 comes twice; here once only."""
    clock = [at(2023, 10, 29, h) for h in (0, 1, 2, 3, 4)]
    found = even_series(clock, [1.0, 2.0, 3.0, 5.0, 6.0], BERLIN)
    assert found.unsure == 1
    assert found.gaps == (Gap(at(2023, 10, 29, 1), 3600),)
    assert np.array_equal(found.value, [1.0, 2.0, 3.0, np.nan, 5.0, 6.0], equal_nan=True)
    assert {remark.about for remark in found.remarks} == {"gaps", "clock change"}


def test_stamps_of_the_skipped_hour_are_left_out_and_said() -> None:
    """Berlin, 26 March 2023: a logger with a fixed offset writes 02:00 and 02:30, which no clock showed."""
    clock = [at(2023, 3, 26, 1, 0) + 1800 * k for k in range(6)]
    found = even_series(clock, np.arange(6.0), BERLIN)
    assert found.nowhere == 2
    assert any("fixed" in r.text or "one offset" in r.text for r in found.remarks)
    assert found.recorded == 1.0  # 01:00, 01:30, then 03:00 summer time follows at once


def test_stamps_at_the_end_of_the_interval() -> None:
    ends = [at(2023, 5, 1, h) for h in (1, 2, 3)]
    found = even_series(ends, [1.0, 2.0, 3.0], UTC, stamps_at="end")
    assert found.grid == TimeGrid(at(2023, 5, 1), 3600, 3)


def test_gaps_repeats_clashes_and_jitter_are_counted() -> None:
    start = at(2023, 6, 1)
    stamp = [start, start + 3601, start + 7199, start + 7200, start + 7200, start + 5 * 3600, start + 6 * 3600]
    found = even_series(stamp, [1.0, 2.0, 3.0, 3.0, 4.0, 6.0, 7.0], UTC, interval=3600)
    assert (found.repeated, found.clashing, found.largest_shift) == (1, 1, 1.0)
    assert found.gaps == (Gap(start + 3 * 3600, 7200),)
    assert found.recorded == pytest.approx(5 / 7)
    assert {remark.severity for remark in found.remarks} == {"caution", "note", "warning"}


def test_stamps_that_go_back_are_refused_and_shown() -> None:
    clock = [at(2023, 6, 1, h) for h in (0, 1, 0)]
    with pytest.raises(InputError, match="row 3 goes back in time: 2023-06-01 00:00:00"):
        even_series(clock, [1.0, 2.0, 3.0], BERLIN)


@pytest.mark.parametrize(
    ("stamp", "value", "words"),
    [
        ([0, 3600], [1.0], "one length"),
        ([0], [1.0], "2 or more"),
        ([0.0, 3600.0], [1.0, 2.0], "whole seconds"),
        ([0, 3600], [1.0, np.nan], "row 2"),
        ([0, 3600], [-1.0, 2.0], "row 1"),
        ([0, 1_700_000_000_000], [1.0, 2.0], "milliseconds"),
        ([0, 0], [1.0, 2.0], "apart"),
        ([0, 172800], [1.0, 2.0], "apart"),
    ],
)
def test_bad_records_are_refused(stamp: list, value: list, words: str) -> None:
    with pytest.raises(InputError, match=words):
        even_series(stamp, value, UTC)


def test_local_time_of_a_year_skips_and_repeats_an_hour() -> None:
    local = local_time(year_grid(2023), BERLIN)
    assert np.count_nonzero(np.diff(local) == 7200) == 1
    assert np.count_nonzero(np.diff(local) == 0) == 1
    assert np.array_equal(local_time(year_grid(2023), None), year_grid(2023).middles())


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: TimeGrid(0, 0, 1), "interval"),
        (lambda: TimeGrid(0, 3600, 0), "intervals"),
        (lambda: TimeGrid(0.5, 3600, 1), "start"),
        (lambda: year_grid(1800), "year"),
        (lambda: year_grid(2023, 7), "divide"),
    ],
)
def test_bad_grids_are_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()
