"""Forms of CSV files: delimiter, decimal mark, encoding, order of rows."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place.result import Series
from racewright.records.csv_form import CsvForm
from racewright.records.series_csv import read_series
from racewright.records.table_csv import read_columns

START = 1577836800
ROWS = "date;höhe;flow\n2020-01-01;a;1,5\n2020-01-02;é;2\n2020-01-03;;0,25\n"


def _read(path: Path, **form: str) -> Series:
    return read_series(
        path,
        time_column="date",
        value_column="flow",
        unit="m3/s",
        kind="discharge",
        zone="UTC",
        shown_as="river.csv",
        form=CsvForm(**form),  # type: ignore[arg-type]
    )


def _file(folder: Path, text: str | bytes, encoding: str = "utf-8") -> Path:
    path = folder / "river.csv"
    path.write_bytes(text if isinstance(text, bytes) else text.encode(encoding))
    return path


@pytest.mark.parametrize("encoding", ["utf-8", "latin-1", "cp1252", "utf-16"])
@pytest.mark.parametrize("delimiter", ["auto", ";", "tab"])
def test_decimal_commas_in_every_encoding(tmp_path: Path, encoding: str, delimiter: str) -> None:
    text = ROWS.replace(";", "\t") if delimiter == "tab" else ROWS
    series = _read(_file(tmp_path, text, encoding), encoding=encoding, delimiter=delimiter, decimal="comma")
    np.testing.assert_array_equal(series.value, [1.5, 2.0, 0.25])


def test_utf16_of_either_byte_order(tmp_path: Path) -> None:
    for mark, codec in ((b"\xff\xfe", "utf-16-le"), (b"\xfe\xff", "utf-16-be")):
        series = _read(_file(tmp_path, mark + ROWS.encode(codec)), encoding="utf-16", decimal="comma")
        assert series.value.size == 3


def test_auto_takes_the_delimiter_that_finds_the_columns(tmp_path: Path) -> None:
    """More commas than semicolons in the header, but only semicolons part the wanted names."""
    path = _file(tmp_path, "a,b,c,d;date;flow\nx,y,z,w;2020-01-01;3\n")
    np.testing.assert_array_equal(_read(path).value, [3.0])
    with pytest.raises(InputError, match="no column 'date'"):
        _read(path, delimiter=",")


def test_auto_never_takes_a_comma_beside_decimal_commas(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no column 'date'; the nearest is 'date,flow'"):
        _read(_file(tmp_path, "date,flow\n2020-01-01,1\n"), decimal="comma")


@pytest.mark.parametrize(
    ("form", "words"),
    [
        ({"delimiter": "|"}, "'|' is none of 'auto', ',', ';', 'tab'"),
        ({"decimal": "."}, "none of 'point', 'comma'"),
        ({"encoding": "utf8"}, "none of 'utf-8', 'latin-1', 'cp1252', 'utf-16'"),
        ({"order": "none"}, "none of 'rising', 'any'"),
        ({"delimiter": ",", "decimal": "comma"}, "use ';' or 'tab'"),
    ],
)
def test_forms_that_are_none_are_refused(form: dict[str, str], words: str) -> None:
    with pytest.raises(InputError) as caught:
        CsvForm(**form)  # type: ignore[arg-type]
    assert words in caught.value.message
    assert caught.value.key in form


@pytest.mark.parametrize(
    ("cell", "words"),
    [
        ("1.5", "has a decimal point; a decimal comma is wanted, like '1,5'"),
        ("1.234,5", "a decimal number like '35,2' is wanted"),
        ("1,234,5", "not a number"),
        ("nan", "leave the cell blank"),
        ("1,", None),
        (",5", None),
        ("1e1", None),
    ],
)
def test_numbers_with_decimal_commas(tmp_path: Path, cell: str, words: str | None) -> None:
    path = _file(tmp_path, f"date;flow\n2020-01-01;{cell}\n")
    if words is None:
        assert _read(path, decimal="comma").value[0] == float(cell.replace(",", "."))
        return
    with pytest.raises(InputError) as caught:
        _read(path, decimal="comma")
    assert words in caught.value.message
    assert caught.value.line == 2


@pytest.mark.parametrize(
    ("raw", "form", "line", "words"),
    [
        (
            ROWS.encode("latin-1"),
            {"encoding": "utf-8"},
            1,
            "byte 7 of the line, 0xf6, is not UTF-8; say its encoding",
        ),
        (
            ROWS.encode() + b"2020-01-04;\x81;1\n",
            {"encoding": "cp1252"},
            5,
            "byte 12 of the line, 0x81, is not CP1252",
        ),
        (b"\xef\xbb\xbf" + ROWS.encode(), {"encoding": "cp1252"}, 1, "byte-order mark; say encoding = 'utf-8'"),
        (ROWS.encode("utf-16"), {"encoding": "latin-1"}, 1, "UTF-16 text; save it as UTF-8 or say encoding"),
        (ROWS.encode(), {"encoding": "utf-16"}, 1, "begins no UTF-16 byte-order mark; say encoding = 'utf-8'"),
        (ROWS.encode("utf-16") + b"\x00", {"encoding": "utf-16"}, 5, "byte 1 of the line is not UTF-16"),
        (
            (ROWS + "20").encode("utf-16") + b"\x00\xd8\x00\x00",
            {"encoding": "utf-16"},
            5,
            "byte 5 of the line is not",
        ),
        (b"\xff\xfeab\x00\xdc", {"encoding": "utf-16"}, 1, "byte 5 of the line is not UTF-16"),
        (b"", {"encoding": "utf-16"}, None, "is empty"),
    ],
)
def test_a_wrong_encoding_is_told_with_line_and_byte(
    tmp_path: Path, raw: bytes, form: dict[str, str], line: int | None, words: str
) -> None:
    with pytest.raises(InputError) as caught:
        _read(_file(tmp_path, raw), decimal="comma", **form)
    assert words in caught.value.message
    assert caught.value.line == line


def test_a_fault_far_into_utf16_is_found(tmp_path: Path) -> None:
    """Beyond the first piece that is searched for it."""
    minutes = np.datetime64("2020-01-01T00:00") + np.arange(8000) * np.timedelta64(1, "m")
    rows = "date,flow\n" + "".join(f"{minute},1\n" for minute in minutes.astype(str)) + "ab"
    with pytest.raises(InputError) as caught:
        _read(_file(tmp_path, rows.encode("utf-16") + b"\x00\xdc"), encoding="utf-16")
    assert caught.value.line == 8002
    assert "byte 5 of the line is not UTF-16" in caught.value.message


def test_rows_in_any_order_are_sorted_and_counted(tmp_path: Path) -> None:
    text = "date,flow\n2020-01-03,3\n2020-01-01,1\n2020-01-02,\n2020-01-02,2\n2020-01-03,3\n2020-01-01,1\n"
    series = _read(_file(tmp_path, text), order="any")
    np.testing.assert_array_equal(series.time, START + 86400 * np.arange(3))
    np.testing.assert_array_equal(series.value, [1.0, 2.0, 3.0])
    assert (series.blank, series.repeated, series.backward) == (1, 2, 2)
    rising = _read(_file(tmp_path, "date,flow\n2020-01-01,1\n2020-01-02,1\n"), order="any")
    assert (rising.value.size, rising.repeated, rising.backward) == (2, 0, 0)


def test_one_moment_with_two_values_names_both_lines(tmp_path: Path) -> None:
    text = "date,flow\n2020-01-03,3\n2020-01-01,1\n2020-01-03,4\n"
    with pytest.raises(InputError) as caught:
        _read(_file(tmp_path, text), order="any")
    assert (caught.value.line, caught.value.key) == (4, "date")
    assert "another value for the moment of line 2" in caught.value.message


def test_the_way_out_of_disorder_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="order = 'any'"):
        _read(_file(tmp_path, "date,flow\n2020-01-03,3\n2020-01-01,1\n"))


def test_tables_take_the_same_forms(tmp_path: Path) -> None:
    path = _file(tmp_path, "distance;bed\n0;1,5\n2,5;-1\n", "utf-16")
    table = read_columns(path, {"bed": "m", "distance": "m"}, "t.csv", CsvForm(decimal="comma", encoding="utf-16"))
    np.testing.assert_array_equal(table["bed"], [1.5, -1.0])


@pytest.mark.parametrize("zone", ["Europe/Oslo", "America/Argentina/Ushuaia", "Etc/GMT+3"])
def test_a_named_zone_is_refused_with_reason_and_cure(tmp_path: Path, zone: str) -> None:
    path = _file(tmp_path, "date,flow\n2020-01-03,3\n")
    with pytest.raises(InputError) as caught:
        read_series(
            path, time_column="date", value_column="flow", unit="m3/s", kind="discharge", zone=zone, shown_as="r.csv"
        )
    assert caught.value.key == "zone"
    for words in ("clocks", "comes twice", "fixed offset", "'+01:00'", "its own offset"):
        assert words in caught.value.message
