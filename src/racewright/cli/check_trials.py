"""A campaign's files for `racewright check`: headers of logger files, calibrations, pieces; no numerical library."""

from __future__ import annotations

from typing import Any

from racewright.cli.check_logger import check_logger
from racewright.errors import InputError, MissingColumn, UnitClash
from racewright.ledger.convert import duct_of
from racewright.ledger.trials_mapping import at_mapping, check_columns
from racewright.machine.duct_width import least_across
from racewright.record_rules import check_piece, seconds_held
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.csv_form import CsvForm
from racewright.records.csv_rows import csv_rows
from racewright.records.table_rows import read_cells
from racewright.scheme import LoadedScheme
from racewright.scheme.trials_tables import RunTable, TrialsTable

_BINARY = (".parquet", ".pq", ".tdms")
_SLACK = 1.0
"""Seconds by which a time may pass the end of a file, as for the import."""


def check_trials(loaded: LoadedScheme, name: str) -> str:
    """Check every file that a campaign names; say what there is.

    Raises
    ------
    InputError
        A file is missing or unreadable, has not the columns that the scheme names, or holds what the import would
        refuse; a time lies beyond its run's file; a channel is no larger than the duct.
    """
    table = loaded.scheme.trials[name]
    at = ("trials", name)
    check_columns(loaded, name)
    _check_fits(loaded, name)
    kept = [run for run in table.runs if _check_run(loaded, table, run, at)]
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
    gone = f"; no logger file, from the store: {', '.join(kept)}" if kept else ""
    return f"{len(table.runs)} runs, {len(table.channels)} channels{doses}{gone}"


def _check_run(loaded: LoadedScheme, table: TrialsTable, run: str, at: tuple[str, ...]) -> bool:
    """Check the logger's file of a run; True where it is gone and the campaign's store has the run."""
    one, here = table.runs[run], (*at, "runs", run)
    store = loaded.folder / f"campaign_{at[-1]}" / "raw"
    if one.file and not (loaded.folder / one.file).exists() and any(store.glob(f"{run}-*.parquet")):
        return True
    path = loaded.data_file(one.file, *here, "file")
    if path.suffix.lower() in _BINARY:
        return False
    columns = {channel.column: channel.unit for channel in table.channels.values()}
    try:
        seconds = check_logger(path, columns, _form(table.logger), table.logger.rate)
    except (MissingColumn, UnitClash) as fault:
        raise at_mapping(loaded, at[-1], fault) from None
    except InputError as fault:
        if fault.key == "trials.logger.rate":
            raise loaded.error(fault.message, *at, "logger", "rate") from None
        raise
    if seconds is not None:
        _check_times(loaded, one, seconds, here)
    return False


def _check_times(loaded: LoadedScheme, run: RunTable, seconds: float, here: tuple[str, ...]) -> None:
    """Times of the run within its file, `seconds` long."""
    begin = run.begin or 0.0
    times: list[tuple[tuple[str, ...], float]] = [
        ((key,), getattr(run, key)) for key in ("begin", "end", "cleaned") if getattr(run, key) is not None
    ]
    times += [
        (("tares", name, key), getattr(span, key)) for name, span in run.tares.items() for key in ("start", "end")
    ]
    for keys, time in times:
        end = seconds
        if keys[0] in ("tares", "cleaned"):
            end = (seconds if run.end is None else min(run.end, seconds)) - begin
        if time > end + _SLACK:
            message = (
                f"{time:g} s lies beyond the end of run {here[-1]!r}: {run.file} ends {seconds:.6g} s after its first"
                f" row; a time up to {max(end, 0.0):.6g} s is wanted"
            )
            raise loaded.error(message, *here, *keys)


def _check_fits(loaded: LoadedScheme, name: str) -> None:
    """Widths and depths against the least width of each duct that is tested; only the import knows all of it."""
    table = loaded.scheme.trials[name]
    for case in loaded.scheme.case.values():
        machine = loaded.scheme.machine.get(case.machine or "")
        if case.trials != name or machine is None:
            continue
        across = least_across(duct_of({"machine.duct": machine.duct.model_dump()}))
        sizes: list[tuple[tuple[str, ...], float | None]] = [
            (("rig", key), getattr(table.rig, key)) for key in ("width", "depth")
        ]
        sizes += [(("runs", n, key), getattr(r, key)) for n, r in table.runs.items() for key in ("width", "depth")]
        for keys, size in sizes:
            if size is not None and not size > across:
                message = (
                    f"{size:g} m is no larger than the duct, at least {across:.4g} m across; the whole duct must"
                    " stand inside the channel"
                )
                raise loaded.error(message, "trials", name, *keys)


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
    count = dict.fromkeys(table.doses, 0)
    try:
        for line, (dose, outcome, where, cleared, held) in csv_rows(path, columns, str(path), _text(pieces)):
            if dose not in count:
                raise InputError(f"no dose {dose!r}; there are {', '.join(count)}", file=str(path), line=line)
            count[dose] += 1
            try:
                seconds = seconds_held(held, pieces.decimal)
                check_piece(dose, outcome, where or "none", cleared or "not needed", seconds)
            except InputError as fault:
                raise InputError(fault.message, file=str(path), line=line) from None
            if count[dose] > table.doses[dose].count:
                message = f"{count[dose]} pieces of dose {dose!r}; {table.doses[dose].count} were let go"
                raise InputError(message, file=str(path), line=line)
    except MissingColumn as fault:
        raise loaded.column_error(fault, pieces, *keys) from None
