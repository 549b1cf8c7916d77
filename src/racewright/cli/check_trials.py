"""A campaign's files for `racewright check`: headers of logger files, calibrations, pieces; no numerical library."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from racewright.errors import InputError, MissingColumn
from racewright.records.campaign.header import find_header
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.csv_form import CsvForm
from racewright.records.csv_rows import csv_rows
from racewright.records.table_rows import read_cells
from racewright.records.text_file import open_text
from racewright.scheme import LoadedScheme
from racewright.scheme.trials_tables import TrialsTable

_HEAD = 400
"""Lines of a logger file that are looked at."""
_BINARY = (".parquet", ".pq", ".tdms")


def check_trials(loaded: LoadedScheme, name: str) -> str:
    """Check every file that a campaign names; say what there is.

    Raises
    ------
    InputError
        A file is missing, unreadable, or has not the columns that the scheme names.
    """
    table = loaded.scheme.trials[name]
    at = ("trials", name)
    for run, one in table.runs.items():
        path = loaded.data_file(one.file, *at, "runs", run, "file")
        if path.suffix.lower() not in _BINARY:
            _check_header(loaded, table, path, at)
    for channel, found in table.channels.items():
        points = found.calibration.points
        if points is None:
            continue
        keys = (*at, "channels", channel, "calibration", "points")
        path = loaded.data_file(points.file, *keys, "file")
        columns = {points.raw_column: "1", points.value_column: points.value_unit}
        try:
            rows = read_cells(path, columns, str(path), _text(points))
        except MissingColumn as fault:
            raise loaded.column_error(fault, points, *keys) from None
        if len(rows[0]) < points.degree + 2:
            message = f"{len(rows[0])} points cannot fix a polynomial of degree {points.degree} and its scatter"
            raise InputError(message, file=str(path))
    _check_pieces(loaded, table, at)
    doses = f", {len(table.doses)} doses" if table.doses else ""
    return f"{len(table.runs)} runs, {len(table.channels)} channels{doses}"


def _check_header(loaded: LoadedScheme, table: TrialsTable, path: Path, at: tuple[str, ...]) -> None:
    form = _form(table.logger)
    wanted = [channel.column for channel in table.channels.values()]
    if table.logger.clock != "rate":
        wanted.append(table.logger.time_column)
    with open_text(path, table.logger.encoding, str(path)) as stream:  # type: ignore[arg-type]
        lines = [line.rstrip("\r\n") for line, _ in zip(stream, range(_HEAD), strict=False)]
    try:
        find_header(lines, wanted, form, str(path))
    except MissingColumn as fault:
        for name, channel in table.channels.items():
            if channel.column == fault.column:
                raise loaded.column_error(fault, channel, *at, "channels", name) from None
        raise loaded.column_error(fault, table.logger, *at, "logger") from None


def _text(table: Any) -> CsvForm:
    return CsvForm(table.delimiter, table.decimal, table.encoding)


def _form(logger: Any) -> LoggerForm:
    return LoggerForm(
        logger.delimiter,
        logger.decimal,
        logger.encoding,
        logger.clock,
        logger.time_column,
        logger.rate,
    )


def _check_pieces(loaded: LoadedScheme, table: TrialsTable, at: tuple[str, ...]) -> None:
    pieces = table.pieces
    if pieces is None:
        return
    keys = (*at, "pieces")
    path = loaded.data_file(pieces.file, *keys, "file")
    columns = [getattr(pieces, f"{key}_column") for key in ("dose", "outcome", "where", "cleared", "held")]
    try:
        for line, cells in csv_rows(path, columns, str(path), _text(pieces)):
            if cells[0] not in table.doses:
                known = ", ".join(table.doses)
                raise InputError(f"no dose {cells[0]!r}; there are {known}", file=str(path), line=line)
    except MissingColumn as fault:
        raise loaded.column_error(fault, pieces, *keys) from None
