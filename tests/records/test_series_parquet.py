"""Records in Parquet: what is read, and what is refused in the words of the CSV reader."""

from __future__ import annotations

import contextlib
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.records import series_rows
from racewright.records.series_csv import read_series
from tests.records.parquet_files import DAYS, FLOW, START, moments, read, write


@pytest.mark.parametrize("unit", ["s", "ms", "us", "ns"])
@pytest.mark.parametrize("zone", [None, "UTC", "Europe/Oslo", "+05:45"])
def test_stamps_of_any_resolution_and_zone_are_utc_inside(tmp_path: Path, unit: str, zone: str | None) -> None:
    path = write(tmp_path, moments(5, unit, zone), np.arange(5.0))
    series = read(path)
    np.testing.assert_array_equal(series.time, START + 60 * np.arange(5))
    assert series.time.dtype == np.int64
    shift = 20700 if zone is None else 0
    np.testing.assert_array_equal(read(path, zone="+05:45").time, series.time - shift)


def test_dates_are_midnights_of_the_zone(tmp_path: Path) -> None:
    path = write(tmp_path, pa.array([date(2020, 1, 1), date(2020, 1, 2)]), [1, 2])
    np.testing.assert_array_equal(read(path, zone="-03:00").time, START + 10800 + 86400 * np.arange(2))
    assert read(write(tmp_path, pa.array([date(1969, 12, 31)]), [1.0])).time[0] == -86400


@pytest.mark.parametrize(
    "values",
    [
        pa.array([10.0, 11.5, 12.0], pa.float32()),
        pa.array([10.0, 11.5, 12.0], pa.float64()),
        pa.array([Decimal("10.0"), Decimal("11.5"), Decimal("12.0")]),
    ],
)
def test_numbers_of_any_type(tmp_path: Path, values: pa.Array) -> None:
    np.testing.assert_array_equal(read(write(tmp_path, DAYS[:3], values)).value, [10.0, 11.5, 12.0])
    assert read(write(tmp_path, DAYS[:3], pa.array([1, 2, 3], pa.uint16())), unit="L/s").value[2] == pytest.approx(
        3e-3
    )


def test_nulls_are_gaps_over_many_row_groups(tmp_path: Path) -> None:
    values = [None if i % 7 == 3 else float(i) for i in range(1000)]
    series = read(write(tmp_path, moments(1000), values, row_group_size=64))
    assert series.blank == sum(v is None for v in values)
    np.testing.assert_array_equal(series.value, [v for v in values if v is not None])
    np.testing.assert_array_equal(series.time, START + 60 * series.value)


def test_row_groups_may_be_empty(tmp_path: Path) -> None:
    whole = pa.table({"date": DAYS, "flow": FLOW})
    with pq.ParquetWriter(tmp_path / "river.parquet", whole.schema) as writer:
        for part in (whole[:0], whole[:2], whole[:0], whole[2:]):
            writer.write_table(part)
    assert read(tmp_path / "river.parquet").value.size == 4


@pytest.mark.parametrize("column", ["date", "flow"])
def test_other_types_of_column_are_refused(tmp_path: Path, column: str) -> None:
    for other in (pa.array([[1.0]] * 4), pa.array(["a"] * 4).dictionary_encode(), pa.nulls(4), pa.array([b"x"] * 4)):
        pair = (other, FLOW) if column == "date" else (DAYS, other)
        with pytest.raises(InputError, match="are wanted"):
            read(write(tmp_path, *pair))


def _stamps(*changed: tuple[int, Any]) -> pa.Array:
    stamps = [datetime(2020, 1, 1) + timedelta(days=i) for i in range(4)]
    for i, stamp in changed:
        stamps[i] = stamp
    return pa.array(stamps, pa.timestamp("us"))


@pytest.mark.parametrize(
    ("time", "value", "words", "key"),
    [
        (DAYS, [1.0, float("nan"), 3.0, 4.0], "row 2: 'nan' is not a number; leave the cell blank", "flow"),
        (DAYS, [1.0, 2.0, float("inf"), 4.0], "row 3: 'inf' is not a number; leave the cell blank", "flow"),
        (DAYS, [1.0, 2.0, 3.0, -1.5], "row 4: '-1.5' is negative; leave the cell blank", "flow"),
        (DAYS, [1.0, 2e7, 3.0, 4.0], "row 2: '20000000.0' is 2e+07 m3/s, beyond any water", "flow"),
        (
            _stamps((2, datetime(2020, 1, 2))),
            FLOW,
            "row 3: '2020-01-02 00:00:00' is the same moment as row 2",
            "date",
        ),
        (_stamps((3, datetime(2020, 1, 1))), FLOW, "is earlier than row 3; sort the rows", "date"),
        (_stamps((1, None)), FLOW, "row 2: null is not a time stamp", "date"),
        (_stamps((1, datetime(2020, 1, 1, 0, 0, 0, 5))), FLOW, "row 2: 2020-01-01 00:00:00.000005 is not", "date"),
        (pa.array([1, 2, 3, 4]), FLOW, "holds 'int64'; timestamps or dates are wanted, for a whole number", "date"),
        (pa.array(["2020-01-01"] * 4), FLOW, "holds 'string'; timestamps or dates", "date"),
        (DAYS, ["1", "2", "3", "4"], "holds 'string'; numbers are wanted", "flow"),
        (DAYS, [True, False, True, True], "holds 'bool'; numbers are wanted", "flow"),
        (pa.array([0, 2**62, 1, 1], pa.timestamp("ms")), FLOW, "years 1 to 9999", "date"),
        (pa.array([0, 2**31 - 1, 1, 1], pa.date32()), FLOW, "years 1 to 9999", "date"),
        (DAYS, [None, None, 3.0, None], "3 of 4 values are blank", "flow"),
        (DAYS[:0], FLOW[:0], "has no rows", None),
    ],
)
def test_faults_name_the_row_and_the_cure(tmp_path: Path, time: Any, value: Any, words: str, key: str | None) -> None:
    with pytest.raises(InputError) as caught:
        read(write(tmp_path, time, value))
    assert (caught.value.file, caught.value.key) == ("river.parquet", key)
    assert words in caught.value.message


