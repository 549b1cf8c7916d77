"""Classes of fish: packaged, editable, each with its source."""

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
from racewright.passage.dose import PressureResponse, ShearResponse, pressure_response, shear_response
from racewright.passage.strike_chance import LONGEST
from racewright.safety import SafetyBasis, safety_basis

_FIELDS = (
    "title", "length", "width_share", "height_share", "strikes_on", "borrowed", "pressure", "shear",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class FishClass:
    """One class of fish.

    Attributes
    ----------
    name, title : str
    shortest, longest : float
        Lengths that the class is meant for [m].
    width_share, height_share : float
        Widest and highest of the body over its length [-].
    strikes_on : str
        Fish of the laboratory strikes.
    borrowed : bool
        True where those are of another class.
    pressure : PressureResponse or None
        None where no response is known.
    shear : ShearResponse or None
    replaces : str
        What an edited class stood at before, '' when packaged.
    safety : SafetyBasis
    """

    name: str
    title: str
    shortest: float
    longest: float
    width_share: float
    height_share: float
    strikes_on: str
    borrowed: bool
    pressure: PressureResponse | None
    shear: ShearResponse | None
    replaces: str
    safety: SafetyBasis

    @property
    def girth_share(self) -> float:
        """The larger of width and height over length: the body may lie either way to the edge [-]."""
        return max(self.width_share, self.height_share)


def fish_classes(edits: Mapping[str, Mapping[str, Any]] | None = None) -> Mapping[str, FishClass]:
    """The table by name, with the user's edits laid over it.

    Parameters
    ----------
    edits : mapping of mappings, optional
        By name: fields to change with `source`, who says so. `pressure` and `shear` are replaced whole and want their
        own `source` and `status`. A new name wants `title`, `length`, `width_share`, `height_share`.

    Raises
    ------
    InputError
        An unknown or lacking field, a number out of range, no source.
    """
    table = {name: _fish(name, row, row["status"], "") for name, row in _rows().items()}
    for name, edit in (edits or {}).items():
        table[name] = _edited(name, edit)
    return MappingProxyType(table)


def fish_class(name: str, table: Mapping[str, FishClass] | None = None) -> FishClass:
    """The class of that name; InputError with the names there are."""
    rows = fish_classes() if table is None else table
    if name not in rows:
        raise InputError(f"no class of fish is called '{name}'; there are {', '.join(rows)}")
    return rows[name]


def strain_width() -> float:
    """Width over which the laboratory series takes its strain rate [m]."""
    return float(_data()["strain_width"])


def strain_source() -> str:
    """Where that width comes from."""
    return str(_data()["strain_source"])


@cache
def _data() -> dict[str, Any]:
    return tomllib.loads(resources.files("racewright.passage").joinpath("data/fish.toml").read_text("utf-8"))


def _rows() -> dict[str, dict[str, Any]]:
    return {name: row for name, row in _data().items() if isinstance(row, dict)}


def _edited(name: str, edit: Mapping[str, Any]) -> FishClass:
    source = edit.get("source")
    if not (isinstance(source, str) and source.strip()):
        raise InputError(f"the edited fish '{name}' has no source; say who states it, e.g. 'catch of spring 2031'")
    unknown = [key for key in edit if key not in (*_FIELDS, "source")]
    if unknown:
        raise InputError(f"the edited fish '{name}' has no field '{unknown[0]}'; it takes {', '.join(_FIELDS)}")
    before = _rows().get(name)
    row = {**(before or {"strikes_on": "rainbow trout", "borrowed": True}), **edit}
    lacking = [key for key in ("title", "length", "width_share", "height_share") if key not in row]
    if lacking:
        raise InputError(f"the new fish '{name}' lacks {', '.join(lacking)}")
    told = "" if before is None else ", ".join(f"{k} {before[k]}" for k in edit if k in before)
    return _fish(name, row, f"user's own: {source}", told)


def _fish(name: str, row: Mapping[str, Any], status: str, replaces: str) -> FishClass:
    lengths = row["length"]
    if not (isinstance(lengths, list | tuple) and len(lengths) == 2):
        raise InputError(f"length of the fish '{name}' is {lengths!r}; wanted shortest and longest in m")
    shortest, longest = (within("length", float(end), 1e-4, LONGEST, "m", 0.2) for end in lengths)
    if shortest > longest:
        raise InputError(f"length of the fish '{name}': {shortest:g} m is above {longest:g} m")
    for key in ("pressure", "shear"):
        part = row.get(key)
        if part is not None and not (isinstance(part, Mapping) and part.get("source") and part.get("status")):
            raise InputError(f"{key} of the fish '{name}' wants a table with its own source and status")
    parts = [f"{key}: {row[key]['source']} ({row[key]['status']})" for key in ("pressure", "shear") if row.get(key)]
    basis = "; ".join([row["title"], f"strikes on {row['strikes_on']}", *parts])
    if replaces:
        basis = f"{basis}; in place of {replaces}"
    return FishClass(
        name=name,
        title=row["title"],
        shortest=shortest,
        longest=longest,
        width_share=within("width_share", float(row["width_share"]), 0.001, 1.0, "", 0.1),
        height_share=within("height_share", float(row["height_share"]), 0.001, 1.0, "", 0.2),
        strikes_on=row["strikes_on"],
        borrowed=bool(row["borrowed"]),
        pressure=pressure_response(name, row["pressure"]) if row.get("pressure") else None,
        shear=shear_response(name, row["shear"]) if row.get("shear") else None,
        replaces=replaces,
        safety=safety_basis("fish", basis, _data()["edition"], status),
    )
