"""A folder written in one step; what the user put there is never replaced."""

from __future__ import annotations

import contextlib
import json
import os
from pathlib import Path

import pytest

from racewright.errors import InputError
from racewright.records import own_folder
from racewright.records.own_folder import check_folder, write_folder

FILES = {"b.stl": b"two", "a.csv": b"one"}


def write(folder: Path, files: dict[str, bytes] = FILES) -> list[str]:
    return write_folder(folder, files, "racewright test", {"scale": 1.0})


def test_it_says_who_wrote_it_and_is_replaced_by_the_same_maker(tmp_path: Path) -> None:
    folder = tmp_path / "deep" / "parts"
    assert write(folder) == ["a.csv", "b.stl", "contents.json"]
    about = json.loads((folder / "contents.json").read_text("utf-8"))
    assert about["made_by"] == "racewright test"
    assert set(about["files"]) == {"a.csv", "b.stl"}
    first = {p.name: p.read_bytes() for p in folder.iterdir()}
    write(folder)
    assert {p.name: p.read_bytes() for p in folder.iterdir()} == first
    write(folder, {"c.glb": b"three"})
    assert sorted(p.name for p in folder.iterdir()) == ["c.glb", "contents.json"]
    assert [p.name for p in folder.parent.iterdir()] == ["parts"]


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda f: (f / "notes.txt").write_text("mine"), "holds 'notes.txt'"),
        (lambda f: (f / "b.stl").write_bytes(b"sculpted"), "holds 'b.stl', changed"),
        (lambda f: (f / "contents.json").write_text("{}"), "holds 'a.csv'"),
        (lambda f: (f / "contents.json").unlink(), "holds 'a.csv'"),
    ],
)
def test_what_is_not_ours_stays(tmp_path: Path, spoil: object, said: str) -> None:
    folder = tmp_path / "parts"
    write(folder)
    spoil(folder)  # type: ignore[operator]
    before = {p.name: p.read_bytes() for p in folder.iterdir()}
    with pytest.raises(InputError, match=said):
        write(folder)
    assert {p.name: p.read_bytes() for p in folder.iterdir()} == before


def test_another_maker_a_file_and_a_link_are_refused(tmp_path: Path) -> None:
    folder = tmp_path / "parts"
    write(folder)
    with pytest.raises(InputError, match="was not written here"):
        check_folder(folder, "racewright other")
    (tmp_path / "file").write_text("x")
    with pytest.raises(InputError, match="is no folder"):
        check_folder(tmp_path / "file", "racewright test")
    (tmp_path / "link").symlink_to(folder)
    with pytest.raises(InputError, match="is no folder"):
        check_folder(tmp_path / "link", "racewright test")
    with pytest.raises(InputError, match="cannot be written"):
        check_folder(tmp_path / "file" / "parts", "racewright test")


def test_an_empty_folder_is_taken(tmp_path: Path) -> None:
    (tmp_path / "parts").mkdir()
    write(tmp_path / "parts")
    assert (tmp_path / "parts" / "b.stl").read_bytes() == b"two"


@pytest.mark.parametrize("at", range(6))
def test_a_kill_at_any_step_leaves_the_old_or_the_new(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, at: int
) -> None:
    """Steps: each forced write, then the renames; what stands is whole, and the next run completes."""
    folder = tmp_path / "parts"
    write(folder)
    steps = iter(range(100))

    class Killed(BaseException):
        pass

    def counted(real: object) -> object:
        def step(*args: object) -> object:
            if next(steps) == at:
                raise Killed
            return real(*args)  # type: ignore[operator]

        return step

    with monkeypatch.context() as patch:
        patch.setattr(own_folder.os, "fsync", counted(os.fsync))
        patch.setattr(Path, "rename", counted(Path.rename))
        with contextlib.suppress(Killed):
            write(folder, {"b.stl": b"new", "a.csv": b"new"})
    standing = folder if folder.exists() else folder.with_name("parts.before")
    held = {p.name: p.read_bytes() for p in standing.iterdir() if p.name != "contents.json"}
    assert held in (FILES, {"b.stl": b"new", "a.csv": b"new"})
    write(folder, {"c.glb": b"three"})
    assert [p.name for p in tmp_path.iterdir()] == ["parts"]
