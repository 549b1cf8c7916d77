"""The reader of whole chunks against the reader of single rows: same record to the bit, or same error."""

from __future__ import annotations

import random
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from unittest import mock

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.place.result import Series
from racewright.records import bulk_cells, bulk_rows, cells, series_csv
from racewright.records.csv_form import CsvForm

Outcome = tuple[str, Series | None]


def _read(path: Path, form: CsvForm, zone: str) -> Outcome:
    try:
        series = series_csv.read_series(
            path,
            time_column="date",
            value_column="flow",
            unit="ft3/s",
            kind="discharge",
            zone=zone,
            shown_as="river.csv",
            form=form,
        )
    except InputError as fault:
        return str(fault), None
    return "", series


def _both(path: Path, form: CsvForm, chunk: int = bulk_rows.CHUNK, zone: str = "+05:45") -> Series | None:
    """What both readers find, after a check that it is the same."""
    with mock.patch.object(bulk_rows, "CHUNK", chunk):
        told, one = _read(path, form, zone)
    with mock.patch.object(series_csv, "bulk_rows", return_value=None):
        told_again, two = _read(path, form, zone)
    assert told == told_again
    assert (one is None) == (two is None)
    if one is not None and two is not None:
        np.testing.assert_array_equal(one.time, two.time)
        np.testing.assert_array_equal(one.value, two.value)
        assert (np.diff(one.time) > 0).all()
        assert np.isfinite(one.value).all()
        assert (one.blank, one.repeated, one.backward) == (two.blank, two.repeated, two.backward)
    return one


MOMENT = st.datetimes(datetime(1, 1, 2), datetime(9999, 12, 30)).map(lambda m: m.replace(microsecond=0))
SHAPES: tuple[Callable[[datetime], str], ...] = (
    lambda m: m.strftime("%Y-%m-%d").rjust(10, "0"),
    lambda m: m.isoformat(timespec="minutes"),
    lambda m: m.isoformat(sep=" "),
    lambda m: m.isoformat() + "Z",
    lambda m: m.isoformat(timespec="minutes") + "Z",
    lambda m: m.isoformat() + "-03:30",
    lambda m: m.isoformat(timespec="minutes") + "+14:00",
    lambda m: m.isoformat() + ".000",
)
NUMBER = st.one_of(
    st.floats(0, 1e6).map(repr),
    st.integers(0, 10**6).map(str),
    st.decimals(0, 10**6, places=3).map(str),
    st.sampled_from(
        ["", "", ".5", "5.", "1e3", "+1", "007.50", "0", "123456.789012345", "0.30000000000000004", " 3 "]
    ),
)
ODD = st.sampled_from(
    ["-1", "nan", "x", ".", "1.2.3", "1_0", "٣", "1e999", "2020-02-30", "2020-13-01", '"7"', "a b", "\x0b", "\xa0"]
)
NEAT = CsvForm()
FORMS = st.builds(
    CsvForm,
    delimiter=st.sampled_from(["auto", ";", "tab"]),
    decimal=st.sampled_from(["point", "comma"]),
    encoding=st.sampled_from(["utf-8", "latin-1", "cp1252", "utf-16"]),
    order=st.sampled_from(["rising", "any"]),
)


@st.composite
def texts(draw: st.DrawFn, form: CsvForm) -> str:
    """A record that is right or nearly right."""
    mark = {"auto": ";", "tab": "\t"}.get(form.delimiter, form.delimiter)
    end = draw(st.sampled_from(["\n", "\n", "\r\n", "\r"]))
    moments = draw(st.lists(MOMENT, max_size=8))
    if draw(st.integers(0, 4)):
        moments = sorted(set(moments))
    lines = [mark.join(("date", "note", "flow"))]
    for moment in moments:
        value = draw(ODD if draw(st.integers(0, 15)) == 0 else NUMBER)
        stamp = draw(ODD) if draw(st.integers(0, 30)) == 0 else draw(st.sampled_from(SHAPES))(moment)
        note = draw(st.sampled_from(["", "é", "ice", " "]))
        row = [stamp, note, value.replace(".", ",") if form.decimal == "comma" else value]
        lines.append(mark.join(row if draw(st.integers(0, 30)) else row[:-1]))
        if draw(st.integers(0, 9)) == 0:
            lines.append(draw(st.sampled_from(["", " ", mark + mark])))
    return end.join(lines) + draw(st.sampled_from(["", end, end + end]))


@settings(
    max_examples=250, deadline=timedelta(seconds=5), suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.data(), FORMS, st.sampled_from([7, 64, 1 << 22]), st.sampled_from(["UTC", "+05:45"]))
def test_both_readers_agree_on_records_and_on_errors(
    tmp_path: Path, data: st.DataObject, form: CsvForm, chunk: int, zone: str
) -> None:
    path = tmp_path / "river.csv"
    path.write_bytes(data.draw(texts(form)).encode(form.encoding, errors="replace"))
    _both(path, form, chunk, zone)


