"""Reading records: forms that are right, and every usual fault named with its line."""

from __future__ import annotations

import contextlib
import os
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.place.result import Series
from racewright.records.series_csv import read_series


def _read(path: Path, **other: str) -> Series:
    settings = {"time_column": "date", "value_column": "flow", "unit": "m3/s", "zone": "UTC"} | other
    return read_series(path, kind=settings.pop("kind", "discharge"), shown_as="river.csv", **settings)  # type: ignore[arg-type]


def _file(folder: Path, text: str | bytes) -> Path:
    path = folder / "river.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


GOOD = "date,flow\n2020-01-01,10\n2020-01-02,11.5\n2020-01-03,1e1\n"


@pytest.mark.parametrize(
    "text",
    [
        GOOD,
        GOOD.replace(",", ";"),
        GOOD.replace(",", "\t"),
        GOOD.replace("\n", "\r\n"),
        "\ufeff" + GOOD,
        GOOD + ",\n,  \n",
        "# a comment, with commas\n\n" + GOOD,
        GOOD.replace("\n", " \n").replace(",", " , "),
        '"date","flow"\n"2020-01-01","10"\n"2020-01-02","11.5"\n"2020-01-03","10.0"\n\n',
        "flow;note, if any;date\n10;a;2020-01-01\n11.5;;2020-01-02\n10;b, c;2020-01-03\n",
        GOOD.replace("2020-01-02", "2020-01-02T00:00:00Z"),
        GOOD.replace("2020-01-02", "2020-01-02 05:45+05:45"),
        GOOD.rstrip("\n"),
    ],
)
def test_right_forms_read_alike(tmp_path: Path, text: str) -> None:
    series = _read(_file(tmp_path, text))
    np.testing.assert_array_equal(series.value, [10.0, 11.5, 10.0])
    np.testing.assert_array_equal(series.time, 1577836800 + 86400 * np.arange(3))
    assert (series.kind, series.blank) == ("discharge", 0)


def test_zone_shifts_naive_stamps_only(tmp_path: Path) -> None:
    text = "date,flow\n2020-01-01,1\n2020-01-01T12:00:30,2\n2020-01-02T00:00Z,3\n"
    np.testing.assert_array_equal(
        _read(_file(tmp_path, text), zone="+05:45").time - 1577836800, [-20700, 43230 - 20700, 86400]
    )
    np.testing.assert_array_equal(_read(_file(tmp_path, GOOD), zone="-03:00").time[0] - 1577836800, 10800)


def test_units_and_kinds(tmp_path: Path) -> None:
    path = _file(tmp_path, GOOD)
    assert _read(path, unit="ft3/s").value[0] == pytest.approx(10 * 0.3048**3, rel=1e-15)
    assert _read(path, unit="kn", kind="speed").value[0] == pytest.approx(10 * 1852 / 3600)


def test_blank_values_are_counted_and_skipped(tmp_path: Path) -> None:
    series = _read(_file(tmp_path, GOOD + "2020-01-04,\n2020-01-05,  \n2020-01-06,3\n"))
    assert series.blank == 2
    assert series.value.size == 4


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("", None, "is empty"),
        ("\n\n", None, "is empty"),
        ("date,flow\n", 1, "no rows"),
        ("date,flow\n\n,\n", 1, "no rows"),
        (
            "date,flaw\n2020-01-01,1\n",
            1,
            "no column 'flow'; the nearest is 'flaw'; the columns are 'date', 'flaw'",
        ),
        ("date,flow,flow\n2020-01-01,1,2\n", 1, "stands twice"),
        (GOOD + "2020-01-04,abc\n", 5, "'abc' is not a number"),
        (GOOD + "2020-01-04,NaN\n", 5, "leave the cell blank"),
        (GOOD + "2020-01-04,inf\n", 5, "leave the cell blank"),
        (GOOD + "2020-01-04,1_0\n", 5, "not a number"),
        (GOOD + "2020-01-04,1e999\n", 5, "not a number"),
        (GOOD + "2020-01-04,-1\n", 5, "negative"),
        (GOOD + "2020-01-04,-999\n", 5, "leave the cell blank"),
        (GOOD + "2020-01-04,1e7\n", 5, "check the unit"),
        (GOOD + "2020-01-03,10\n", 5, "same moment as line 4"),
        (GOOD + "2020-01-03,11\n", 5, "same moment as line 4"),
        (GOOD + "2020-01-03,\n", 5, "same moment as line 4"),
        (GOOD + "2020-01-02,10\n", 5, "earlier than line 4"),
        (GOOD + "04.01.2020,10\n", 5, "not a time stamp"),
        (GOOD + "2020-02-30,10\n", 5, "not a time stamp"),
        (GOOD + "2020-01-04T25:00,10\n", 5, "not a time stamp"),
        (GOOD + "20200104,10\n", 5, "not a time stamp"),
        (GOOD + "2020-W02-1,10\n", 5, "not a time stamp"),
        (GOOD + "2020-01-04T00:00:00.5,10\n", 5, "whole seconds"),
        (GOOD + ",10\n", 5, "not a time stamp"),
        (GOOD.replace(",", ";") + "2020-01-04;1,5\n", 5, "decimal point is wanted, like '1.5'"),
        (GOOD + "2020-01-04,1,5\n", 5, "3 cells but the header 2; write decimals with a point"),
        (GOOD + "2020-01-04\n", 5, "1 cells but the header 2"),
        (GOOD + '"2020-01-04,10\n', 5, "quotes"),
        ("date,flow\n2020-01-01,1\n2020-01-02,\n2020-01-03,\n", None, "2 of 3 values are blank"),
        (GOOD.encode() + "2020-01-04,1 caf\u00e9\n".encode("latin-1"), 5, "byte 17 of the line, 0xe9"),
        (GOOD.encode("utf-16"), 1, "UTF-16"),
    ],
)
def test_faults_name_file_line_and_cure(tmp_path: Path, text: str | bytes, line: int | None, words: str) -> None:
    with pytest.raises(InputError) as caught:
        _read(_file(tmp_path, text))
    assert caught.value.file == "river.csv"
    assert caught.value.line == line
    assert words in caught.value.message
    assert str(tmp_path) not in str(caught.value)


