"""A record of discharge or speed from a CSV file."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import numpy as np

from racewright.place.result import Series
from racewright.records.series_rows import read_rows


def read_series(
    path: Path,
    *,
    time_column: str,
    value_column: str,
    unit: str,
    kind: Literal["discharge", "speed"],
    zone: str,
    shown_as: str,
) -> Series:
    """Read one column of values against one column of time stamps.

    Blank values are gaps: they are counted, and skipped. Stamps must grow from row to row; the same stamp
    twice is an error, whether or not the values agree.

    Parameters
    ----------
    path : Path
        UTF-8 text with a header; comma, semicolon or tab between cells; decimal point.
    time_column, value_column : str
        As spelt in the header.
    unit : str
        Of the values, a symbol of `racewright.quantity.units.UNITS`.
    kind : {'discharge', 'speed'}
    zone : str
        Of stamps without an offset of their own: 'UTC' or a fixed offset like '+05:45'.
    shown_as : str
        Name of the file in messages.

    Raises
    ------
    InputError
        With file, line and column where they apply; see `csv_rows.csv_rows`, `cells.number`, `cells.stamp`.
        Besides: a unit of another kind, a negative value, a value beyond `series_rows.MOST`, stamps that repeat or go
        back, more than half of the values blank.
    """
    rows = read_rows(path, (time_column, value_column), unit, kind, zone, shown_as)
    return Series(
        kind=kind,
        time=np.array(rows.times, dtype=np.int64),
        value=np.array(rows.values, dtype=np.float64),
        blank=rows.blank,
    )
