"""Which line of a logger file cannot be read, and why; slow, used when the quick reader has given up."""

from __future__ import annotations

import csv
import itertools
import re
from collections.abc import Iterator, Sequence
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
    places = {name: header.names.index(name) for name in columns}
    time = header.names.index(form.time_column) if form.clock != "rate" else None
    with open_text(path, form.encoding, shown_as) as stream:
        first = header.skip + sure
        reader = csv.reader(itertools.islice(stream, first, None), delimiter=header.delimiter)
        for offset, cells in enumerate(_rows(reader), start=1):
            line = first + offset
            if not cells:
                continue
            if len(cells) != len(header.names):
                message = f"has {len(cells)} cells; the header has {len(header.names)}"
                return InputError(message, file=shown_as, line=line)
            if time is not None and not _is_time(cells[time].strip(), form):
                wanted = "seconds like 0.25" if form.clock == "seconds" else "a stamp like '2026-05-04T09:00:00.25'"
                message = f"{shorten(cells[time])} is no time; {wanted} is wanted{_split_there(cells[time].strip())}"
                return InputError(message, file=shown_as, line=line, key=form.time_column)
            for name, place in places.items():
                fault = _number_fault(cells[place].strip(), form)
                if fault:
                    return InputError(fault, file=shown_as, line=line, key=name)
    return InputError("holds rows that cannot be read, of a kind not known here", file=shown_as)


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
        return bool(re.fullmatch(r"\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d(\.\d{1,9})?)?(Z|[+-]\d\d:?\d\d)?", text))
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
        return str(fault) + _split_there(text)
    return ""


def _split_there(text: str) -> str:
    """What to do about a cell that looks like a unit."""
    if re.fullmatch(r"[\[(]?[A-Za-z%°µ/·*^0-9 .-]{1,12}[\])]?", text) and re.search(r"[A-Za-z%°]", text):
        return "; if this is a second row of units, the units change within the file: split it there"
    return ""
