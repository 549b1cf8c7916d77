"""Write a whole folder in one step, and replace one only when it holds nothing but what was written here."""

from __future__ import annotations

import hashlib
import json
import os
from pathlib import Path
from typing import Any

from racewright.errors import InputError
from racewright.records.forced import force

CONTENTS = "contents.json"
"""File in the folder that says who wrote it, and the SHA-256 of every other file."""


def check_folder(folder: Path, maker: str) -> None:
    """Refuse a place that cannot be written, and a folder that holds anything else or anything changed.

    Parameters
    ----------
    folder : Path
        May be there or not.
    maker : str
        The command that writes it, as in its contents.

    Raises
    ------
    InputError
    """
    try:
        _free(folder, maker)
        _free(_before(folder), maker)
        above = folder.absolute().parent
        while not above.exists():
            above = above.parent
        if not above.is_dir() or not os.access(above, os.W_OK):
            raise InputError("cannot be written; name a folder in a writable place", file=str(folder))
    except OSError as fault:
        raise _fault(folder, fault) from None


def write_folder(folder: Path, files: dict[str, bytes], maker: str, about: dict[str, Any]) -> list[str]:
    """Write the files and their contents list; a kill leaves the old folder or the new one, whole.

    The files go to a hidden folder beside it, are forced to disk, and take the folder's name by renaming. An older
    one of the same maker stands aside as 'NAME.before' until then.

    Parameters
    ----------
    folder : Path
    files : dict
        File name to content.
    maker : str
        The command that writes it.
    about : dict
        What else the contents say; strict JSON.

    Returns
    -------
    list of str
        Names of all files, in order.

    Raises
    ------
    InputError
        As `check_folder`.
    """
    check_folder(folder, maker)
    folder = folder.absolute()
    part, before = folder.with_name(f".{folder.name}.part"), _before(folder)
    digests = {name: hashlib.sha256(content).hexdigest() for name, content in sorted(files.items())}
    contents = json.dumps({"made_by": maker, **about, "files": digests}, indent=1, allow_nan=False) + "\n"
    try:
        if part.exists():
            _free(part, maker, unfinished=True)
            _remove(part)
        part.mkdir(parents=True)
        _write(part / CONTENTS, contents.encode())
        for name, content in files.items():
            _write(part / name, content)
        force(part)
        if folder.exists():
            if before.exists():
                _remove(before)
            folder.rename(before)
        part.rename(folder)
        force(folder.parent)
        if before.exists():
            _remove(before)
    except OSError as fault:
        raise _fault(folder, fault) from None
    return sorted([CONTENTS, *files])


def _before(folder: Path) -> Path:
    folder = folder.absolute()
    return folder.with_name(f"{folder.name}.before")


def _free(folder: Path, maker: str, *, unfinished: bool = False) -> None:
    """Nothing is there, an empty folder, or one that `maker` wrote and nobody changed since."""
    shown = str(folder)
    if not folder.is_symlink() and not folder.exists():
        return
    if folder.is_symlink() or not folder.is_dir():
        raise InputError("is there and is no folder; name a new one", file=shown)
    names = {item.name for item in folder.iterdir()}
    if not names:
        return
    known = _known(folder / CONTENTS, maker)
    strange = sorted(names - {CONTENTS} - set(known))
    if CONTENTS not in names or strange:
        found = strange[0] if strange else sorted(names)[0]
        raise InputError(f"holds '{found}', which was not written here; name a new or empty folder", file=shown)
    for name in [] if unfinished else sorted(names - {CONTENTS}):
        if hashlib.sha256((folder / name).read_bytes()).hexdigest() != known[name]:
            raise InputError(f"holds '{name}', changed since it was written; name a new folder", file=shown)


def _known(path: Path, maker: str) -> dict[str, str]:
    try:
        found = json.loads(path.read_text("utf-8"))
        if found["made_by"] != maker:
            return {}
        return {str(name): str(digest) for name, digest in found["files"].items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


def _remove(folder: Path) -> None:
    """Remove a folder of ours, its contents list last, so that a kill on the way leaves it known as ours."""
    for item in sorted(folder.iterdir(), key=lambda one: one.name == CONTENTS):
        item.unlink()
    folder.rmdir()


def _write(path: Path, content: bytes) -> None:
    with path.open("wb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def _fault(folder: Path, fault: OSError) -> InputError:
    return InputError(
        f"cannot be written ({(fault.strerror or str(fault)).lower()}); name a folder in a writable place",
        file=str(folder),
    )
