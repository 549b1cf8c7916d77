"""A plain table for the terminal."""

from __future__ import annotations

from collections.abc import Sequence


def aligned(head: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> list[str]:
    """Lines of a table, every column as wide as its widest cell, cells to the right."""
    width = [max(len(row[i]) for row in (head, *rows)) for i in range(len(head))]
    return ["  ".join(cell.rjust(w) for cell, w in zip(row, width, strict=True)) for row in (head, *rows)]
