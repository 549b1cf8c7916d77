"""Logger files as Parquet, read in pieces."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Sequence
from pathlib import Path

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq

from racewright.errors import InputError, MissingColumn
from racewright.records.arrow_cells import arrow_values
from racewright.records.campaign.even_time import EvenTime
from racewright.records.campaign.form import Chunk, Floats, Reading, Told, by_channel
from racewright.records.campaign.logger_form import LoggerForm
from racewright.records.cells import shorten
from racewright.records.parquet_file import check_parquet

ROWS = 1 << 17
"""Rows taken at a time."""


def read_logger_parquet(path: Path, columns: Sequence[str], form: LoggerForm, shown_as: str) -> Reading:
    """Read the wanted columns of a Parquet file; parameters, answer and errors as for `read_logger_csv`."""
    check_parquet(path, shown_as)
    try:
        schema = pq.read_schema(path)
    except (pa.ArrowInvalid, OSError) as fault:
        raise InputError(f"cannot be read as Parquet: {_short(fault)}", file=shown_as) from None
    wanted = list(columns) if form.clock == "rate" else [form.time_column, *columns]
    for name in wanted:
        if schema.names.count(name) != 1:
            listed = ", ".join(shorten(found) for found in schema.names[:12])
            raise MissingColumn(f"no column {name!r}; the columns are {listed}", name, file=shown_as)
    for name in columns:
        kind = schema.field(name).type
        if not (pa.types.is_floating(kind) or pa.types.is_integer(kind) or pa.types.is_decimal(kind)):
            raise InputError(f"holds {kind}; numbers are wanted", file=shown_as, key=name)
    if form.clock == "stamps" and not pa.types.is_timestamp(schema.field(form.time_column).type):
        raise InputError("holds no time stamps; say clock = 'seconds'", file=shown_as, key=form.time_column)
    units = {c: _unit(schema.field(c)) for c in columns}
    told = Told(units={c: u for c, u in units.items() if u})
    return Reading(told, _chunks(path, tuple(columns), tuple(wanted), form, told, shown_as))


def _unit(field: pa.Field) -> str:
    said = (field.metadata or {}).get(b"unit", b"")
    return str(said.decode("utf-8", errors="replace"))[:40]


def _chunks(
    path: Path, columns: tuple[str, ...], wanted: tuple[str, ...], form: LoggerForm, told: Told, shown_as: str
) -> Iterator[Chunk]:
    clock, taken = EvenTime(told, shown_as), 0
    try:
        with path.open("rb") as stream:
            told.sha256 = hashlib.file_digest(stream, "sha256").hexdigest()
        with pq.ParquetFile(path) as file:
            for batch in file.iter_batches(ROWS, columns=list(wanted)):
                chunk = clock.take(*_part(batch, columns, form, told, taken, shown_as))
                taken += batch.num_rows
                if chunk is not None:
                    yield chunk
    except (pa.ArrowInvalid, OSError) as fault:
        raise InputError(f"cannot be read as Parquet: {_short(fault)}", file=shown_as) from None
    if (last := clock.rest()) is not None:
        yield last
    if not told.rows:
        raise InputError("holds no rows", file=shown_as)


def _part(
    batch: pa.RecordBatch, columns: tuple[str, ...], form: LoggerForm, told: Told, taken: int, shown_as: str
) -> tuple[Floats, Floats, np.typing.NDArray[np.bool_]]:
    size = batch.num_rows
    values, missing = by_channel(size, len(columns))
    for i, name in enumerate(columns):
        values[:, i], missing[:, i] = arrow_values(batch.column(name))
    broken = ~np.isfinite(values)
    values[broken], missing[broken] = 0.0, True
    if form.clock == "rate":
        return (taken + np.arange(size)) / form.rate, values, missing
    column = batch.column(form.time_column)
    if column.null_count:
        row = taken + int(np.argmax(column.is_null().to_numpy(zero_copy_only=False))) + 1
        raise InputError(f"row {row} has no time", file=shown_as, key=form.time_column)
    if form.clock == "stamps":
        naive = column.type.tz is None
        ticks = np.asarray(column.cast(pa.timestamp("ns", tz=column.type.tz)).view(pa.int64()), dtype=np.int64)
        if told.start is None:
            told.first_tick = int(ticks[0])
            told.start = ticks[0] / 1e9 - (form.zone if naive else 0.0)
        return (ticks - told.first_tick) / 1e9, values, missing
    time, _null = arrow_values(column)
    if not np.isfinite(time).all():
        raise InputError("holds times that are not finite", file=shown_as, key=form.time_column)
    if taken == 0:
        told.first_time = float(time[0])
    return time - told.first_time, values, missing


def _short(fault: Exception) -> str:
    return str(fault).split("\n")[0][:160]
