"""One file written whole: the old one stands until the new one does."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from racewright.errors import InputError
from racewright.records.whole_file import write_whole


def test_writes_and_replaces_with_usual_rights(tmp_path: Path) -> None:
    path = tmp_path / "bins.csv"
    write_whole(path, b"old")
    write_whole(path, b"new")
    assert path.read_bytes() == b"new"
    (tmp_path / "other").write_bytes(b"")
    assert path.stat().st_mode == (tmp_path / "other").stat().st_mode
    assert {p.name for p in tmp_path.iterdir()} == {"bins.csv", "other"}


def test_a_failed_write_leaves_the_old_file_and_nothing_else(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "bins.csv"
    write_whole(path, b"old")

    def full(_file: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(InputError, match="no space left"):
        write_whole(path, b"new")
    assert path.read_bytes() == b"old"
    assert [p.name for p in tmp_path.iterdir()] == ["bins.csv"]


@pytest.mark.parametrize(("name", "said"), [("", "is a folder"), ("no/such/bins.csv", "cannot be written")])
def test_says_what_is_wrong(tmp_path: Path, name: str, said: str) -> None:
    with pytest.raises(InputError, match=said):
        write_whole(tmp_path / name, b"")
