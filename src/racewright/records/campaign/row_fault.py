"""Which line of a logger file cannot be read, and why; slow, used when the quick reader has given up."""

from __future__ import annotations

import csv
import itertools
import re
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from racewright.errors import InputError
from racewright.records.campaign.header import LoggerHeader
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.cells import number, shorten
from racewright.records.text_file import open_text


def row_fault(
    path: Path, header: LoggerHeader, columns: Sequence[str], form: LoggerForm, sure: int, shown_as: str
) -> InputError:
    """The first fault, looked for from the row `sure` on.

    Parameters
    ----------
    columns : sequence of str
        The channels' columns, without the time column.
    sure : int
        Rows that were read well before.
    """
    with open_text(path, form.encoding, shown_as) as stream:
        first = header.skip + sure
        found = first_fault(itertools.islice(stream, first, None), first, header, columns, form, shown_as)
    return found or InputError("holds rows that cannot be read, of a kind not known here", file=shown_as)


def first_fault(
    lines: Iterable[str], above: int, header: LoggerHeader, columns: Sequence[str], form: LoggerForm, shown_as: str
) -> InputError | None:
    """The first fault of some lines, `above` lines of the file standing before them; None without one."""
    places = {name: header.names.index(name) for name in columns}
    time = header.names.index(form.time_column) if form.clock != "rate" else None
    for offset, cells in enumerate(_rows(csv.reader(lines, delimiter=header.delimiter)), start=1):
        line = above + offset
        if not cells:
            continue
        if len(cells) != len(header.names):
            message = f"has {len(cells)} cells; the header has {len(header.names)}{_comma_hint(cells, header, form)}"
            return InputError(message, file=shown_as, line=line)
        if time is not None and not _is_time(cells[time].strip(), form):
            wanted = "seconds like 0.25" if form.clock == "seconds" else "a stamp like '2026-05-04T09:00:00.25'"
            text = cells[time].strip()
            message = f"{shorten(text)} is no time; {wanted} is wanted{_split_there(text) or _mark_hint(text, form)}"
            return InputError(message, file=shown_as, line=line, key=form.time_column)
        for name, place in places.items():
            fault = _number_fault(cells[place].strip(), form)
            if fault:
                return InputError(fault, file=shown_as, line=line, key=name)
    return None


def _comma_hint(cells: Sequence[str], header: LoggerHeader, form: LoggerForm) -> str:
    if header.delimiter != "," or len(cells) < len(header.names) or form.decimal == "comma":
        return ""
    return "; were decimals written with a comma, the cells need another mark between them, like ';'"


def _mark_hint(text: str, form: LoggerForm) -> str:
    """How to say that the other decimal mark is used."""
    mark, said = (",", "comma") if form.decimal == "point" else (".", "point")
    if re.fullmatch(rf"[+-]?\d+[{mark}]\d+([eE][+-]?\d+)?", text):
        return f"; where the whole file has it, say decimal = '{said}' in the logger's table"
    return ""


def _rows(reader: Iterator[list[str]]) -> Iterator[list[str]]:
    """Rows as the reader gives them; one that it cannot part becomes a single cell that is no number."""
    while True:
        try:
            yield next(reader)
        except StopIteration:
            return
        except csv.Error:
            yield ["\0"]


def _is_time(text: str, form: LoggerForm) -> bool:
    if form.clock == "stamps":
        return bool(re.fullmatch(r"\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d([.,]\d{1,9})?)?(Z|[+-]\d\d:?\d\d)?", text))
    try:
        number(text, form.decimal)
    except ValueError:
        return False
    return True


def _number_fault(text: str, form: LoggerForm) -> str:
    if text in form.missing:
        return ""
    try:
        number(text, form.decimal)
    except ValueError as fault:
        return str(fault) + (_split_there(text) or _mark_hint(text, form))
    return ""


def _split_there(text: str) -> str:
    """What to do about a cell that looks like a unit."""
    if re.fullmatch(r"[\[(]?[A-Za-z%°µ/·*^0-9 .-]{1,12}[\])]?", text) and re.search(r"[A-Za-z%°]", text):
        return "; if this is a second row of units, the units change within the file: split it there"
    return ""
