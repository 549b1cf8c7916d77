"""The header of a delimited text file: which delimiter, which columns."""

from __future__ import annotations

import csv
import difflib
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TextIO

from racewright.errors import InputError, MissingColumn
from racewright.records.cells import shorten
from racewright.records.csv_form import CsvForm


@dataclass(frozen=True)
class Header:
    """Delimiter, number of columns, place of each wanted column, and the header's line counted from 1."""

    delimiter: str
    width: int
    index: tuple[int, ...]
    line: int


def read_header(stream: TextIO, wanted: Sequence[str], form: CsvForm, shown_as: str) -> Header:
    """Read up to and with the header, passing over blank lines and lines that start with '#'.

    Raises
    ------
    InputError
        No header, a broken quote in it, a wanted column missing or there twice.
    """
    line, text = 0, ""
    for text in stream:
        line += 1
        if text.strip() and not text.startswith("#"):
            break
    else:
        columns = " and ".join(repr(name) for name in wanted)
        raise InputError(f"is empty; a header with the columns {columns} and rows below it are wanted", file=shown_as)
    tried = []
    for delimiter in form.delimiters:
        try:
            names = [name.strip() for name in next(csv.reader([text], delimiter=delimiter))]
        except csv.Error as fault:
            raise InputError(f"broken header: {fault}", file=shown_as, line=line) from None
        tried.append((sum(name in names for name in wanted), len(names), delimiter, names))
    _, _, delimiter, names = max(tried, key=lambda item: item[:2])
    for name in wanted:
        if names.count(name) != 1:
            raise MissingColumn(_not_once(name, names), name, file=shown_as, line=line)
    return Header(delimiter, len(names), tuple(names.index(name) for name in wanted), line)


def _not_once(name: str, names: list[str]) -> str:
    """Explain a wanted column that is missing or there twice."""
    if name in names:
        return f"the column {name!r} stands twice in the header"
    near = difflib.get_close_matches(name, names, n=1, cutoff=0.5)
    meant = f"; the nearest is {shorten(near[0])}" if near else ""
    listed = ", ".join(shorten(found) for found in names[:12]) + (", ..." if len(names) > 12 else "")
    return f"no column {name!r}{meant}; the columns are {listed}"
