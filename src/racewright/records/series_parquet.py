"""A record of discharge or speed from a Parquet file."""

from __future__ import annotations

import difflib
from array import array
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

import numpy as np
import pyarrow as pa
import pyarrow.parquet as pq
from numpy.typing import NDArray

from racewright.errors import InputError, MissingColumn
from racewright.place.result import Floats, Series
from racewright.records.arrow_cells import arrow_stamps, arrow_values, stamp_text
from racewright.records.cells import number, shorten
from racewright.records.csv_form import Order
from racewright.records.disorder import Clash, disorder, sort_rows
from racewright.records.parquet_file import check_parquet
from racewright.records.series_csv import series_of
from racewright.records.series_rows import MOST, MOST_ROWS, Rows, check_blanks, factor_of, outside, too_long
from racewright.records.zone import zone_offset

_BATCH = 1 << 18
"""Rows taken at a time."""


def read_series_parquet(
    path: Path,
    *,
    time_column: str,
    value_column: str,
    unit: str,
    kind: Literal["discharge", "speed"],
    zone: str,
    shown_as: str,
    order: Order = "rising",
) -> Series:
    """Read one column of values against one column of time stamps, a row group at a time.

    Null values are gaps, as blank cells of a CSV file: counted, and skipped. NaN is refused.

    Parameters
    ----------
    path : Path
    time_column, value_column : str
        Of the top level. Time: timestamps of any resolution in whole seconds, or dates. Values: floating,
        whole or decimal numbers.
    unit : str
        Of the values, a symbol of `racewright.quantity.units.UNITS`.
    kind : {'discharge', 'speed'}
    zone : str
        Of timestamps without a zone, and of dates: 'UTC' or a fixed offset like '+05:45'. Timestamps with a
        zone are UTC moments in the file already.
    shown_as : str
        Name of the file in messages.
    order : {'rising', 'any'}
        As for `csv_form.CsvForm`.

    Raises
    ------
    InputError
        As for `series_csv.read_series`, with the row (from 1) in place of the line; besides, all of
        `parquet_file.check_parquet`, a damaged file, a column of another type.
    """
    factor, shift = factor_of(unit, kind), zone_offset(zone)
    check_parquet(path, shown_as)
    columns = (time_column, value_column)
    try:
        # pre_buffer would hold a whole row group of compressed pages in memory besides its rows.
        with pq.ParquetFile(path, pre_buffer=False, page_checksum_verification=True) as file:
            _check_columns(file.schema_arrow, columns, shown_as)
            rows = _read(_batches(file, columns), columns, factor, kind, shift, shown_as, order)
    except (pa.ArrowException, OSError, UnicodeDecodeError):
        raise InputError("is damaged: it cannot be read as Parquet; write it anew", file=shown_as) from None
    check_blanks(rows, value_column, shown_as)
    return series_of(rows, kind)


def _check_columns(schema: pa.Schema, columns: tuple[str, str], shown_as: str) -> None:
    """Refuse missing and doubled columns, and columns of a type that cannot be meant."""
    for name in columns:
        if schema.names.count(name) > 1:
            raise InputError(f"the column {name!r} is there twice", file=shown_as)
        if name not in schema.names:
            near = difflib.get_close_matches(name, schema.names, n=1, cutoff=0.5)
            meant = f"; the nearest is {shorten(near[0])}" if near else ""
            listed = ", ".join(map(shorten, schema.names[:12])) + (", ..." if len(schema.names) > 12 else "")
            raise MissingColumn(f"no column {name!r}{meant}; the columns are {listed}", name, file=shown_as)
    time, value = (schema.field(name).type for name in columns)
    if not (pa.types.is_timestamp(time) or pa.types.is_date(time)):
        message = f"holds {shorten(str(time))}; timestamps or dates are wanted"
        if pa.types.is_integer(time):
            message += ", for a whole number does not say from when and in what it counts"
        raise InputError(message, file=shown_as, key=columns[0])
    if not (pa.types.is_floating(value) or pa.types.is_integer(value) or pa.types.is_decimal(value)):
        raise InputError(f"holds {shorten(str(value))}; numbers are wanted", file=shown_as, key=columns[1])


def _batches(file: pq.ParquetFile, columns: tuple[str, str]) -> Iterator[pa.RecordBatch]:
    for group in range(file.num_row_groups):
        yield from file.iter_batches(
            _BATCH, row_groups=[group], columns=list(dict.fromkeys(columns)), use_threads=False
        )


def _read(
    batches: Iterator[pa.RecordBatch],
    columns: tuple[str, str],
    factor: float,
    kind: str,
    shift: int,
    shown_as: str,
    order: Order,
) -> Rows:
    """Collect all rows; stamps and SI values packed, nulls counted."""
    times, values, places = array("q"), array("d"), array("q")
    done, blank, backward, last, disordered = 0, 0, 0, None, False
    for batch in batches:
        if batch.num_rows == 0:
            continue
        time, fault = arrow_stamps(batch.column(columns[0]), shift)
        value, is_blank = arrow_values(batch.column(columns[1]))
        before = np.concatenate(([time[0] - 1 if last is None else last], time))[:-1]
        sound = time.size if fault is None else fault[0]
        late = np.flatnonzero(time[:sound] <= before[:sound])
        limit = int(late[0]) if late.size and order == "rising" else sound
        _check_values(value[:limit], is_blank[:limit], factor, kind, columns[1], shown_as, done)
        if limit < sound:
            text = stamp_text(batch.column(columns[0]), limit)
            message = disorder(text, bool(time[limit] == before[limit]), f"row {done + limit}")
            raise _at(done + limit, message, columns[0], shown_as)
        if fault is not None:
            raise _at(done + fault[0], fault[1], columns[0], shown_as)
        disordered = disordered or late.size > 0
        backward += int((time < before).sum())
        last = time[-1]
        blank += int(is_blank.sum())
        kept = np.flatnonzero(~is_blank)
        if len(values) + kept.size > MOST_ROWS:
            raise InputError(too_long(), file=shown_as)
        times.frombytes(time[kept].tobytes())
        values.frombytes((value[kept] * factor).tobytes())
        if order == "any":
            places.frombytes((kept + done + 1).astype(np.int64).tobytes())
        done += time.size
    if done == 0:
        raise InputError("has no rows", file=shown_as)
    if not disordered:
        return Rows(times, values, blank)
    try:
        times, values, repeated = sort_rows(times, values, places, "row")
    except Clash as clash:
        raise _at(clash.second - 1, str(clash), columns[0], shown_as) from None
    return Rows(times, values, blank, repeated, backward)


def _check_values(
    value: Floats, is_blank: NDArray[np.bool_], factor: float, kind: str, column: str, shown_as: str, done: int
) -> None:
    """Refuse the first value that is no finite number, negative, or beyond any water."""
    scaled = value * factor
    bad = np.flatnonzero(~((scaled >= 0.0) & (scaled <= MOST[kind][0])) & ~is_blank)
    if bad.size == 0:
        return
    first = int(bad[0])
    text = repr(float(value[first]))
    try:
        message = outside(text, number(text) * factor, kind)
    except ValueError as fault:
        message = str(fault)
    raise _at(done + first, message, column, shown_as)


def _at(index: int, message: str, column: str, shown_as: str) -> InputError:
    """An error at a row counted from 0."""
    return InputError(f"row {index + 1}: {message}", file=shown_as, key=column)
