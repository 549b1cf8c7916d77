"""The page of scheme keys, written from the scheme's own tables."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel
from pydantic_core import PydanticUndefined

from racewright.quantity import DIMENSION_EXAMPLES
from racewright.scheme.json_schema import tables_in
from racewright.scheme.types import Key, default_of, key_of
from tools.docs.fault import Fault, table

HEAD = """# Scheme keys

Generated from the program's own tables. How to write a scheme: [../guide/scheme.md](../guide/scheme.md). For
editors: [scheme.schema.json](scheme.schema.json), a JSON Schema of the whole file.

`NAME` stands for a name of your own. Ranges include both ends. A key is needed unless it has a default or is said
to be optional. A number may also be written as a percentage in quotes, `"85 %"` for 0.85.
"""


@dataclass(frozen=True)
class Place:
    """One table of the scheme: its path as in the file, its class, what it is, and whether it may be left out."""

    path: str
    table: type[BaseModel]
    meaning: str
    optional: bool


def places(model: type[BaseModel], path: str = "", meaning: str = "", optional: bool = False) -> Iterator[Place]:
    """Every table of a scheme, in the order of the file."""
    yield Place(path, model, meaning, optional)
    for name, field in model.model_fields.items():
        inner, named, may_lack = tables_in(field)
        if inner is not None:
            below = f"{path}.{name}" if path else name
            yield from places(inner, f"{below}.NAME" if named else below, field.description or "", may_lack)


def page(model: type[BaseModel]) -> tuple[str, list[Fault]]:
    """The page, and the keys that have no meaning."""
    parts, faults = [HEAD], []
    for place in places(model):
        rows = []
        for name, field in place.table.model_fields.items():
            where = f"{place.path}.{name}" if place.path else name
            if not field.description:
                faults.append(Fault(f"scheme key {where}", "has no meaning (description)"))
            key = key_of(place.table, name)
            if key is not None:
                rows.append(
                    (
                        f"`{name}`",
                        takes(key),
                        default(key, field, default_of(place.table, name)),
                        field.description or "",
                    )
                )
        title = f"## `[{place.path}]`" if place.path else "## At the top"
        said = " ".join((place.table.__doc__ or "").split()) if place.path else "Keys above the first table."
        may = " May be left out." if place.optional and place.path else ""
        parts.append(f"{title}\n\n{said}{may}\n")
        if rows:
            parts.append(table(("key", "takes", "default", "meaning"), rows))
    return "\n".join(parts), faults


def takes(key: Key) -> str:
    """What a key takes, in words."""
    if key.kind == "quantity":
        return f"{key.dimension} with its unit, {key.low} to {key.high}"
    if key.kind == "money":
        return f'{key.dimension}, 0 or more, like `"{DIMENSION_EXAMPLES[key.dimension]}"`'
    if key.kind == "ratio":
        return f"number, {key.low} to {key.high}"
    if key.kind == "whole":
        return f"whole number, {key.low} to {key.high}"
    if key.kind == "choice":
        return "one of " + ", ".join(f'`"{word}"`' for word in key.words)
    if key.kind == "numbers":
        return f"list of 1 to {key.high} numbers"
    return {"text": "text", "name": "text, not empty", "flag": "`true` or `false`"}[key.kind]


def default(key: Key, field: Any, written: str) -> str:
    """The default with its source, in words."""
    value = field.default
    if value is PydanticUndefined:
        return "needed"
    if value is None:
        return f"optional: {key.because}" if key.because else "optional"
    if value == "":
        return "optional"
    quoted = f'"{written}"' if key.kind in ("quantity", "choice", "name") else written
    return f"`{quoted}`: {key.because}"
