"""Records by the ending of their file, and the check that loads no numerical library."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from racewright.errors import InputError
from racewright.place.result import Series
from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.parquet_file import check_parquet
from racewright.records.series import read_any_series
from racewright.records.series_check import check_series
from tests.records.parquet_files import DAYS, FLOW, write

TEXT = "date,flow\n2020-01-01,10\n2020-01-02,11.5\n"


def _read(path: Path, form: CsvForm = PLAIN) -> Series:
    return read_any_series(
        path,
        time_column="date",
        value_column="flow",
        unit="m3/s",
        kind="discharge",
        zone="UTC",
        shown_as=path.name,
        form=form,
    )


def _check(path: Path, form: CsvForm = PLAIN) -> int | None:
    values = check_series(path, ("date", "flow"), "m3/s", "discharge", "UTC", path.name, form)
    return None if values is None else len(values)


@pytest.mark.parametrize("name", ["a.csv", "a.CSV", "a.txt", "a.tsv"])
def test_text_by_its_ending(tmp_path: Path, name: str) -> None:
    path = tmp_path / name
    path.write_text(TEXT)
    assert _read(path).value.size == 2
    assert _check(path) == 2


def test_parquet_by_its_ending(tmp_path: Path) -> None:
    path = write(tmp_path, DAYS, FLOW)
    assert _read(path).value.size == 4
    assert _check(path) is None
    upper = path.rename(tmp_path / "RIVER.PARQUET")
    assert _read(upper, CsvForm(order="any")).value.size == 4


@pytest.mark.parametrize(("name", "found"), [("a.xlsx", "ends in '.xlsx'"), ("a", "has no ending")])
def test_other_endings_are_refused(tmp_path: Path, name: str, found: str) -> None:
    for use in (_read, _check):
        with pytest.raises(InputError, match=f"{found}; records are read from .csv, .txt, .tsv and .parquet"):
            use(tmp_path / name)


def test_a_text_form_for_parquet_is_refused(tmp_path: Path) -> None:
    path = write(tmp_path, DAYS, FLOW)
    for use in (_read, _check):
        with pytest.raises(InputError, match="for CSV files") as caught:
            use(path, CsvForm(decimal="comma"))
        assert caught.value.key == "decimal"


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"", "is empty"),
        (TEXT.encode(), "is not a Parquet file: it does not begin with 'PAR1'"),
        (b"PAR1", "only part of a Parquet file"),
        (b"PAR1PAR1", "only part of a Parquet file"),
        (b"PAR1\xff\x00\x00\x00PAR1", "only part of a Parquet file"),
        (b"PAR1" + b"\x00" * 40, "only part of a Parquet file"),
        (b"PARE" + b"\x00" * 40, "encrypted"),
        (b"PAR1" + b"\x00" * 40 + b"PARE", "encrypted"),
        (b"PAR1\x00\x00\x00\x00PAR1", None),
    ],
)
def test_what_is_no_whole_parquet_file(tmp_path: Path, raw: bytes, words: str | None) -> None:
    """The last of these passes the check of its ends, and is refused by the reader."""
    path = tmp_path / "r.parquet"
    path.write_bytes(raw)
    if words is None:
        check_parquet(path, "r.parquet")
        words = "is damaged: it cannot be read as Parquet"
    else:
        with pytest.raises(InputError, match=words):
            check_parquet(path, "r.parquet")
    with pytest.raises(InputError, match=words):
        _read(path)


def test_what_is_no_parquet_file_at_all(tmp_path: Path) -> None:
    with pytest.raises(InputError, match="no such file"):
        check_parquet(tmp_path / "nowhere.parquet", "r.parquet")
    with pytest.raises(InputError, match="is a directory; a Parquet file is wanted"):
        check_parquet(tmp_path, "r.parquet")


def test_the_check_loads_no_numerical_library(tmp_path: Path) -> None:
    write(tmp_path, DAYS, FLOW)
    (tmp_path / "river.csv").write_text(TEXT)
    code = (
        "import sys; from pathlib import Path; from racewright.records.series_check import check_series\n"
        "for name in ('river.csv', 'river.parquet'):\n"
        "    check_series(Path(name), ('date', 'flow'), 'm3/s', 'discharge', 'UTC', name)\n"
        "print(*sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=tmp_path)
    assert not {"numpy", "pyarrow", "scipy"} & set(done.stdout.split())


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that every account may enter; the usual one of a test is private."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        folder.chmod(0o755)
        (folder / "shut").mkdir()
        yield folder
        (folder / "shut").chmod(0o755)


AS_ORDINARY_USER = """
import os, sys
from pathlib import Path
from racewright.errors import InputError
from racewright.records import series_parquet
from racewright.records.series import read_any_series
from racewright.records.series_check import check_series
common = dict(time_column="date", value_column="flow", unit="m3/s", kind="discharge", zone="UTC")
for name in sys.argv[1], sys.argv[4]:  # load every module before giving up the right to read them
    read_any_series(Path(name), shown_as="river", **common)
if os.geteuid() == 0:
    os.setgroups([]); os.setgid(65534); os.setuid(65534)
for name in sys.argv[1:]:
    for use in (
        lambda: read_any_series(Path(name), shown_as="river", **common),
        lambda: check_series(Path(name), ("date", "flow"), "m3/s", "discharge", "UTC", "river"),
    ):
        try:
            use()
            print("read")
        except InputError as fault:
            print(fault)
"""


def test_files_that_an_ordinary_user_may_not_read(open_folder: Path) -> None:
    """Two readers on each of: readable, unreadable and unreachable text; readable, unreadable Parquet."""
    shut = open_folder / "shut"
    paths = [open_folder / "a.csv", open_folder / "b.csv", shut / "c.csv"]
    for path in paths:
        path.write_text(TEXT)
        path.chmod(0o644)
    paths += [write(open_folder, DAYS, FLOW), open_folder / "d.parquet"]
    paths[3].chmod(0o644)
    paths[4].write_bytes(paths[3].read_bytes())
    paths[1].chmod(0)
    paths[4].chmod(0)
    shut.chmod(0)
    done = subprocess.run(
        [sys.executable, "-c", AS_ORDINARY_USER, *map(str, paths)], capture_output=True, text=True, check=False
    )
    assert done.stderr == ""
    refused = "river: cannot be read: Permission denied"
    assert done.stdout.splitlines() == ["read"] * 2 + [refused] * 4 + ["read"] * 2 + [refused] * 2
