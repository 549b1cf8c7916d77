"""A tidal record from a text file."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from racewright.errors import InputError
from racewright.place.tide_record import TideRecord, tide_record
from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.tide_rows import TideForm, read_tide_rows


def read_tide(
    path: Path,
    *,
    form: TideForm,
    time_column: str,
    value_columns: tuple[str, ...],
    unit: str,
    zone: str,
    shown_as: str,
    text: CsvForm = PLAIN,
) -> TideRecord:
    """Read a tidal record; parameters and errors as for `tide_rows.read_tide_rows` and `place.tide_record`.

    Speed and direction become speeds to east and north. Rows with a blank value are gaps.
    """
    rows = read_tide_rows(
        path,
        form=form,
        time_column=time_column,
        value_columns=value_columns,
        unit=unit,
        zone=zone,
        shown_as=shown_as,
        text=text,
    )
    time, first, second = (np.array(column) for column in (rows.times, rows.first, rows.second))
    try:
        if form == "level":
            return tide_record(time, level=first)
        if form == "along":
            return tide_record(time, along=first)
        if form == "east north":
            return tide_record(time, east=first, north=second)
        heading = np.radians(second)
        return tide_record(time, east=first * np.sin(heading), north=first * np.cos(heading))
    except InputError as fault:
        raise InputError(fault.message, file=shown_as) from None
