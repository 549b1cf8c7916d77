"""Columns of numbers from a CSV file: transects, histograms."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import numpy as np

from racewright.place.result import Floats
from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.table_rows import read_cells


def read_columns(path: Path, columns: Mapping[str, str], shown_as: str, form: CsvForm = PLAIN) -> dict[str, Floats]:
    """Read named columns in full, each in its unit.

    Parameters
    ----------
    path : Path
        As for `series_csv.read_series`.
    columns : mapping of str to str
        Column name as spelt in the header, to unit symbol of `racewright.quantity.units.UNITS`; '1' for a
        plain fraction.
    shown_as : str
        Name of the file in messages.
    form : CsvForm
        Delimiter, decimal mark and encoding; default UTF-8 with decimal points.

    Returns
    -------
    dict of str to ndarray
        SI values by column name, rows in the file's order.

    Raises
    ------
    InputError
        With file, line and column: all of `csv_rows.csv_rows`, an unknown unit, a blank cell, a cell that is
        no finite number.
    """
    cells = read_cells(path, columns, shown_as, form)
    return {name: np.array(values, dtype=np.float64) for name, values in zip(columns, cells, strict=True)}
