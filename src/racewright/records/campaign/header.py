"""The header of a logger file: below what junk it stands, which columns, whether a row of units follows."""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass

from racewright.errors import InputError, MissingColumn, UnitClash
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.cells import number, shorten

DEEPEST = 200
"""Lines that are searched for the header."""
KEPT_PREAMBLE = 10_000


@dataclass(frozen=True)
class LoggerHeader:
    """Where the rows begin.

    Attributes
    ----------
    delimiter : str
    names : tuple of str
        Every column, stripped.
    skip : int
        Lines above the first row of data.
    units : dict
        Unit by column; empty without a row of units.
    preamble : str
        Text above the header, and a row of marks below the row of units, as some loggers write.
    """

    delimiter: str
    names: tuple[str, ...]
    skip: int
    units: dict[str, str]
    preamble: str


def find_header(lines: Sequence[str], wanted: Sequence[str], form: LoggerForm, shown_as: str) -> LoggerHeader:
    """The first line that has all wanted columns.

    Parameters
    ----------
    lines : sequence of str
        The first lines of the file.
    wanted : sequence of str
        Column names, as spelt in the file.

    Raises
    ------
    InputError
        Empty file; no such line (MissingColumn of the nearest one); a wanted column twice.
    """
    if not any(line.strip() for line in lines):
        raise InputError("is empty; a header and rows below it are wanted", file=shown_as)
    best: tuple[int, int, int, list[str], str] | None = None
    for place, line in enumerate(lines[:DEEPEST]):
        for delimiter in form.delimiters:
            names = cells_of(line, delimiter)
            score = sum(name in names for name in wanted)
            if best is None or (score, len(names)) > best[:2]:
                best = (score, len(names), place, names, delimiter)
    assert best is not None
    score, _width, place, names, delimiter = best
    if score < len(wanted):
        missing = next(name for name in wanted if name not in names)
        hint = _encoding_hint("".join(lines[:DEEPEST]))
        if score == 0:
            message = f"no header with the column {missing!r} in the first {min(len(lines), DEEPEST)} lines{hint}"
            raise MissingColumn(message, missing, file=shown_as)
        listed = ", ".join(shorten(found) for found in names[:12]) + (", ..." if len(names) > 12 else "")
        message = f"no column {missing!r}; the columns are {listed}{hint}"
        raise MissingColumn(message, missing, file=shown_as, line=place + 1)
    for name in wanted:
        if names.count(name) > 1:
            raise InputError(f"the column {name!r} stands twice in the header", file=shown_as, line=place + 1)
    units = _word_row(lines[place + 1 :], names, wanted, delimiter, form)
    marks = _word_row(lines[place + 2 :], names, wanted, delimiter, form) if units else {}
    above = [*lines[:place], *([lines[place + 2]] if marks else [])]
    skip = place + 1 + bool(units) + bool(marks)
    return LoggerHeader(delimiter, tuple(names), skip, units, "\n".join(above)[:KEPT_PREAMBLE])


def bare_unit(text: str) -> str:
    """A unit without the brackets that loggers put about it."""
    return re.sub(r"^[\[(<]\s*|\s*[\])>]$", "", text.strip())


def agreed_unit(said: str, own: str, column: str, shown_as: str) -> str:
    """The unit that the scheme says of a column, which the file's own row of units must not contradict.

    Parameters
    ----------
    said, own : str
        The scheme's and the file's; either may be empty.
    column, shown_as : str
        Column and file, for the message.

    Raises
    ------
    UnitClash
    """
    if said and own and bare_unit(own) != said:
        message = f"its row of units says {own!r} for {column!r}; the scheme says {said!r}{_encoding_hint(own)}"
        raise UnitClash(message, column, file=shown_as)
    return said or own


def _encoding_hint(text: str) -> str:
    """What to do where text was read with marks in place of bytes that are not UTF-8."""
    if "\ufffd" not in text:
        return ""
    return "; the file holds bytes that are not UTF-8: say its encoding, like encoding = 'cp1252' or 'latin-1'"


def _word_row(
    below: Sequence[str], names: list[str], wanted: Sequence[str], delimiter: str, form: LoggerForm
) -> dict[str, str]:
    """Words by column when the first of these lines holds no number in any wanted column: units, or marks."""
    if not below:
        return {}
    cells = cells_of(below[0], delimiter)
    if len(cells) != len(names):
        return {}
    chosen = [cells[names.index(name)] for name in wanted]
    if any(_is_number(c, form) for c in chosen) or not any(re.search(r"[A-Za-z%°]", c) for c in chosen):
        return {}
    if any(re.match(r"\d{4}-\d\d-\d\d", c) for c in chosen):
        return {}
    return {name: bare_unit(cell) for name, cell in zip(names, cells, strict=True)}


def _is_number(cell: str, form: LoggerForm) -> bool:
    try:
        number(cell, form.decimal)
    except ValueError:
        return False
    return True


def cells_of(line: str, delimiter: str) -> list[str]:
    """Cells of one line, stripped; none of a line that cannot be parted."""
    try:
        return [cell.strip() for cell in next(csv.reader([line], delimiter=delimiter), [])]
    except csv.Error:
        return []
