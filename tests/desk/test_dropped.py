"""Dropped files: kind by ending and bytes, names of the desk's own, nothing replaced."""

from __future__ import annotations

from pathlib import Path

import pytest

from racewright.desk.parts.dropped import ending_of, free_name, keep, part_in
from racewright.errors import InputError


@pytest.mark.parametrize(
    ("name", "head", "ending"),
    [("a.CSV", b"time,x\n", ".csv"), ("b.parquet", b"PAR1..", ".parquet"), ("c.tdms", b"TDSm..", ".tdms"),
     ("d.txt", b"\xff\xfet\0i\0", ".txt")],
)  # fmt: skip
def test_logger_files_are_taken(name: str, head: bytes, ending: str) -> None:
    assert ending_of(name, head) == ending


@pytest.mark.parametrize(
    ("name", "head", "said"),
    [("a.exe", b"MZ", "ends in"), ("noending", b"x", "ends in"), ("a.csv", b"", "empty"),
     ("a.csv", b"MZ\0\0", "no text"), ("a.parquet", b"time,x", "first bytes"), ("a.csv.svg", b"<svg", "ends in")],
)  # fmt: skip
def test_others_are_refused(name: str, head: bytes, said: str) -> None:
    with pytest.raises(InputError, match=said):
        ending_of(name, head)


@pytest.mark.parametrize(
    "dropped",
    ["../../etc/passwd.csv", "..\\..\\x.csv", "/abs/olute.csv", ".csv", "a\0b.csv", "run;rm -rf.csv", "ü" * 300],
)
def test_a_name_never_leaves_the_folder(dropped: str, tmp_path: Path) -> None:
    run = free_name(dropped, ())
    part = part_in(tmp_path)
    part.write_bytes(b"time\n1\n")
    kept = keep(part, run, ".csv")
    assert [p.name for p in tmp_path.iterdir()] == [kept]
    assert kept.isascii()
    assert len(kept) < 60


def test_a_taken_name_is_numbered_and_a_file_never_replaced(tmp_path: Path) -> None:
    assert free_name("loads.csv", {"loads", "loads_2"}) == "loads_3"
    (tmp_path / "run_loads.csv").write_text("mine")
    part = part_in(tmp_path)
    with pytest.raises(InputError, match="already"):
        keep(part, "loads", ".csv")
    assert (tmp_path / "run_loads.csv").read_text() == "mine"
    assert not part.exists()
