"""Write numbered report folders so that a kill leaves the old report or the new one, whole."""

from __future__ import annotations

import fcntl
import os
import re
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from racewright.errors import InputError
from racewright.records.forced import force

KEPT = 5
"""Reports kept in a reports folder; older ones are removed after the new one stands."""

LATEST = "latest"
MARKER = ".racewright-report"
"""File in each report folder; a folder without it is not ours, whatever its name, and is never touched."""

_NUMBERED = re.compile(r"(\d{4,})-.+")


def write_report(root: Path, name: str, files: dict[str, bytes]) -> Path:
    """Write `files` as the next numbered report below `root` and point `latest` at it.

    The files go to `NNNN-name.part`, are forced to disk, the folder is renamed, then `latest` is moved in one
    step. Leftovers of killed runs are swept first. Two processes take turns.

    Parameters
    ----------
    root : Path
        The reports folder; made when it is not there.
    name : str
        Short name of the report, letters, digits, '_' and '-'.
    files : dict
        File name to content.

    Returns
    -------
    Path
        The `latest` link below `root`.

    Raises
    ------
    InputError
        When the folder cannot be written, or holds things that are not reports.
    """
    try:
        root.mkdir(parents=True, exist_ok=True)
        _refuse_foreign(root)
        with _turn(root):
            for rest in root.glob("*.part"):
                if rest.is_symlink():
                    rest.unlink()
                else:
                    _remove(rest)
            final = root / f"{_next_number(root):04d}-{name}"
            part = final.with_name(final.name + ".part")
            part.mkdir()
            _write(part / MARKER, b"Made by racewright; it may remove this folder when newer reports stand.\n")
            for file_name, data in files.items():
                _write(part / file_name, data)
            force(part)
            part.rename(final)
            _point(root, final.name)
            for old in _numbered(root)[:-KEPT]:
                _remove(old.rename(old.with_name(old.name + ".part")))
    except OSError as fault:
        message = f"cannot be written ({(fault.strerror or str(fault)).lower()}); name a writable folder with --out"
        raise InputError(message, file=str(root)) from None
    return root / LATEST


def _refuse_foreign(root: Path) -> None:
    """A reports folder holds reports only: nothing of the user's is ever swept."""
    for item in root.iterdir():
        if not _ours(item):
            message = f"holds '{item.name}', which is not a report; name an empty or new folder with --out"
            raise InputError(message, file=str(root))


def _ours(item: Path) -> bool:
    """The lock, the link, a report, or what a killed run left (an empty part folder is one)."""
    if item.name == ".lock":
        return item.is_file()
    if item.is_symlink():
        return item.name == LATEST or item.name.endswith(".part")
    if not _NUMBERED.fullmatch(item.name) or not item.is_dir():
        return False
    return (item / MARKER).is_file() or not any(item.iterdir())


def _remove(folder: Path) -> None:
    """Remove a report, its marker last, so that a kill on the way leaves it known as ours."""
    for file in sorted(folder.iterdir(), key=lambda p: p.name == MARKER):
        file.unlink()
    folder.rmdir()


def _numbered(root: Path) -> list[Path]:
    """Finished reports, oldest first."""
    found = [(int(m[1]), p) for p in root.iterdir() if (m := _NUMBERED.fullmatch(p.name)) and p.is_dir()]
    return [p for _number, p in sorted(found)]


def _next_number(root: Path) -> int:
    found = _numbered(root)
    return int(found[-1].name.split("-")[0]) + 1 if found else 1


@contextmanager
def _turn(root: Path) -> Iterator[None]:
    """Wait for other writers of the same folder."""
    with (root / ".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield


def _point(root: Path, name: str) -> None:
    link = root / f"{name}.part"
    link.unlink(missing_ok=True)
    link.symlink_to(name)
    link.replace(root / LATEST)
    force(root)


def _write(path: Path, data: bytes) -> None:
    with path.open("wb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())
