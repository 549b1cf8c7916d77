"""Data files named in a scheme lie inside its folder."""

from __future__ import annotations

from pathlib import Path

from racewright.errors import InputError


def inside(folder: Path, name: str) -> Path:
    """The path of a data file, refused when it leaves the scheme's folder.

    Raises
    ------
    InputError
        For an absolute path, one that climbs out, or one with a NUL character.
    """
    if "\0" in name:
        raise InputError("a file name cannot hold a NUL character")
    path = folder / name
    if not path.resolve().is_relative_to(folder.resolve()):
        raise InputError(f"{name!r} lies outside the scheme's folder; put the file beside the scheme")
    return path
