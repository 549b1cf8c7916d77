"""Columns of numbers from a CSV file: transects, histograms."""

from __future__ import annotations

import math
from array import array
from collections.abc import Mapping
from pathlib import Path

import numpy as np

from racewright.errors import InputError
from racewright.place.result import Floats
from racewright.quantity.units import UNITS
from racewright.records.cells import number, shorten
from racewright.records.csv_rows import csv_rows


def read_columns(path: Path, columns: Mapping[str, str], shown_as: str) -> dict[str, Floats]:
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
    units = []
    for symbol in columns.values():
        if symbol not in UNITS:
            raise InputError(
                f"{shorten(symbol)} is not a known unit; write one like 'm' or 'm/s'", key="unit"
            )
        units.append(UNITS[symbol])
    names = list(columns)
    store = [array("d") for _ in names]
    for line, cells in csv_rows(path, names, shown_as):
        for name, text, unit, values in zip(names, cells, units, store, strict=True):
            if not text:
                raise InputError(
                    "the cell is blank; every row needs a number", file=shown_as, line=line, key=name
                )
            try:
                value = number(text) * unit.factor + unit.offset
            except ValueError as fault:
                raise InputError(str(fault), file=shown_as, line=line, key=name) from None
            if not math.isfinite(value):
                raise InputError(f"{shorten(text)} is too large", file=shown_as, line=line, key=name)
            values.append(value)
    return {name: np.array(values, dtype=np.float64) for name, values in zip(names, store, strict=True)}
