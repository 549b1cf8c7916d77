"""Meanings of dataclass fields, read from their docstrings."""

from __future__ import annotations

import ast
import inspect
import re
import textwrap
from dataclasses import is_dataclass

_UNIT = re.compile(r"\s*\[[^\]]*\]\.?$")


def field_meanings(cls: type) -> dict[str, str]:
    """Field name to meaning: the docstring's Attributes section, then texts that stand below a field.

    A line that names several fields gives each its own piece when there is one piece with a unit for each, as in
    'U [m/s], Omega [rad/s]', else the whole description to all. Units at the end are left out. Fields that a class
    has from another have that one's meanings.
    """
    found: dict[str, str] = {}
    for part in reversed(cls.__mro__):
        if is_dataclass(part):
            found.update(_own_meanings(part))
    return found


def _own_meanings(cls: type) -> dict[str, str]:
    """Meanings that stand in the class's own text."""
    found: dict[str, str] = {}
    for names, text in _attributes(inspect.cleandoc(cls.__doc__ or "")):
        pieces = _pieces(text)
        apart = len(pieces) == len(names) and all(_UNIT.search(piece) for piece in pieces)
        for name, piece in zip(names, pieces if apart else [text] * len(names), strict=True):
            if said := _UNIT.sub("", piece).strip().rstrip("."):
                found[name] = said
    return {**found, **_below(cls)}


def _attributes(doc: str) -> list[tuple[list[str], str]]:
    """(names, description) of each entry of the Attributes section."""
    match = re.search(r"^Attributes\n-+\n(.*?)(?=^\S+\n-{3,}|\Z)", doc, re.MULTILINE | re.DOTALL)
    entries: list[tuple[list[str], str]] = []
    for line in match.group(1).splitlines() if match else ():
        if line and not line.startswith(" "):
            names = [name.strip() for name in line.split(" : ")[0].split(",")]
            entries.append((names, ""))
        elif line.strip() and entries:
            names, text = entries[-1]
            entries[-1] = (names, f"{text} {line.strip()}".strip())
    return entries


def _pieces(text: str) -> list[str]:
    """Pieces of a description between commas that stand outside brackets."""
    pieces, depth, start = [], 0, 0
    for i, mark in enumerate(text):
        depth += (mark in "([{") - (mark in ")]}")
        if mark == "," and depth == 0:
            pieces.append(text[start:i].strip())
            start = i + 1
    return [*pieces, text[start:].strip()]


def _below(cls: type) -> dict[str, str]:
    """Texts written directly below a field."""
    try:
        body = ast.parse(textwrap.dedent(inspect.getsource(cls))).body[0]
    except (OSError, TypeError):
        return {}
    assert isinstance(body, ast.ClassDef)
    found = {}
    for field, after in zip(body.body, body.body[1:], strict=False):
        match (field, after):
            case (ast.AnnAssign(target=ast.Name(id=name)), ast.Expr(value=ast.Constant(value=str(text)))):
                found[name] = " ".join(text.split())
    return found
