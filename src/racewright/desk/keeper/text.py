"""Change keys of a scheme's text; comments, order and layout of everything else stay."""

from __future__ import annotations

import copy
import tomllib
from collections.abc import Mapping
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import Comment, Null, Table, Whitespace

from racewright.desk.keeper.in_line import in_line
from racewright.desk.keeper.keys import Value, parts_of
from racewright.errors import InputError


def changed(text: str, changes: Mapping[str, Value]) -> str:
    """The text with keys set, added or (None) taken out.

    Parameters
    ----------
    text : str
        Valid TOML.
    changes : mapping of str to Value
        By dotted path.

    Raises
    ------
    InputError
        When a path leads through something that is no table, or a value cannot be written.
    """
    quick = _quickly(text, changes)
    if quick is not None:
        return quick
    document = tomlkit.parse(text)
    wanted = tomllib.loads(text)
    for path, value in changes.items():
        parts = parts_of(path)
        try:
            _set(document, parts, value, path)
            _set_plain(wanted, parts, value)
        except (TOMLKitError, UnicodeError, ValueError) as fault:
            raise InputError(f"cannot be written: {str(fault)[:120]}", key=path) from None
    written = tomlkit.dumps(document)
    if tomllib.loads(written) != wanted:
        first = next(iter(changes), "")
        raise InputError("cannot be changed here without touching other keys; edit the file itself", key=first)
    return written


def _quickly(text: str, changes: Mapping[str, Value]) -> str | None:
    """The same for values that stand alone in their lines, in a twentieth of the time; None where one does not."""
    wanted, written = tomllib.loads(text), text
    try:
        for path, value in changes.items():
            parts = parts_of(path)
            if not isinstance(value, str | int | float):
                return None
            put = in_line(written, parts, value)
            if put is None:
                return None
            written = put
            _set_plain(wanted, parts, value)
        return written if tomllib.loads(written) == wanted else None
    except (TOMLKitError, UnicodeError, ValueError):  # the long way says what is wrong
        return None


def _set(document: Any, parts: tuple[str, ...], value: Value, path: str) -> None:
    table = document
    for part in parts[:-1]:
        if part not in table:
            if value is None:
                return
            _append(table, part, tomlkit.table())
        table = table[part]
        if not isinstance(table, Mapping):
            raise InputError(f"{part!r} is no table", key=path)
    last = parts[-1]
    if value is None:
        if last in table:
            del table[last]
    elif isinstance(table.get(last), Mapping):
        raise InputError("is a table; change the keys in it", key=path)
    elif last in table:
        table[last] = value
    else:
        _append(table, last, value)


def _append(table: Any, key: str, value: Any) -> None:
    """Add a key after the last one, before the blank lines and comments that lead to the next table."""
    if not isinstance(table, Table) or isinstance(value, Table):
        table[key] = value
        return
    body = table.value.body
    end = len(body)
    while end and isinstance(body[end - 1][1], Whitespace | Comment | Null):
        end -= 1
    if any(isinstance(item, Table) for _key, item in body):
        table[key] = value
        return
    rest = body[end:]
    del body[end:]
    table[key] = value
    body.extend(rest)


def _set_plain(tables: dict[str, Any], parts: tuple[str, ...], value: Value) -> None:
    for part in parts[:-1]:
        if part not in tables and value is None:
            return
        tables = tables.setdefault(part, {})
    if value is None:
        tables.pop(parts[-1], None)
    else:
        tables[parts[-1]] = copy.copy(value)
