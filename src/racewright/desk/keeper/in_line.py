"""Put a value in the line where it stands: the quick way for what most edits are."""

from __future__ import annotations

import re

import tomlkit

_HEADER = re.compile(r"^[ \t]*\[[ \t]*([A-Za-z0-9_-]+(?:\.[A-Za-z0-9_-]+)*)[ \t]*\][ \t]*(?:#.*)?\r?$")
_TABLE = re.compile(r"^[ \t]*\[")
_VALUE = r"""("[^"\\]*"|true|false|[+-]?[0-9][0-9_.eE+-]*)"""
_REST = r"([ \t]*(?:#.*)?\r?)$"


def in_line(text: str, parts: tuple[str, ...], value: str | int | float | bool) -> str | None:
    """The text with a value changed where it stands alone in a line below its table's plain header.

    Parameters
    ----------
    text : str
        Valid TOML.
    parts : tuple of str
        Of the key.
    value : str, int, float or bool

    Returns
    -------
    str or None
        None where it does not stand so, once. What lies inside a text of several lines can look so: whoever asks
        reads the result again.
    """
    *table, last = parts
    line_of_key = re.compile(rf"^([ \t]*{re.escape(last)}[ \t]*=[ \t]*){_VALUE}{_REST}")
    lines, found, here = text.split("\n"), -1, False
    for at, line in enumerate(lines):
        if _TABLE.match(line):
            header = _HEADER.match(line)
            here = header is not None and header[1].split(".") == table
        elif here and line_of_key.match(line):
            if found >= 0:
                return None
            found = at
    if found < 0:
        return None
    written = tomlkit.item(value).as_string()
    lines[found] = line_of_key.sub(lambda m: f"{m[1]}{written}{m[3]}", lines[found])
    return "\n".join(lines)
