"""The example with a table that it does not have, so that each of the table's keys can be changed."""

from __future__ import annotations

import copy
from typing import Any, get_args

from pydantic import BaseModel

from racewright.scheme import LoadedScheme
from racewright.scheme.model import Scheme
from racewright.scheme.types import key_of
from tests.frame.scheme_keys import ROLES, another

Raw = dict[str, Any]
_NAME = "some"
"""Name given to a table of a set that the example leaves empty."""
_FILE = "transect.csv"


def with_tables(loaded: LoadedScheme, path: str) -> LoadedScheme:
    """The scheme with every table on a role path there, required keys filled in; itself if nothing is missing."""
    raw = copy.deepcopy(loaded.raw)
    if path == "case.trials":
        path = "trials.description"
    table_of(raw, path)
    if raw == loaded.raw:
        return loaded
    return type(loaded)(**{**loaded.__dict__, "scheme": Scheme.model_validate(raw), "raw": raw})


def table_of(raw: Raw, path: str) -> Raw:
    """The written table that holds a role path's last key; tables that are not there are made."""
    role, *keys = path.split(".")
    cls = ROLES[role]
    if role not in raw:
        raw[role] = {_NAME: _filled(cls)}
        next(iter(raw["case"].values()))[role] = _NAME
    table: Raw = next(iter(raw[role].values()))
    for key in keys[:-1]:
        cls, several, needed = _inner(cls, key)
        holder, name = table, key
        if several:
            holder = table.setdefault(key, {})
            name = next(iter(holder), _NAME)
        if name not in holder:
            holder[name] = _filled(cls) if several or needed else {}
        table = holder[name]
    return table


def value_at(loaded: LoadedScheme, path: str) -> Any:
    """What the scheme has at a role path, defaults included; None where a table is not there."""
    role, *keys = path.split(".")
    found: Any = next(iter(getattr(loaded.scheme, role).values()))
    for key in keys:
        found = getattr(found, key, None)
        if isinstance(found, dict):
            found = next(iter(found.values()), None)
    return found


def _inner(cls: type[BaseModel], key: str) -> tuple[type[BaseModel], bool, bool]:
    """Class of a table's inner table, whether several stand there by name, whether it may be absent."""
    annotation = cls.model_fields[key].annotation
    inside = [a for a in (annotation, *get_args(annotation)) if isinstance(a, type) and issubclass(a, BaseModel)]
    several = getattr(annotation, "__origin__", None) is dict
    return inside[0], several, type(None) in get_args(annotation)


def _filled(cls: type[BaseModel]) -> Raw:
    table: Raw = {}
    for name, field in cls.model_fields.items():
        key = key_of(cls, name)
        if key is not None and field.is_required():
            table[name] = _FILE if name == "file" else another(key, name, None)
        elif key is None and field.is_required():
            table[name] = _filled(_inner(cls, name)[0])
    return table
