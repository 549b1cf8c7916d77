"""Scheme keys by dotted path: their parts, what they take, and text typed into a field as a value for them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from racewright.errors import InputError
from racewright.scheme.model import Scheme
from racewright.scheme.types import Key, default_of, key_of

Value = str | int | float | bool | None | list[float]
"""What a key may be set to; None takes it out of the scheme."""

LONGEST = 400
"""Longest dotted path [characters]."""

_PART = re.compile(r"""([A-Za-z0-9_-]+|"[^"\\\x00-\x1f]*")(?:\.|$)""")


def parts_of(path: str) -> tuple[str, ...]:
    """Parts of a dotted path; a part with other letters stands in double quotes.

    Raises
    ------
    InputError
        When it is no such path.
    """
    parts, at = [], 0
    while at < len(path) <= LONGEST:
        found = _PART.match(path, at)
        if found is None:
            break
        parts.append(found[1].strip('"'))
        at = found.end()
    if len(path) > LONGEST or at != len(path) or not parts or path.endswith("."):
        raise InputError(f"{path[:60]!r} is no key; write a dotted path like machine.river_unit.vanes.turned")
    return tuple(parts)


@dataclass(frozen=True)
class Meaning:
    """What a key is: its meaning in words, its default as written ('' without one) and what it takes."""

    text: str
    default: str
    takes: Key | None


def meaning_of(path: str) -> Meaning | None:
    """What stands at a dotted path of a scheme; None where no key can stand."""
    table: Any = Scheme
    *above, last = parts_of(path)
    for part in above:
        table = _below(table, part)
    if not (isinstance(table, type) and issubclass(table, BaseModel)) or last not in table.model_fields:
        return None
    return Meaning(table.model_fields[last].description or "", default_of(table, last), key_of(table, last))


def _below(table: Any, part: str) -> Any:
    """The table class under a name, optional marks taken off."""
    if isinstance(table, type) and issubclass(table, BaseModel):
        field = table.model_fields.get(part)
        found: Any = None if field is None else field.annotation
    else:
        named = getattr(table, "__args__", ())
        found = named[-1] if named else None
    options = [a for a in getattr(found, "__args__", ()) if a is not type(None)]
    return options[0] if type(None) in getattr(found, "__args__", ()) and options else found


def typed(path: str, text: str) -> Value:
    """Text of a field as the value to write; empty text takes the key out (its default then counts)."""
    text = text.strip()
    meaning = meaning_of(path)
    kind = meaning.takes.kind if meaning and meaning.takes else ""
    if not text:
        return "" if kind == "text" else None
    if kind == "flag" and text in ("true", "false"):
        return text == "true"
    if kind in ("ratio", "whole"):
        return _number(text)
    if kind == "numbers":
        numbers = [_number(item) for item in text.strip("[]").split(",")]
        return [float(n) for n in numbers if isinstance(n, int | float)] if all(map(_plain, numbers)) else text
    return text


def _plain(value: str | int | float) -> bool:
    return not isinstance(value, str)


def _number(text: str) -> str | int | float:
    """A plain number, else the text as it stands: the scheme's own reader says what is wrong with it."""
    if re.fullmatch(r"[+-]?\d{1,15}", text):
        return int(text)
    if re.fullmatch(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,3})?", text) and len(text) < 40:
        return float(text)
    return text
