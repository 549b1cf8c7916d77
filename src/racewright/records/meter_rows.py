"""Rows of a meter's text file; loads no numerical library."""

from __future__ import annotations

from array import array
from pathlib import Path

from racewright.errors import InputError
from racewright.records.cells import number, shorten, stamp
from racewright.records.csv_form import CsvForm
from racewright.records.csv_rows import csv_rows


def meter_rows(
    path: Path, columns: tuple[str, str], factor: float, shown_as: str, form: CsvForm
) -> tuple[array[int], array[float]]:
    """What the clock showed [s since 1970-01-01 local] and powers >= 0 [W], in the order of the file.

    Parameters
    ----------
    path : Path
    columns : (str, str)
        Of stamps and powers; rows with a blank power are gaps and passed over.
    factor : float
        Watts in one unit of the powers.
    shown_as : str
        Name of the file in messages.
    form : CsvForm

    Raises
    ------
    InputError
        With file, line and column: a cell that is no stamp or no power.
    """
    times, values = array("q"), array("d")
    for line, (time_text, value_text) in csv_rows(path, columns, shown_as, form):
        column = columns[0]
        try:
            time = stamp(time_text, 0)
            if not value_text:
                continue
            column = columns[1]
            power = number(value_text, form.decimal) * factor
            if power < 0.0:
                raise ValueError(f"{shorten(value_text)} is negative; leave the cell blank where there is no value")
        except ValueError as fault:
            raise InputError(str(fault), file=shown_as, line=line, key=column) from None
        times.append(time)
        values.append(power)
    return times, values
