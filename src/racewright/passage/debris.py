"""Classes of debris: packaged, editable."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any

from racewright.door import within
from racewright.errors import InputError

_SIZES = ("length", "width", "thickness")


@dataclass(frozen=True, slots=True)
class DebrisClass:
    """One class of debris; sizes are (smallest, largest) piece.

    Attributes
    ----------
    name, title : str
    flexible : bool
        True for what wraps.
    length, width, thickness : tuple of float
        Length >= width >= thickness of each piece [m].
    friction : float
        On a wet edge; used for flexible pieces [-].
    status, edition : str
    replaces : str
        What an edited class stood at before, '' when packaged.
    """

    name: str
    title: str
    flexible: bool
    length: tuple[float, float]
    width: tuple[float, float]
    thickness: tuple[float, float]
    friction: float
    status: str
    edition: str
    replaces: str


def debris_classes(edits: Mapping[str, Mapping[str, Any]] | None = None) -> Mapping[str, DebrisClass]:
    """The table by name, with the user's edits laid over it.

    Parameters
    ----------
    edits : mapping of mappings, optional
        By name: fields to change with `source`, who says so; a size is one number or smallest, largest [m]. A new
        name wants `title`, `flexible`, `length`, `width`, `thickness`.

    Raises
    ------
    InputError
        An unknown or lacking field, sizes that are no piece, no source.
    """
    table = {name: _class(name, row, row["status"], "") for name, row in _rows().items()}
    for name, edit in (edits or {}).items():
        table[name] = _edited(name, edit)
    return MappingProxyType(table)


def debris_class(name: str, table: Mapping[str, DebrisClass] | None = None) -> DebrisClass:
    """The class of that name; InputError with the names there are."""
    rows = debris_classes() if table is None else table
    if name not in rows:
        raise InputError(f"no class of debris is called '{name}'; there are {', '.join(rows)}")
    return rows[name]


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads(resources.files("racewright.passage").joinpath("data/debris.toml").read_text("utf-8"))


def _rows() -> dict[str, dict[str, Any]]:
    return {name: row for name, row in _data().items() if isinstance(row, dict)}


def _edited(name: str, edit: Mapping[str, Any]) -> DebrisClass:
    source = edit.get("source")
    if not (isinstance(source, str) and source.strip()):
        raise InputError(f"the edited debris '{name}' has no source; say who states it, e.g. 'rake of May 2031'")
    fields = ("title", "flexible", "friction", *_SIZES)
    unknown = [key for key in edit if key not in (*fields, "source")]
    if unknown:
        raise InputError(f"the edited debris '{name}' has no field '{unknown[0]}'; it takes {', '.join(fields)}")
    before = _rows().get(name)
    row = {**(before or {}), **edit}
    lacking = [key for key in ("title", "flexible", *_SIZES) if key not in row]
    if lacking:
        raise InputError(f"the new debris '{name}' lacks {', '.join(lacking)}")
    told = "" if before is None else ", ".join(f"{key} {before[key]}" for key in edit if key in before)
    return _class(name, row, f"user's own: {source}", told)


def _class(name: str, row: Mapping[str, Any], status: str, replaces: str) -> DebrisClass:
    sizes = {}
    for key in _SIZES:
        ends = row[key] if isinstance(row[key], list | tuple) else (row[key], row[key])
        if len(ends) != 2:
            raise InputError(f"{key} of the debris '{name}' wants one number or smallest, largest in m")
        sizes[key] = (
            within(key, float(ends[0]), 1e-5, 50.0, "m", 0.1),
            within(key, float(ends[1]), 1e-5, 50.0, "m", 0.1),
        )
    for i in (0, 1):
        if not sizes["length"][i] >= sizes["width"][i] >= sizes["thickness"][i]:
            raise InputError(f"the debris '{name}' wants length >= width >= thickness")
    for key, (low, high) in sizes.items():
        if low > high:
            raise InputError(f"{key} of the debris '{name}': smallest {low:g} m is above largest {high:g} m")
    friction = within("friction", float(row.get("friction", _data()["friction"])), 0.0, 3.0, "", 0.3)
    return DebrisClass(
        name, row["title"], bool(row["flexible"]), sizes["length"], sizes["width"], sizes["thickness"], friction,
        status, _data()["edition"], replaces,
    )  # fmt: skip
