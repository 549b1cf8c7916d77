"""A logger's text file for `racewright check`, by the import's own rules, from a part of the file; no NumPy."""

from __future__ import annotations

import csv
import itertools
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path

from racewright.errors import InputError
from racewright.records.campaign.header import LoggerHeader, agreed_unit, find_header
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.campaign.logger_rate import check_rate
from racewright.records.campaign.row_fault import first_fault
from racewright.records.text_file import open_text

_HEAD = 600
"""Lines of a logger file that are looked at."""
_TAIL = 1 << 16
"""Bytes of its end in which the last row is looked for."""


def check_logger(path: Path, columns: Mapping[str, str], form: LoggerForm, rate: float) -> float | None:
    """Check header, units, first rows and rate; say how long the file lasts.

    Parameters
    ----------
    path : Path
    columns : mapping of str to str
        Unit that the scheme says, by column.
    form : LoggerForm
    rate : float
        Rows a second as stated [Hz].

    Returns
    -------
    float or None
        From the first row to the last; None where no clock tells [s].

    Raises
    ------
    InputError
        What the import would refuse of these lines.
    """
    shown = str(path)
    wanted = [*columns, *([form.time_column] if form.clock != "rate" else [])]
    with open_text(path, form.encoding, shown) as stream:
        lines = list(itertools.islice(stream, _HEAD))
    bare = [line.rstrip("\r\n") for line in lines]
    header = find_header(bare, wanted, form, shown)
    for column, said in columns.items():
        agreed_unit(said, header.units.get(column, ""), column, shown)
    below = lines[header.skip :]
    if below and not below[-1].endswith(("\n", "\r")):
        below.pop()  # a last line without end is left out by the import too
    fault = first_fault(below, header.skip, header, list(columns), form, shown)
    if fault is not None:
        raise fault
    if form.clock == "rate":
        return None
    times = [time for line in below if (time := _time(line, header, form)) is not None]
    if not times:
        raise InputError("holds a header but no rows", file=shown)
    check_rate(times, rate, path.name)
    last = _last(path, header, form)
    return None if last is None else last - times[0]


def _time(line: str, header: LoggerHeader, form: LoggerForm) -> float | None:
    """Time of a row; None of a blank or broken one [s]."""
    try:
        cells = next(csv.reader([line], delimiter=header.delimiter), [])
    except csv.Error:
        return None
    if len(cells) != len(header.names):
        return None
    cell = cells[header.names.index(form.time_column)].strip()
    try:
        if form.clock == "stamps":
            return datetime.fromisoformat(cell).timestamp()
        return float(cell.replace(",", ".") if form.decimal == "comma" else cell)
    except ValueError:
        return None


def _last(path: Path, header: LoggerHeader, form: LoggerForm) -> float | None:
    """Time of the last whole row of a file of one byte a letter; None where it is not found [s]."""
    if form.encoding == "utf-16":
        return None
    with path.open("rb") as stream:
        stream.seek(max(0, path.stat().st_size - _TAIL))
        lines = stream.read().decode("latin-1").split("\n")[1:-1]
    return next((time for line in reversed(lines) if (time := _time(line, header, form)) is not None), None)