def test_faults_of_a_cell_name_the_column(tmp_path: Path) -> None:
    for text, key in ((GOOD + "2020-01-04,x\n", "flow"), (GOOD + "x,1\n", "date")):
        with pytest.raises(InputError) as caught:
            _read(_file(tmp_path, text))
        assert caught.value.key == key


def test_what_is_no_file_is_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        _read(tmp_path / "nowhere.csv")
    with pytest.raises(InputError, match="directory"):
        _read(tmp_path)
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(InputError, match="not a regular file"):
        _read(tmp_path / "pipe")
    with pytest.raises(InputError, match=r"river\.csv"):
        _read(Path("a\0b"))
    loop = tmp_path / "loop"
    loop.symlink_to(loop)
    with pytest.raises(InputError, match=r"river\.csv"):
        _read(loop)


PIECES = st.sampled_from(
    [
        b"date",
        b"flow",
        b",",
        b";",
        b"\t",
        b"\n",
        b"\r",
        b'"',
        b"#",
        b"2020-01-01",
        b"2020-01-02",
        b"7.5",
        b"-",
        b"\x00",
    ]
)


@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.one_of(PIECES, st.binary(max_size=4)), max_size=30), st.booleans())
def test_any_bytes_end_in_a_record_or_an_input_error(tmp_path: Path, pieces: list[bytes], headed: bool) -> None:
    path = _file(tmp_path, (b"date,flow\n" if headed else b"") + b"".join(pieces))
    with contextlib.suppress(InputError):
        series = _read(path)
        assert (np.diff(series.time) > 0).all()
        assert (series.value >= 0.0).all()


def test_an_unreadable_file_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The refusal is played by the test, because some accounts may read everything."""

    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    path = _file(tmp_path, GOOD)
    monkeypatch.setattr(Path, "open", refuse)
    with pytest.raises(InputError, match="cannot be read: Permission denied"):
        _read(path)


@pytest.mark.parametrize("zone", ["Asia/Kathmandu", "5:45", "+05:60", "+15:00", "utc", ""])
def test_bad_zones_are_refused(tmp_path: Path, zone: str) -> None:
    with pytest.raises(InputError, match="fixed offset"):
        _read(_file(tmp_path, GOOD), zone=zone)


@pytest.mark.parametrize("unit", ["m/s", "cfs", "", "m3"])
def test_units_of_another_kind_are_refused(tmp_path: Path, unit: str) -> None:
    with pytest.raises(InputError, match=r"not a unit of discharge; use one of m3/s, L/s, ft3/s"):
        _read(_file(tmp_path, GOOD), unit=unit)


def test_a_long_record_is_packed_and_whole(tmp_path: Path) -> None:
    """A hundred thousand rows; the last stamp and the sum tell that none is lost or doubled."""
    minutes = np.datetime64("2015-01-01T00:00") + np.arange(100_000) * np.timedelta64(10, "m")
    rows = "".join(f"{stamp},{i % 1000}\n" for i, stamp in enumerate(minutes.astype(str)))
    series = _read(_file(tmp_path, "date,flow\n" + rows))
    assert series.value.sum() == 100 * 999 * 1000 / 2
    assert series.time[-1] - series.time[0] == 99_999 * 600
