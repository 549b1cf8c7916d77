"""Stamps of a local clock and powers from a meter's file."""

from __future__ import annotations

from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.place.result import Floats
from racewright.records.csv_form import CsvForm
from racewright.records.endings import format_of
from racewright.records.meter_rows import meter_rows
from racewright.records.series_rows import factor_of


def read_meter(
    path: Path, time_column: str, value_column: str, unit: str, shown_as: str, form: CsvForm
) -> tuple[NDArray[np.int64], Floats]:
    """Read a meter's rows in the order of the file; blank powers are gaps.

    Parameters
    ----------
    path : Path
        Delimited text, or Parquet.
    time_column, value_column : str
    unit : str
        Of power.
    shown_as : str
        Name of the file in messages.
    form : CsvForm

    Returns
    -------
    (ndarray of int64, ndarray)
        What the clock showed [s since 1970-01-01 local], power >= 0 [W].

    Raises
    ------
    InputError
        With file, line and column: cells that are no stamps or no powers, a unit of something else.
    """
    factor = factor_of(unit, "power")
    if format_of(path, form, shown_as) == "parquet":
        return _parquet(path, time_column, value_column, factor, shown_as)
    times, values = meter_rows(path, (time_column, value_column), factor, shown_as, form)
    return np.frombuffer(times, dtype=np.int64), np.frombuffer(values, dtype=np.float64)


def _parquet(
    path: Path, time_column: str, value_column: str, factor: float, shown_as: str
) -> tuple[NDArray[np.int64], Floats]:
    import pyarrow as pa
    import pyarrow.parquet as pq

    from racewright.records.arrow_cells import arrow_stamps, arrow_values
    from racewright.records.parquet_file import check_parquet
    from racewright.records.series_parquet import _check_columns

    check_parquet(path, shown_as)
    try:
        with pq.ParquetFile(path) as file:
            _check_columns(file.schema_arrow, (time_column, value_column), shown_as)
        table = pq.read_table(path, columns=[time_column, value_column]).combine_chunks()
    except (pa.ArrowException, OSError, UnicodeDecodeError):
        raise InputError("is damaged: it cannot be read as Parquet; write it anew", file=shown_as) from None
    batch = table.to_batches()[0] if table.num_rows else None
    if batch is None:
        raise InputError("has no rows", file=shown_as)
    time, fault = arrow_stamps(batch.column(time_column), 0)
    if fault is not None:
        raise InputError(f"row {fault[0] + 1}: {fault[1]}", file=shown_as, key=time_column)
    value, blank = arrow_values(batch.column(value_column))
    power = value[~blank] * factor
    bad = np.flatnonzero(~(np.isfinite(power) & (power >= 0.0)))
    if bad.size:
        message = f"row {int(np.flatnonzero(~blank)[bad[0]]) + 1}: wanted finite powers of 0 or more"
        raise InputError(message, file=shown_as, key=value_column)
    return time[~blank], power