def test_the_first_fault_of_the_file_is_named_in_any_row_group(tmp_path: Path) -> None:
    values = np.ones(1000)
    values[[700, 900]] = -1.0
    with pytest.raises(InputError, match=r"row 701: '-1\.0' is negative"):
        read(write(tmp_path, moments(1000), values, row_group_size=64))


def test_a_fault_of_order_ahead_of_a_fault_of_value_is_told_first(tmp_path: Path) -> None:
    time = pa.array([START, START, START + 60], pa.timestamp("s", "UTC"))
    with pytest.raises(InputError, match=r"row 2: '2020-01-01 00:00:00Z' is the same moment as row 1"):
        read(write(tmp_path, time, [1.0, 1.0, -1.0]))
    with pytest.raises(InputError, match=r"row 1: '-1\.0' is negative"):
        read(write(tmp_path, time, [-1.0, 1.0, 1.0]))
    with pytest.raises(InputError, match=r"row 1: '-1\.0' is negative"):
        read(write(tmp_path, _stamps((1, None)), [-1.0, 1.0, 1.0, 1.0]))


def test_a_float_rounds_as_its_file_says(tmp_path: Path) -> None:
    """A single-precision 0.1 stays the number it is."""
    assert read(write(tmp_path, DAYS, pa.array([0.1] * 4, pa.float32()))).value[0] == float(np.float32(0.1))


def test_columns_missing_or_twice(tmp_path: Path) -> None:
    path = write(tmp_path, DAYS, FLOW, names=("date", "flaw"))
    with pytest.raises(InputError, match="no column 'flow'; the nearest is 'flaw'; the columns are 'date', 'flaw'"):
        read(path)
    with pytest.raises(InputError, match="the column 'flow' is there twice"):
        read(write(tmp_path, FLOW, FLOW, names=("flow", "flow")), time_column="flow")


def test_rows_in_any_order_are_sorted_and_counted(tmp_path: Path) -> None:
    time = pa.array([START + s for s in (120, 60, 0, 60, 180)], pa.timestamp("s"))
    series = read(write(tmp_path, time, [3.0, 2.0, 1.0, 2.0, 4.0]), order="any")
    np.testing.assert_array_equal(series.value, [1.0, 2.0, 3.0, 4.0])
    assert (series.repeated, series.backward) == (1, 2)
    with pytest.raises(InputError, match="row 4: gives another value for the moment of row 2"):
        read(write(tmp_path, time, [3.0, 2.0, 1.0, 2.5, 4.0], row_group_size=2), order="any")


def test_too_many_rows_are_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = write(tmp_path, DAYS, FLOW)
    monkeypatch.setattr("racewright.records.series_parquet.MOST_ROWS", 3)
    with pytest.raises(InputError, match=f"more than {series_rows.MOST_ROWS} values"):
        read(path)


def test_parquet_and_csv_of_the_same_record_read_alike(tmp_path: Path) -> None:
    stamps = [datetime(2021, 3, 28, tzinfo=UTC) + timedelta(minutes=17 * i) for i in range(200)]
    values = [None if i % 9 == 4 else i * 0.37 for i in range(200)]
    rows = "".join(f"{s.isoformat()},{'' if v is None else repr(v)}\n" for s, v in zip(stamps, values, strict=True))
    text = tmp_path / "r.csv"
    text.write_text("date,flow\n" + rows)
    one = read_series(
        text, time_column="date", value_column="flow", unit="ft3/s", kind="discharge", zone="UTC", shown_as="r.csv"
    )
    two = read(write(tmp_path, pa.array(stamps, pa.timestamp("us", "UTC")), values), unit="ft3/s")
    np.testing.assert_array_equal(one.time, two.time)
    np.testing.assert_array_equal(one.value, two.value)
    assert one.blank == two.blank


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    return write(tmp_path_factory.mktemp("whole"), moments(300), np.arange(300.0), row_group_size=100).read_bytes()


def test_a_file_cut_anywhere_is_refused(tmp_path: Path, whole: bytes) -> None:
    path = tmp_path / "cut.parquet"
    for size in range(0, len(whole), 61):
        path.write_bytes(whole[:size])
        with pytest.raises(InputError, match=r"is empty|not a Parquet file|only part of a Parquet file"):
            read(path)


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(at=st.integers(4, 10**6), byte=st.integers(0, 255), row=st.integers(1, 3))
def test_a_damaged_file_ends_in_a_record_or_an_input_error(
    tmp_path: Path, whole: bytes, at: int, byte: int, row: int
) -> None:
    spoilt = bytearray(whole)
    at = 4 + at % (len(spoilt) - 12)
    spoilt[at : at + row] = bytes([byte]) * row
    path = tmp_path / "spoilt.parquet"
    path.write_bytes(spoilt)
    with contextlib.suppress(InputError):
        series = read(path)
        assert (np.diff(series.time) > 0).all()
        assert np.isfinite(series.value).all()
