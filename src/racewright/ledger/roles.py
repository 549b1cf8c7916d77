"""The roles of a case: what 'machine.duct' or 'place.record.file' means in one scheme."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from racewright.quantity.grammar import Quantity
from racewright.scheme.model import CaseTable, Scheme

TELLING = frozenset({"description", "source", "invented", "file", "sensor"})
"""Keys that tell the reader something, or name a file whose content counts instead of its name."""


@dataclass(frozen=True)
class Roles:
    """The tables that a case joins, by role; None where it has none."""

    case: CaseTable
    tables: Mapping[str, BaseModel | None]
    names: Mapping[str, str]

    def find(self, path: str) -> Any:
        """What stands at a role path: a table, a value, or None."""
        role, *keys = path.split(".")
        found: Any = self.tables[role]
        for key in keys:
            found = found.get(key) if isinstance(found, dict) else None if found is None else getattr(found, key)
        return found

    def expanded(self, path: str) -> tuple[str, ...]:
        """The role paths that a path with '*' for 'each name' stands for, in order of the names."""
        head, star, tail = path.partition(".*")
        if not star:
            return (path,)
        names = sorted(self.find(head) or {})
        return tuple(found for name in names for found in self.expanded(f"{head}.{name}{tail}"))

    def plain(self, path: str) -> Any:
        """The same as SI numbers, text and mappings, without keys that only tell."""
        return _plain(self.find(path))

    def scheme_path(self, path: str) -> tuple[str, ...]:
        """The scheme's own path of a role path, for error messages."""
        role, *keys = path.split(".")
        return (role, self.names[role], *keys)


def roles_of(scheme: Scheme, name: str, case: CaseTable) -> Roles:
    """The roles of one case."""
    tables: dict[str, BaseModel | None] = {
        "case": case,
        "place": scheme.place.get(case.place or ""),
        "machine": scheme.machine.get(case.machine or ""),
        "community": scheme.community.get(case.community or ""),
        "trials": scheme.trials.get(case.trials or ""),
        "holding": scheme.holding.get(case.holding or ""),
        "neighbours": scheme.neighbours.get(case.neighbours or ""),
        "growth": scheme.growth.get(case.growth or ""),
    }
    names = {"case": name, **{role: getattr(case, role) for role in tables if role != "case"}}
    return Roles(case, tables, {role: text or "" for role, text in names.items()})


def _plain(value: Any) -> Any:
    if isinstance(value, BaseModel):
        return {name: _plain(getattr(value, name)) for name in type(value).model_fields if name not in TELLING}
    if isinstance(value, dict):
        return {name: _plain(table) for name, table in value.items()}
    if isinstance(value, Quantity):
        return {"si": value.si, "currency": value.currency}
    return value
