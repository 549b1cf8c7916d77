"""Reading columns of numbers."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.records.table_csv import read_columns

COLUMNS = {"distance": "m", "bed": "cm"}


def _read(folder: Path, text: str, columns: dict[str, str] = COLUMNS) -> dict[str, np.ndarray]:
    path = folder / "t.csv"
    path.write_text(text, encoding="utf-8")
    return read_columns(path, columns, "t.csv")


def test_columns_come_in_si_and_in_file_order(tmp_path: Path) -> None:
    table = _read(tmp_path, "bed;name;distance\n-50;left;3\n120;right;1.5\n")
    assert list(table) == ["distance", "bed"]
    np.testing.assert_array_equal(table["distance"], [3.0, 1.5])
    np.testing.assert_allclose(table["bed"], [-0.5, 1.2])


def test_shares_in_percent(tmp_path: Path) -> None:
    assert _read(tmp_path, "share\n25\n75\n", {"share": "%"})["share"].sum() == pytest.approx(1.0)


@pytest.mark.parametrize(
    ("text", "line", "key", "words"),
    [
        ("distance,bed\n1,2\n3,\n", 3, "bed", "blank"),
        ("distance,bed\n1,2\nx,1\n", 3, "distance", "'x' is not a number"),
        ("distance,bed\n1,nan\n", 2, "bed", "not a number"),
        ("distance\n1\n", 1, None, "no column 'bed'"),
    ],
)
def test_faults_are_named(tmp_path: Path, text: str, line: int, key: str | None, words: str) -> None:
    with pytest.raises(InputError) as caught:
        _read(tmp_path, text)
    assert (caught.value.file, caught.value.line, caught.value.key) == ("t.csv", line, key)
    assert words in caught.value.message


def test_unknown_units_and_overflow_are_refused(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="not a known unit"):
        _read(tmp_path, "distance\n1\n", {"distance": "furlong"})
    with pytest.raises(InputError, match="too large"):
        _read(tmp_path, "distance\n1e308\n", {"distance": "km"})