@settings(
    max_examples=150, deadline=timedelta(seconds=5), suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.binary(max_size=60), FORMS, st.booleans())
def test_any_bytes_end_in_a_record_or_an_input_error(tmp_path: Path, raw: bytes, form: CsvForm, headed: bool) -> None:
    path = tmp_path / "river.csv"
    path.write_bytes(("date;flow\n".encode(form.encoding) if headed else b"") + raw)
    _both(path, form)


@settings(max_examples=400, deadline=None)
@given(st.lists(NUMBER.map(str.strip), min_size=1, max_size=20))
def test_numbers_are_those_of_single_cells(found: list[str]) -> None:
    text, begin, end = _packed(found)
    value, blank = bulk_cells.bulk_numbers(text, begin, end, "point")
    assert value.tolist() == [cells.number(cell) if cell else 0.0 for cell in found]
    assert blank.tolist() == [not cell for cell in found]


def test_every_day_of_two_leap_cycles_and_the_ends_of_the_calendar() -> None:
    days = [datetime(1896, 2, 27) + timedelta(days=i) for i in range(0, 150_000, 13)]
    days += [
        datetime(1, 1, 1),
        datetime(4, 2, 29),
        datetime(2000, 2, 29),
        datetime(2000, 3, 1),
        datetime(9999, 12, 31),
    ]
    found = [day.strftime("%Y-%m-%d").rjust(10, "0") for day in days]
    text, begin, end = _packed(found)
    assert bulk_cells.bulk_stamps(text, begin, end, 0).tolist() == [cells.stamp(cell, 0) for cell in found]


@pytest.mark.parametrize(
    "cell", ["2021-02-29", "1900-02-29", "0000-01-01", "2021-00-10", "2021-04-31", "2021-01-00", "2021-01-01T24:00"]
)
def test_days_that_are_not_are_left_to_the_single_cell(cell: str) -> None:
    text, begin, end = _packed([cell])
    assert _said(lambda: [cells.stamp(cell, 0)]) == _said(
        lambda: bulk_cells.bulk_stamps(text, begin, end, 0).tolist()
    )


def _said(read: Callable[[], list[int]]) -> str:
    """The answer, or the words of the error."""
    try:
        return str(read())
    except ValueError as fault:
        return str(fault)


def _packed(found: list[str]) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Cells as bytes with their ends."""
    lengths = np.array([len(cell) for cell in found])
    end = np.cumsum(lengths + 1) - 1
    return np.frombuffer(("\n".join(found) + "\n").encode(), dtype=np.uint8), end - lengths, end


@pytest.mark.parametrize("shape", SHAPES[1:])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_usual_file_is_read_in_chunks(tmp_path: Path, shape: Callable[[datetime], str], end: str) -> None:
    """Many chunks; a blank line, blanks round cells and a last line without its end do not stop it."""
    roll = random.Random(5)
    rows = [
        f" {shape(datetime(2020, 1, 1) + timedelta(minutes=i))},x é ,{roll.choice(['', repr(roll.random()), '12.5'])}"
        for i in range(3000)
    ]
    path = tmp_path / "river.csv"
    path.write_bytes(end.join(["date,note,flow", "", *rows]).encode())
    with mock.patch.object(bulk_rows, "CHUNK", 1000):
        found = bulk_rows.bulk_rows(path, ("date", "flow"), 0.0283, "discharge", 0, "river.csv", NEAT)
    assert found is not None
    assert len(found.values) + found.blank == 3000
    _both(path, NEAT, 1000)


def test_the_limit_of_rows_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "river.csv"
    path.write_text("date,flow\n2020-01-01,1\n2020-01-02,1\n2020-01-03,1\n")
    for module in ("bulk_rows", "series_rows"):
        monkeypatch.setattr(f"racewright.records.{module}.MOST_ROWS", 2)
    assert _both(path, NEAT) is None
    assert "river.csv: has more than 2 values; split the file" in _read(path, NEAT, "UTC")[0]


def test_a_very_long_cell_is_left_to_the_single_row(tmp_path: Path) -> None:
    path = tmp_path / "river.csv"
    for length in (90_000, 150_000):
        path.write_text(f"date,note,flow\n2020-01-01,{'x' * length},1\n2020-01-02,,2\n")
        series = _both(path, NEAT)
        assert (series is None) == (length == 150_000)


@pytest.mark.parametrize("note", ["a\rb", '"a', '"a"b', '"a", "b"', '"a"', "a\x00b", "\x1c"])
def test_odd_cells_of_other_columns_are_judged_alike(tmp_path: Path, note: str) -> None:
    """A lone carriage return ends a line, and an open quote breaks a row, in any column."""
    path = tmp_path / "river.csv"
    path.write_bytes(f"date,note,flow\n2020-01-01,{note},1\n2020-01-02,,2\n".encode())
    series = _both(path, NEAT)
    assert (series is not None) == (note in ('"a"', "a\x00b", "\x1c"))
