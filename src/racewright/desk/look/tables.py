"""Tables: a caption, headings with units, numbers on the right, each cell copied as text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from nicegui import ui

from racewright.desk.look.lettering import words


@dataclass(frozen=True)
class Column:
    """A column: its heading, with the unit where the cells have none, and whether it holds numbers."""

    name: str
    number: bool = False


def table(caption: str, columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> None:
    """A table; on a phone each row becomes a small list.

    Parameters
    ----------
    caption : str
        What it shows.
    columns : sequence of Column
        The first one heads its row.
    rows : sequence of sequences of str
        Cells as they are shown.
    """
    with ui.element("div").classes("scroll"), ui.element("table").classes("stack"):
        with ui.element("caption"):
            words("span", caption)
            _copy(columns, rows)
        with ui.element("thead"), ui.element("tr"):
            for column in columns:
                words("th", column.name, "end" if column.number else "").props("scope=col")
        with ui.element("tbody"):
            for row in rows:
                _row(columns, row)


def _row(columns: Sequence[Column], row: Sequence[str]) -> None:
    with ui.element("tr"):
        for at, (column, cell) in enumerate(zip(columns, row, strict=True)):
            made = words("th" if at == 0 else "td", cell, "end" if column.number else "")
            made.props["data-label"] = column.name
            if at == 0:
                made.props("scope=row")


def _copy(columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> None:
    """A button that copies the whole table, cells parted by tabs."""
    lines = ["\t".join(c.name for c in columns), *("\t".join(row) for row in rows)]
    made = words("button", "copy table", "copy").props("type=button")
    made.props["data-copy"] = "\n".join(lines)
