"""Rows of a tidal record, checked one by one; loads no numerical library."""

from __future__ import annotations

from array import array
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from racewright.errors import InputError
from racewright.records.cells import number, shorten, stamp
from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.csv_rows import csv_rows
from racewright.records.disorder import disorder
from racewright.records.endings import format_of
from racewright.records.series_rows import factor_of
from racewright.records.zone import zone_offset

TideForm = Literal["level", "along", "east north", "speed direction"]
"""Level; speed along the channel, flood positive; speeds to east and north; speed and the direction it runs to."""

COUNT = {"level": 1, "along": 1, "east north": 2, "speed direction": 2}
"""Columns of values that each form has."""
MOST_SPEED, MOST_LEVEL = 15.0, 12_000.0
"""Beyond any tide: a larger value means a wrong unit or column [m/s], [m]."""
MOST_ROWS = 2_000_000
"""Longest file: forty years of ten minutes."""


@dataclass(frozen=True)
class TideRows:
    """A tidal record as read.

    Attributes
    ----------
    times : array of int
        Stamps [s since 1970-01-01 UTC], strictly growing.
    first, second : array of float
        SI values; directions in degrees; the second is empty for one column.
    blank : int
        Rows with a blank value, skipped.
    """

    times: array[int]
    first: array[float]
    second: array[float]
    blank: int = field(default=0)


def read_tide_rows(
    path: Path,
    *,
    form: TideForm,
    time_column: str,
    value_columns: tuple[str, ...],
    unit: str,
    zone: str,
    shown_as: str,
    text: CsvForm = PLAIN,
) -> TideRows:
    """Read and check every row of a text file.

    Parameters
    ----------
    path : Path
    form : {'level', 'along', 'east north', 'speed direction'}
    time_column : str
    value_columns : tuple of str
        One column, or two in the form's order.
    unit : str
        Of level or speed; a direction is in degrees clockwise from true north, towards which the water runs.
    zone : str
        Of stamps without an offset of their own: 'UTC' or a fixed offset.
    shown_as : str
        Name of the file in messages.
    text : CsvForm
        Delimiter, decimal mark, encoding.

    Raises
    ------
    InputError
        With file, line and column where they apply: a Parquet file, another number of columns, a unit of another
        kind, stamps that repeat or go back, values beyond any tide, more than half of the rows blank.
    """
    if format_of(path, text, shown_as) != "csv":
        raise InputError("tidal records are read from text files; write it as .csv", file=shown_as)
    if len(value_columns) != COUNT[form]:
        raise InputError(
            f"a tidal record of kind {form!r} has {COUNT[form]} columns of values, not {len(value_columns)}"
        )
    factor, shift = factor_of(unit, "length" if form == "level" else "speed"), zone_offset(zone)
    times, found, blank = array("q"), (array("d"), array("d")), 0
    last, last_line = None, 0
    for line, cells in csv_rows(path, (time_column, *value_columns), shown_as, text):
        column = time_column
        try:
            time = stamp(cells[0], shift)
            if last is not None and time <= last:
                raise ValueError(disorder(cells[0], time == last, f"line {last_line}"))
            last, last_line = time, line
            if not all(cells[1:]):
                blank += 1
                continue
            row = []
            for place, cell in enumerate(cells[1:]):
                column = value_columns[place]
                row.append(_value(cell, number(cell, text.decimal), factor, form, place))
        except ValueError as fault:
            raise InputError(str(fault), file=shown_as, line=line, key=column) from None
        if len(times) == MOST_ROWS:
            raise InputError(f"has more than {MOST_ROWS} rows; average it to a longer interval", file=shown_as)
        times.append(time)
        for place, value in enumerate(row):
            found[place].append(value)
    if blank > len(times):
        told = f"{blank} of {blank + len(times)} rows are blank; more than half is no record"
        raise InputError(told, file=shown_as, key=value_columns[0])
    return TideRows(times, *found, blank)


def _value(cell: str, read: float, factor: float, form: TideForm, place: int) -> float:
    """SI value, or the direction in degrees, within what a tide can be."""
    if form == "speed direction" and place == 1:
        if not 0.0 <= read <= 360.0:
            raise ValueError(f"{shorten(cell)} is no direction; wanted 0 to 360 degrees clockwise from true north")
        return read
    value = read * factor
    most, unit = (MOST_LEVEL, "m") if form == "level" else (MOST_SPEED, "m/s")
    low = 0.0 if form == "speed direction" else -most
    if not low <= value <= most:
        told = f"{shorten(cell)} is {value:.4g} {unit}; wanted {low:g} to {most:g}"
        raise ValueError(f"{told}; check the unit and the column")
    return value
