"""Safety factors by limit state from named standards: packaged, editable, each with its source."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import resources
from types import MappingProxyType
from typing import Any, Literal, get_args

from racewright.errors import InputError, NoAnswerError
from racewright.safety import SafetyBasis, safety_basis

Group = Literal["line", "anchor", "load", "material", "fatigue"]
LimitState = Literal["any", "intact", "one line lost", "ultimate", "accidental", "fatigue", "serviceability"]

_HAZARD = {
    "line": "line_under_tension",
    "anchor": "anchors",
    "load": "structure",
    "material": "structure",
    "fatigue": "fatigue",
}
_RANGES = {"factor": (0.5, 20.0), "dynamic_factor": (0.5, 20.0), "share": (0.05, 1.0)}
_TEXTS = ("standard", "edition", "group", "item", "limit_state", "analysis", "conditions", "status")


@dataclass(frozen=True, slots=True)
class SafetyFactor:
    """One row of the table.

    Attributes
    ----------
    key : str
        Name of the row, such as 'iso_intact_dynamic'.
    standard, item : str
        Who asks for it, and of what.
    group : {'line', 'anchor', 'load', 'material', 'fatigue'}
    limit_state : str
        'any'; 'intact' and 'one line lost' for moorings; 'ultimate', 'accidental', 'fatigue', 'serviceability' for
        structures.
    analysis : str
        'quasi-static', 'dynamic' or 'any': the analysis that the loads must come from.
    factor : float or None
        On the load, or on its mean part when `dynamic_factor` is given; None when the standard gives none [-].
    dynamic_factor : float or None
        On the load's dynamic part [-].
    share : float
        Share of the strength that counts [-].
    practice_range : tuple of float
        Lowest and highest factor of practice, () where there is one only; `factor` is the severe end [-].
    conditions : str
        What the factor stands on.
    replaces : str
        What an edited row stood at before, '' when packaged.
    safety : SafetyBasis
        Standard, edition, status and caution.
    """

    key: str
    standard: str
    item: str
    group: Group
    limit_state: LimitState
    analysis: str
    factor: float | None
    dynamic_factor: float | None
    share: float
    practice_range: tuple[float, ...]
    conditions: str
    replaces: str
    safety: SafetyBasis

    def single(self) -> float:
        """The factor on the whole load.

        Raises
        ------
        NoAnswerError
            The standard gives none, or the row asks for mean and dynamic parts.
        """
        if self.factor is None:
            raise NoAnswerError(
                f"{self.standard} gives no factor for {self.item} ({self.conditions}); state one of your own"
            )
        if self.dynamic_factor is not None:
            raise NoAnswerError(
                f"'{self.key}' has one factor on the mean and another on the dynamic part of a load; wanted is a row "
                "with one factor"
            )
        return self.factor


def safety_factors(edits: Mapping[str, Mapping[str, Any]] | None = None) -> Mapping[str, SafetyFactor]:
    """The table by key, with the user's edits laid over it.

    Parameters
    ----------
    edits : mapping of mappings, optional
        By key: the fields to change (`factor`, `dynamic_factor`, `share`, the texts) with `source`, who says so. A
        key that the table has not is a new row and wants `standard`, `item`, `group`, `limit_state` and `factor`.

    Raises
    ------
    InputError
        An unknown field, a factor that is not a number from 0.5 to 20, no source, a new row that lacks a field.
    """
    table = dict(_packaged())
    for key, edit in (edits or {}).items():
        table[key] = _edited(key, edit)
    return MappingProxyType(table)


def safety_factor(key: str, table: Mapping[str, SafetyFactor] | None = None) -> SafetyFactor:
    """The row of that key; InputError with the names of its neighbours when there is none."""
    rows = table if table is not None else _packaged()
    if key not in rows:
        raise InputError(f"no safety factor is called '{key}'; there are {', '.join(rows)}")
    return rows[key]


@cache
def _packaged() -> Mapping[str, SafetyFactor]:
    data = _rows()
    return MappingProxyType({key: _row(key, row, row["status"], "") for key, row in data.items()})


@cache
def _rows() -> dict[str, dict[str, Any]]:
    data = tomllib.loads(resources.files("racewright").joinpath("safety_factors.toml").read_text("utf-8"))
    data.pop("edition")
    return data


def _edited(key: str, edit: Mapping[str, Any]) -> SafetyFactor:
    source = edit.get("source")
    if not (isinstance(source, str) and source.strip()):
        raise InputError(f"the edited safety factor '{key}' has no source; say who asks for it, e.g. 'class society'")
    unknown = [name for name in edit if name not in (*_TEXTS, *_RANGES, "source")]
    if unknown:
        raise InputError(
            f"the edited safety factor '{key}' has no field '{unknown[0]}'; it takes {', '.join(_RANGES)}"
        )
    before = _rows().get(key)
    if before is None:
        lacking = [name for name in ("standard", "item", "group", "limit_state", "factor") if name not in edit]
        if lacking:
            raise InputError(f"the new safety factor '{key}' lacks {', '.join(lacking)}")
    row = {**(before or {"analysis": "any", "edition": "stated by the user", "conditions": ""}), **edit}
    if before is not None and "factor" in edit:
        row.pop("range", None)
    for name, (low, high) in _RANGES.items():
        value = row.get(name)
        if value is not None and not (
            not isinstance(value, bool)
            and isinstance(value, int | float)
            and math.isfinite(value)
            and low <= value <= high
        ):
            raise InputError(
                f"{name} of the safety factor '{key}' is {value!r}; wanted a number from {low} to {high}"
            )
    if row["group"] not in get_args(Group) or row["limit_state"] not in get_args(LimitState):
        raise InputError(
            f"the safety factor '{key}' wants a group of {', '.join(get_args(Group))} and a limit state of "
            f"{', '.join(get_args(LimitState))}"
        )
    return _row(key, row, f"user's own: {source}", "" if before is None else _told(before))


def _told(row: Mapping[str, Any]) -> str:
    parts = [f"{name} {row[name]:g}" for name in _RANGES if name in row]
    return f"{', '.join(parts) or 'no factor'} ({row['standard']}, {row['edition']})"


def _row(key: str, row: Mapping[str, Any], status: str, replaces: str) -> SafetyFactor:
    basis = f"{row['standard']}: {row['item']}, {row['limit_state']}, {row['conditions']}"
    if replaces:
        basis = f"{basis}; in place of {replaces}"
    return SafetyFactor(
        key=key,
        standard=row["standard"],
        item=row["item"],
        group=row["group"],
        limit_state=row["limit_state"],
        analysis=row["analysis"],
        factor=None if row.get("factor") is None else float(row["factor"]),
        dynamic_factor=None if row.get("dynamic_factor") is None else float(row["dynamic_factor"]),
        share=float(row.get("share", 1.0)),
        practice_range=tuple(float(end) for end in row.get("range", ())),
        conditions=row["conditions"],
        replaces=replaces,
        safety=safety_basis(_HAZARD[row["group"]], basis, row["edition"], status),
    )
