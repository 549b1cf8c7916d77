"""Report folders: whole, numbered, kept few, nothing foreign swept."""

from __future__ import annotations

from pathlib import Path

import pytest

from racewright.errors import InputError
from racewright.records import reports
from racewright.records.reports import KEPT, write_report


def test_latest_points_at_the_newest_and_few_are_kept(tmp_path: Path) -> None:
    root = tmp_path / "reports"
    for turn in range(KEPT + 3):
        latest = write_report(root, "a", {"x.txt": str(turn).encode()})
    assert (latest / "x.txt").read_text() == str(KEPT + 2)
    assert len([p for p in root.iterdir() if p.is_dir() and not p.is_symlink()]) == KEPT


def test_foreign_content_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "holiday.jpg").write_bytes(b"x")
    with pytest.raises(InputError, match=r"holiday\.jpg"):
        write_report(tmp_path, "a", {"x.txt": b""})
    assert [p.name for p in tmp_path.iterdir()] == ["holiday.jpg"]


def test_a_failure_while_writing_leaves_the_old_report(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    root = tmp_path / "reports"
    write_report(root, "a", {"x.txt": b"old"})

    def fail(path: Path, data: bytes) -> None:
        path.write_bytes(data[:1])
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(reports, "_write", fail)
    with pytest.raises(InputError, match="no space left"):
        write_report(root, "a", {"x.txt": b"new"})
    assert (root / "latest" / "x.txt").read_bytes() == b"old"
    monkeypatch.undo()
    write_report(root, "a", {"x.txt": b"newer"})
    assert (root / "latest" / "x.txt").read_bytes() == b"newer"
    assert not list(root.glob("*.part"))


def test_an_unwritable_place_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(InputError, match="cannot be written"):
        write_report(tmp_path / "file" / "reports", "a", {})


@pytest.mark.parametrize("name", ["2024-photos", "0002-mine", "9000-x.part", "latest"])
def test_a_folder_of_the_users_that_looks_like_a_report_is_refused_and_stays(tmp_path: Path, name: str) -> None:
    (tmp_path / name).mkdir()
    (tmp_path / name / "holiday.jpg").write_bytes(b"x")
    with pytest.raises(InputError, match=name):
        write_report(tmp_path, "a", {"x.txt": b""})
    assert (tmp_path / name / "holiday.jpg").read_bytes() == b"x"
    assert sorted(p.name for p in tmp_path.iterdir()) == [name]
