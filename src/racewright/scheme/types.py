"""Kinds of scheme keys: each field says what it takes, its range, its meaning and where its default comes from."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator

from racewright.quantity import DIMENSION_EXAMPLES, parse

REQUIRED = "required"
"""Default of a key that must be given."""

Reader = Callable[[Any], Any]

_BEYOND = 10**300
"""A whole number from here on is no float, and from thousands of digits on not even text."""


@dataclass(frozen=True)
class Key:
    """What one scheme key takes.

    Attributes
    ----------
    kind : str
        'quantity', 'money', 'ratio', 'numbers', 'whole', 'choice', 'text', 'name', 'flag' or 'table'.
    dimension : str
        Dimension of a quantity or a sum of money, else ''.
    low, high : str
        Limits as one would write them; '' where there are none.
    words : tuple of str
        The words of a choice.
    because : str
        Where the default comes from.
    read : callable
        From the TOML value to the value kept; raises ValueError that says what would be right.
    """

    kind: str
    dimension: str
    low: str
    high: str
    words: tuple[str, ...]
    because: str
    read: Reader


class Table(BaseModel):
    """Base of every scheme table: nothing unknown, nothing coerced but by the key's own reader."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, arbitrary_types_allowed=True)

    @field_validator("*", mode="before")
    @classmethod
    def _read(cls, value: Any, info: ValidationInfo) -> Any:
        key = key_of(cls, info.field_name or "")
        return key.read(value) if key else value


def key_of(table: type[BaseModel], name: str) -> Key | None:
    """What a table's key takes; None for nested tables."""
    field = table.model_fields.get(name)
    extra = field.json_schema_extra if field else None
    found = extra.get("key") if isinstance(extra, dict) else None
    return found if isinstance(found, Key) else None


def default_of(table: type[BaseModel], name: str) -> str:
    """A key's default as one would write it, with its unit; '' where it has none."""
    field = table.model_fields.get(name)
    extra = field.json_schema_extra if field else None
    return str(extra.get("written", "")) if isinstance(extra, dict) else ""


def quantity(dimension: str, low: str, high: str, meaning: str, *, default: Any = REQUIRED, because: str = "") -> Any:
    """Text with a unit, from `low` to `high` (both allowed); kept as an SI float."""
    low_si, high_si = parse(low, dimension).si, parse(high, dimension).si
    example = DIMENSION_EXAMPLES[dimension]

    def read(value: Any) -> float:
        if not isinstance(value, str):
            bare = isinstance(value, int | float) and not isinstance(value, bool)
            found = f"bare number {_short(value)}" if bare else f"found {_short(value)}"
            raise ValueError(f"{found}; write a {dimension} with its unit, like {example!r}")
        si = parse(value, dimension).si
        if not low_si <= si <= high_si:
            raise ValueError(f"{_short(value)} is out of range; it must lie between {low} and {high}")
        return si

    return _field(Key("quantity", dimension, low, high, (), because, read), meaning, default)


def money(dimension: str, meaning: str, *, default: Any = REQUIRED) -> Any:
    """A sum of money or a price, not negative, with a currency label; kept as a `Quantity`; None where left out."""
    example = DIMENSION_EXAMPLES[dimension]

    def read(value: Any) -> Any:
        if not isinstance(value, str):
            raise ValueError(f"found {_short(value)}; write {dimension} with its currency, like {example!r}")
        found = parse(value, dimension)
        if found.si < 0.0:
            raise ValueError(f"{_short(value)} is negative; it must be 0 or more")
        return found

    return _field(Key("money", dimension, "0", "", (), "", read), meaning, default)


def ratio(low: float, high: float, meaning: str, *, default: Any = REQUIRED, because: str = "") -> Any:
    """A plain number, or a percentage as text, from `low` to `high`; kept as a float."""

    write = f"write a plain number from {low:g} to {high:g}" + (", or a percentage" if high <= 1.0 else "")

    def read(value: Any) -> float:
        if isinstance(value, str):
            try:
                number = parse(value, "fraction").si
            except ValueError:
                raise ValueError(f"found {_short(value)}; {write}") from None
        elif isinstance(value, int | float) and not isinstance(value, bool):
            number = float(value) if abs(value) < _BEYOND else math.inf
        else:
            raise ValueError(f"found {_short(value)}; {write}")
        if not (math.isfinite(number) and low <= number <= high):
            raise ValueError(f"{_short(value)} is out of range; it must lie between {low:g} and {high:g}")
        return number

    return _field(Key("ratio", "", f"{low:g}", f"{high:g}", (), because, read), meaning, default)


