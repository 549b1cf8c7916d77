"""Blocks of a dossier's chapter as text for the terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from racewright.dossier.document import Block, Heading, Points, Table, Text
from racewright.dossier.format import THIN

WIDTH = 118
_GAP = 2
_LEAST = 8


def block_text(blocks: Sequence[Block]) -> str:
    """Text, headings, tables and points in order; pictures are left out.

    Parameters
    ----------
    blocks : sequence of Block
        Text in them is printable already.
    """
    lines: list[str] = []
    for block in blocks:
        if isinstance(block, Heading):
            lines += ["", block.text.upper()]
        elif isinstance(block, Text):
            lines += textwrap.wrap(block.text, WIDTH)
        elif isinstance(block, Points):
            for item in block.items:
                lines += textwrap.wrap(item, WIDTH, initial_indent="- ", subsequent_indent="  ")
        elif isinstance(block, Table):
            lines += ["", *_table(block)]
    return "\n".join(lines).replace(THIN, " ").strip("\n")


def _table(table: Table) -> list[str]:
    rows = [tuple(column.name for column in table.columns), *table.rows]
    widths = _widths(rows)
    lines = textwrap.wrap(table.caption, WIDTH)
    for place, row in enumerate(rows):
        lines += _row(row, widths, [column.align == "end" for column in table.columns])
        if place == 0:
            lines.append("-" * (sum(widths) + _GAP * (len(widths) - 1)))
    return lines


def _widths(rows: Sequence[Sequence[str]]) -> list[int]:
    """Of each column: its longest cell, the widest made narrower until all fit."""
    widths = [max(len(cell) for cell in column) for column in zip(*rows, strict=True)]
    least = [
        max(len(word) for cell in column for word in (cell.split() or [""])) for column in zip(*rows, strict=True)
    ]
    room = WIDTH - _GAP * (len(widths) - 1)
    while sum(widths) > room:
        spare = [w - max(m, _LEAST) for w, m in zip(widths, least, strict=True)]
        if max(spare) <= 0:
            break
        widths[max(range(len(widths)), key=lambda i: (spare[i] > 0, widths[i]))] -= 1
    return widths


def _row(row: Sequence[str], widths: Sequence[int], ends: Sequence[bool]) -> list[str]:
    cells = [textwrap.wrap(cell, width) or [""] for cell, width in zip(row, widths, strict=True)]
    lines = []
    for k in range(max(len(cell) for cell in cells)):
        parts = [cell[k] if k < len(cell) else "" for cell in cells]
        shown = (p.rjust(w) if end else p.ljust(w) for p, w, end in zip(parts, widths, ends, strict=True))
        lines.append((" " * _GAP).join(shown).rstrip())
    return lines
