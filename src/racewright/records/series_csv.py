"""A record of discharge or speed from a CSV file."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import numpy as np

from racewright.place.result import Series
from racewright.records.bulk_rows import bulk_rows
from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.series_rows import Rows, check_blanks, factor_of, read_rows
from racewright.records.zone import zone_offset


def read_series(
    path: Path,
    *,
    time_column: str,
    value_column: str,
    unit: str,
    kind: Literal["discharge", "speed"],
    zone: str,
    shown_as: str,
    form: CsvForm = PLAIN,
) -> Series:
    """Read one column of values against one column of time stamps.

    Blank values are gaps: they are counted, and skipped. Stamps must grow from row to row; the same stamp
    twice is an error, whether or not the values agree. With `form.order` 'any' the rows are sorted instead, and
    of rows with the same stamp and value one is kept; both are counted.

    Parameters
    ----------
    path : Path
        Text with a header line and one row for each stamp.
    time_column, value_column : str
        As spelt in the header.
    unit : str
        Of the values, a symbol of `racewright.quantity.units.UNITS`.
    kind : {'discharge', 'speed'}
    zone : str
        Of stamps without an offset of their own: 'UTC' or a fixed offset like '+05:45'.
    shown_as : str
        Name of the file in messages.
    form : CsvForm
        Delimiter, decimal mark, encoding, order of the rows; default UTF-8, decimal points, rising.

    Raises
    ------
    InputError
        With file, line and column where they apply; see `csv_rows.csv_rows`, `cells.number`, `cells.stamp`.
        Besides: a unit of another kind, a negative value, a value beyond `series_rows.MOST`, stamps that repeat or go
        back, more than half of the values blank, more than `series_rows.MOST_ROWS` values.
    """
    columns = (time_column, value_column)
    rows = bulk_rows(path, columns, factor_of(unit, kind), kind, zone_offset(zone), shown_as, form)
    if rows is None:
        rows = read_rows(path, columns, unit, kind, zone, shown_as, form)
    check_blanks(rows, value_column, shown_as)
    return series_of(rows, kind)


def series_of(rows: Rows, kind: Literal["discharge", "speed"]) -> Series:
    """The series of rows, without a copy."""
    return Series(
        kind=kind,
        time=np.frombuffer(rows.times, dtype=np.int64),
        value=np.frombuffer(rows.values, dtype=np.float64),
        blank=rows.blank,
        repeated=rows.repeated,
        backward=rows.backward,
    )
