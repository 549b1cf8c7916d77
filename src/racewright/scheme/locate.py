"""Find the line of each key in a TOML text, so that an error can point at it."""

from __future__ import annotations

import re

Path = tuple[str, ...]

_BARE = r"[A-Za-z0-9_-]+"
_PART = rf"""(?:{_BARE}|"(?:[^"\\]|\\.)*"|'[^']*')"""
_DOTTED = rf"{_PART}(?:[ \t]*\.[ \t]*{_PART})*"
_HEADER = re.compile(rf"^[ \t]*\[{{1,2}}[ \t]*({_DOTTED})[ \t]*\]")
_KEY = re.compile(rf"^[ \t]*({_DOTTED})[ \t]*=")


def key_lines(text: str) -> dict[Path, int]:
    """Line (from 1) on which each table header and key of a valid TOML text stands.

    Keys inside inline tables and arrays are not listed; `line_of` falls back to their parent.
    """
    lines: dict[Path, int] = {}
    table: Path = ()
    inside = ""  # the closing mark of a multi-line string that is open
    depth = 0  # open brackets of a multi-line array
    for number, line in enumerate(text.splitlines(), start=1):
        if not inside and depth == 0:
            header, key = _HEADER.match(line), _KEY.match(line)
            if header:
                table = _split(header.group(1))
                lines.setdefault(table, number)
                continue
            if key:
                lines.setdefault(table + _split(key.group(1)), number)
                line = line[key.end() :]
        inside, depth = _scan(line, inside, depth)
    return lines


def line_of(lines: dict[Path, int], path: Path) -> int | None:
    """Line of a key, or of its nearest parent that has one."""
    while path:
        if path in lines:
            return lines[path]
        path = path[:-1]
    return None


def _split(dotted: str) -> Path:
    """Parts of a dotted key, quotes removed."""
    return tuple(p.strip("\"'") for p in re.findall(_PART, dotted))


def _scan(line: str, inside: str, depth: int) -> tuple[str, int]:
    """Follow strings and brackets through one line."""
    i = 0
    while i < len(line):
        if inside:
            end = line.find(inside, i)
            if end < 0:
                return (inside if len(inside) == 3 else ""), depth
            if inside[0] == '"' and end > 0 and line[end - 1] == "\\":
                i = end + 1
                continue
            i, inside = end + len(inside), ""
            continue
        three, one = line[i : i + 3], line[i]
        if three in ('"""', "'''"):
            inside, i = three, i + 3
        elif one in "\"'":
            inside, i = one, i + 1
        elif one == "#":
            break
        else:
            depth += (one in "[{") - (one in "]}")
            i += 1
    return (inside if len(inside) == 3 else ""), max(depth, 0)
