"""Logger files as delimited text, read in pieces."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.compute as pc
import pyarrow.csv as pacsv

from racewright.errors import InputError
from racewright.records.ahead import ahead
from racewright.records.arrow_cells import arrow_values
from racewright.records.campaign.clean_bytes import TAKEN, CleanBytes
from racewright.records.campaign.even_time import EvenTime
from racewright.records.campaign.form import Chunk, Floats, Reading, Told, by_channel
from racewright.records.campaign.header import LoggerHeader, cells_of, find_header
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.campaign.row_fault import row_fault

HEAD = 1 << 20
"""Bytes that the header is looked for in."""
_LOOKED_AT = 1000
"""Rows that tell how stamps are written."""


def read_logger_csv(path: Path, columns: Sequence[str], form: LoggerForm, shown_as: str) -> Reading:
    """Read the wanted columns of a logger file.

    Parameters
    ----------
    path : Path
    columns : sequence of str
        The channels' columns, as spelt in the file.
    form : LoggerForm
    shown_as : str
        Name of the file in messages.

    Returns
    -------
    Reading
        The header is read at once, the rows when they are asked for.

    Raises
    ------
    InputError
        At once or while rows are taken: no such file or column, packed or damaged file, a row that cannot be read
        (with line), a clock that steps back.
    """
    wanted = list(columns) if form.clock == "rate" else [form.time_column, *columns]
    with CleanBytes(path, form.encoding, Told(), shown_as) as stream:
        lines = _head(stream).splitlines()
    header = find_header(lines, wanted, form, shown_as)
    told = Told(units={c: header.units[c] for c in columns if c in header.units}, preamble=header.preamble)
    stamps = _stamps(lines, header, form) if form.clock == "stamps" else _Stamps(zoned=False, comma=False)
    return Reading(told, ahead(_chunks(path, tuple(columns), form, header, told, shown_as, stamps)))


def _head(stream: CleanBytes) -> str:
    parts, size = [], 0
    while size < HEAD and (piece := stream.read(HEAD - size)):
        parts.append(piece)
        size += len(piece)
    return b"".join(parts).decode("utf-8", errors="replace")


@dataclass(frozen=True)
class _Stamps:
    """How a file writes its stamps: with their own offset, with a comma before parts of a second (both ISO 8601)."""

    zoned: bool
    comma: bool


def _stamps(lines: Sequence[str], header: LoggerHeader, form: LoggerForm) -> _Stamps:
    """As the first rows have them; a stamp on the whole second has no mark, so more than one is looked at."""
    place = header.names.index(form.time_column)
    rows = (cells_of(line, header.delimiter) for line in lines[header.skip : header.skip + _LOOKED_AT])
    cells = [row[place] for row in rows if place < len(row)]
    zoned = bool(cells) and bool(re.search(r"(Z|[+-]\d\d:?\d\d)$", cells[0]))
    return _Stamps(zoned, any(re.search(r":\d\d,\d", cell) for cell in cells))


def _chunks(
    path: Path,
    columns: tuple[str, ...],
    form: LoggerForm,
    header: LoggerHeader,
    told: Told,
    shown_as: str,
    stamps: _Stamps,
) -> Iterator[Chunk]:
    clock = EvenTime(told, shown_as)
    taken = 0
    with CleanBytes(path, form.encoding, told, shown_as) as stream:
        try:
            for batch in pacsv.open_csv(
                pa.PythonFile(stream, mode="r"),
                pacsv.ReadOptions(
                    use_threads=True,
                    block_size=TAKEN,
                    skip_rows=header.skip,
                    column_names=[f"{i}" for i in range(len(header.names))],
                ),
                pacsv.ParseOptions(delimiter=header.delimiter),
                _convert(columns, form, header, stamps),
            ):
                if batch.num_rows:
                    chunk = clock.take(*_columns(batch, columns, form, told, taken, stamps, clock.held), room=True)
                    taken += batch.num_rows
                    if chunk is not None:
                        yield chunk
        except pa.ArrowInvalid as fault:
            if "Empty CSV" not in str(fault):
                raise row_fault(path, header, columns, form, _sure(taken), shown_as) from None
    if (last := clock.rest()) is not None:
        yield last
    if not told.rows:
        raise InputError("holds a header but no rows", file=shown_as)


def _sure(taken: int) -> int:
    """Rows that were read well, less those that threads may have read ahead of a fault."""
    return max(0, taken - 1)


def _convert(
    columns: tuple[str, ...], form: LoggerForm, header: LoggerHeader, stamps: _Stamps
) -> pacsv.ConvertOptions:
    place = {name: str(header.names.index(name)) for name in columns}
    types: dict[str, pa.DataType] = {place[name]: pa.float64() for name in columns}
    if form.clock == "seconds":
        types[str(header.names.index(form.time_column))] = pa.float64()
    elif form.clock == "stamps":
        types[str(header.names.index(form.time_column))] = pa.string() if stamps.comma else _type(stamps)
    return pacsv.ConvertOptions(
        check_utf8=False,
        column_types=types,
        include_columns=list(types),
        null_values=list(form.missing),
        quoted_strings_can_be_null=True,
        decimal_point="," if form.decimal == "comma" else ".",
        timestamp_parsers=[pacsv.ISO8601],
    )


def _type(stamps: _Stamps) -> pa.DataType:
    return pa.timestamp("ns", tz="UTC" if stamps.zoned else None)


def _columns(
    batch: pa.RecordBatch,
    columns: tuple[str, ...],
    form: LoggerForm,
    told: Told,
    taken: int,
    stamps: _Stamps,
    room: int,
) -> tuple[Floats, Floats, np.typing.NDArray[np.bool_]]:
    """Time since the file's first row, values and where they are missing, below `room` empty rows."""
    size = batch.num_rows
    values, missing = by_channel(room + size, len(columns))
    for i in range(len(columns)):
        own, gone = values[room:, i], missing[room:, i]
        own[:], gone[:] = arrow_values(batch.column(i))
        known = np.isfinite(own)
        if not known.all():
            own[~known], gone[~known] = 0.0, True
    time = np.empty(room + size)
    time[room:] = _times(batch, len(columns), form, told, taken, stamps)
    return time, values, missing


def _times(batch: pa.RecordBatch, place: int, form: LoggerForm, told: Told, taken: int, stamps: _Stamps) -> Floats:
    """Time since the file's first row, by the clock in column `place` [s]."""
    if form.clock == "rate":
        return np.asarray((taken + np.arange(batch.num_rows)) / form.rate)
    clock = batch.column(place)
    if clock.null_count:
        raise pa.ArrowInvalid("no time")
    if form.clock == "seconds":
        time, _null = arrow_values(clock)
        if not np.isfinite(time).all():
            raise pa.ArrowInvalid("no time")
        if told.start is None and taken == 0:
            told.first_time = float(time[0])
        return time - told.first_time
    if stamps.comma:
        clock = pc.cast(pc.replace_substring(pc.utf8_trim_whitespace(clock), ",", "."), _type(stamps))
    ticks = np.asarray(clock.view(pa.int64()).to_numpy(zero_copy_only=False), dtype=np.int64)
    if told.start is None:
        told.first_tick = int(ticks[0])
        told.start = ticks[0] / 1e9 - (0.0 if stamps.zoned else form.zone)
    return np.asarray((ticks - told.first_tick) / 1e9)
