"""What the docs build complains of."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass


@dataclass(frozen=True)
class Fault:
    """One thing undocumented, stale or dead; `where` says which file, command or key."""

    where: str
    what: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what}"


def cell(text: str) -> str:
    """Text fit for one cell of a Markdown table."""
    return " ".join(text.split()).replace("|", "\\|")


def table(head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    """A Markdown table."""
    lines = [head, tuple("---" for _ in head), *rows]
    return "".join("| " + " | ".join(cell(text) for text in line) + " |\n" for line in lines)
