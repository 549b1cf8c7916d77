"""Every key of the scheme, walked from its tables, and another valid value for each."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, get_args

from pydantic import BaseModel

from racewright.quantity import DIMENSION_EXAMPLES, parse
from racewright.scheme.community_tables import CommunityTable
from racewright.scheme.growth_tables import GrowthTable
from racewright.scheme.holding_tables import HoldingTable
from racewright.scheme.machine_tables import MachineTable
from racewright.scheme.model import CaseTable
from racewright.scheme.neighbours_tables import NeighboursTable
from racewright.scheme.place_tables import PlaceTable
from racewright.scheme.trials_tables import TrialsTable
from racewright.scheme.types import Key, key_of

ROLES: dict[str, type[BaseModel]] = {
    "case": CaseTable,
    "place": PlaceTable,
    "machine": MachineTable,
    "community": CommunityTable,
    "trials": TrialsTable,
    "neighbours": NeighboursTable,
    "growth": GrowthTable,
    "holding": HoldingTable,
}
TELLING = ("description", "source", "invented", "sensor")
"""Keys that only tell the reader something."""
NAMES = (
    "case.place",
    "case.machine",
    "case.community",
    "case.trials",
    "case.neighbours",
    "case.growth",
    "case.holding",
)
"""Keys that name a table, whose values count instead."""

_OTHER_NAME: dict[str, dict[str | None, str]] = {
    "unit": {"m3/s": "ft3/s", "m": "ft"},
    "zone": {"UTC": "+01:00"},
    "date": {None: "2025-06-14", "2025-06-14": "2025-07-01"},
    "first": {None: "12-01", "12-01": "12-02"},
    "last": {None: "12-24", "12-24": "12-25"},
}


@dataclass(frozen=True)
class Leaf:
    """One key by its role path, such as 'machine.duct.length'."""

    path: str
    key: Key

    @property
    def tells_only(self) -> bool:
        return self.path.rsplit(".", 1)[-1] in TELLING or self.path in NAMES


def leaves() -> list[Leaf]:
    """Every leaf key of all kinds of table."""
    return [leaf for role, table in ROLES.items() for leaf in _walk(table, role)]


def _walk(table: type[BaseModel], path: str) -> Iterator[Leaf]:
    for name, field in table.model_fields.items():
        key = key_of(table, name)
        if key is not None:
            yield Leaf(f"{path}.{name}", key)
            continue
        inner = [a for a in (field.annotation, *get_args(field.annotation)) if isinstance(a, type)]
        tables = [a for a in inner if issubclass(a, BaseModel)]
        assert tables, f"{path}.{name} is neither a key nor a table"
        yield from _walk(tables[0], f"{path}.{name}")


def another(key: Key, name: str, old: Any) -> Any:
    """Another valid value as one would write it; `old` is what the scheme has, None where it has nothing."""
    if key.kind == "flag":
        return not old
    if key.kind == "text":
        return f"{old or ''} (changed)"
    if key.kind == "choice":
        return next(word for word in key.words if word != old)
    if key.kind == "numbers":
        return [1.5, 2.25]
    if key.kind == "whole":
        return int(old if old is not None else key.low) + 1
    if key.kind == "name":
        return _OTHER_NAME.get(name, {}).get(old) or f"{old or 'a'}_changed"
    if old is None:
        return _inside(key)
    text = str(old)
    found = re.match(r"[+-]?[\d.]+", text)
    assert found, text
    number = float(found[0])
    for factor in (1.01, 0.99):
        candidate = f"{number * factor:.12g}{text[found.end() :]}"
        value = candidate if isinstance(old, str) else float(candidate)
        if number and _taken(key, value):
            return value
    return _inside(key)


def _inside(key: Key) -> Any:
    """A value inside the limits that is no usual default."""
    low, high = key.low, key.high
    if key.kind == "money":
        return DIMENSION_EXAMPLES[key.dimension]
    if key.kind == "ratio":
        return float(low) + 0.37 * (float(high) - float(low))
    if key.kind == "money":
        return DIMENSION_EXAMPLES[key.dimension]
    unit = re.sub(r"^[+-]?[\d.]+ ?", "", high)
    middle = parse(low, key.dimension).si + 0.37 * (parse(high, key.dimension).si - parse(low, key.dimension).si)
    return f"{middle / (parse('1 ' + unit, key.dimension).si):.6g} {unit}" if "degC" not in unit else f"{high}"


def _taken(key: Key, value: Any) -> bool:
    try:
        key.read(value)
    except ValueError:
        return False
    return True