def numbers(most: int, meaning: str) -> Any:
    """A list of plain finite numbers, at most so many; may be left out."""

    def read(value: Any) -> tuple[float, ...]:
        if not isinstance(value, list | tuple) or not 1 <= len(value) <= most:
            raise ValueError(f"found {_short(value)}; write a list of 1 to {most} numbers like [0.0, 2.5]")
        found = []
        for item in value:
            if isinstance(item, bool) or not isinstance(item, int | float) or not abs(item) < _BEYOND:
                raise ValueError(f"{_short(item)} in the list is no finite number")
            found.append(float(item))
        return tuple(found)

    return _field(Key("numbers", "", "", str(most), (), "", read), meaning, None)


def whole(low: int, high: int, meaning: str, *, default: Any = REQUIRED, because: str = "") -> Any:
    """A whole number from `low` to `high`."""

    def read(value: Any) -> int:
        if isinstance(value, bool) or not isinstance(value, int):
            raise ValueError(f"found {_short(value)}; write a whole number from {low} to {high}")
        if not low <= value <= high:
            raise ValueError(f"{_short(value)} is out of range; it must lie between {low} and {high}")
        return value

    return _field(Key("whole", "", str(low), str(high), (), because, read), meaning, default)


def choice(words: tuple[str, ...], meaning: str, *, default: Any = REQUIRED, because: str = "") -> Any:
    """One of a few words."""

    def read(value: Any) -> str:
        if value not in words:
            raise ValueError(f"found {_short(value)}; write one of {', '.join(repr(w) for w in words)}")
        return str(value)

    return _field(Key("choice", "", "", "", words, because, read), meaning, default)


def text(meaning: str) -> Any:
    """Free text, may be left out."""
    return _field(Key("text", "", "", "", (), "", lambda v: _plain(v, 2000)), meaning, "")


def name(meaning: str, *, default: Any = REQUIRED, because: str = "") -> Any:
    """A name of a table, column, unit or file: not empty."""

    def read(value: Any) -> str:
        found = _plain(value, 300)
        if not found.strip():
            raise ValueError("is empty; write a name")
        return found

    return _field(Key("name", "", "", "", (), because, read), meaning, default)


def flag(meaning: str, *, default: Any = REQUIRED, because: str = "") -> Any:
    """true or false."""

    def read(value: Any) -> bool:
        if not isinstance(value, bool):
            raise ValueError(f"found {_short(value)}; write true or false")
        return value

    return _field(Key("flag", "", "", "", (), because, read), meaning, default)


def _field(key: Key, meaning: str, default: Any) -> Any:
    extra: Any = {"key": key}
    if default is REQUIRED:
        return Field(description=meaning, json_schema_extra=extra)
    kept = default if default is None else key.read(default)
    extra["written"] = _written(default)
    return Field(default=kept, description=meaning, json_schema_extra=extra)


def _written(default: Any) -> str:
    """A default as one would write it, without quotes."""
    if isinstance(default, bool):
        return str(default).lower()
    return default if isinstance(default, str) else f"{default:g}" if default is not None else ""


def _plain(value: Any, limit: int) -> str:
    if not isinstance(value, str):
        raise ValueError(f"found {_short(value)}; write text in quotes")
    if len(value) > limit:
        raise ValueError(f"the text has {len(value)} characters; at most {limit} are taken")
    if any(ord(c) < 32 and c not in "\n\t" for c in value):
        raise ValueError("the text holds control characters; write plain text")
    return value


def _short(value: Any) -> str:
    if isinstance(value, int) and abs(value) >= _BEYOND:
        return "a number of hundreds of digits"
    shown = repr(value)
    return shown if len(shown) <= 60 else shown[:57] + "..."
