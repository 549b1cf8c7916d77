"""Cells of named columns, checked one by one; loads no numerical library."""

from __future__ import annotations

import math
from array import array
from collections.abc import Mapping
from pathlib import Path

from racewright.errors import InputError
from racewright.quantity.units import UNITS
from racewright.records.cells import number, shorten
from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.csv_rows import csv_rows


def read_cells(path: Path, columns: Mapping[str, str], shown_as: str, form: CsvForm = PLAIN) -> list[array[float]]:
    """SI values of each named column, in the order asked for; errors as for `table_csv.read_columns`."""
    units = []
    for symbol in columns.values():
        if symbol not in UNITS:
            raise InputError(f"{shorten(symbol)} is not a known unit; write one like 'm' or 'm/s'", key="unit")
        units.append(UNITS[symbol])
    names = list(columns)
    store = [array("d") for _ in names]
    for line, cells in csv_rows(path, names, shown_as, form):
        for name, text, unit, values in zip(names, cells, units, store, strict=True):
            if not text:
                raise InputError("the cell is blank; every row needs a number", file=shown_as, line=line, key=name)
            try:
                value = number(text, form.decimal) * unit.factor + unit.offset
            except ValueError as fault:
                raise InputError(str(fault), file=shown_as, line=line, key=name) from None
            if not math.isfinite(value):
                raise InputError(f"{shorten(text)} is too large", file=shown_as, line=line, key=name)
            values.append(value)
    return store
