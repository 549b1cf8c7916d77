"""A record of discharge or speed from a CSV file."""

from __future__ import annotations

from array import array
from pathlib import Path
from typing import Literal

import numpy as np

from racewright.errors import InputError
from racewright.place.result import Series
from racewright.quantity.units import UNITS
from racewright.records.cells import number, shorten, stamp
from racewright.records.csv_rows import csv_rows
from racewright.records.zone import zone_offset

MOST = {"discharge": (1e6, "m3/s"), "speed": (20.0, "m/s")}
"""Beyond any river or strait: a larger value means a wrong unit or column."""


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
        Besides: a unit of another kind, a negative value, a value beyond `MOST`, stamps that repeat or go
        back, more than half of the values blank.
    """
    factor = _factor(unit, kind)
    shift = zone_offset(zone)
    times, values, blank = _read(path, (time_column, value_column), factor, kind, shift, shown_as)
    if blank > len(values):
        raise InputError(
            f"{blank} of {blank + len(values)} values are blank; more than half is no record",
            file=shown_as,
            key=value_column,
        )
    return Series(
        kind=kind,
        time=np.array(times, dtype=np.int64),
        value=np.array(values, dtype=np.float64),
        blank=blank,
    )


def _read(
    path: Path, columns: tuple[str, str], factor: float, kind: str, shift: int, shown_as: str
) -> tuple[array[int], array[float], int]:
    """Read all rows; stamps and SI values packed, blanks counted."""
    times, values, blank = array("q"), array("d"), 0
    last, last_line = None, 0
    most = MOST[kind][0]
    for line, (time_text, value_text) in csv_rows(path, columns, shown_as):
        column = columns[0]
        try:
            time = stamp(time_text, shift)
            if last is not None and time <= last:
                raise ValueError(_disorder(time_text, time == last, last_line))
            last, last_line = time, line
            if not value_text:
                blank += 1
                continue
            column = columns[1]
            value = number(value_text) * factor
            if not 0.0 <= value <= most:
                raise ValueError(_outside(value_text, value, kind))
        except ValueError as fault:
            raise InputError(str(fault), file=shown_as, line=line, key=column) from None
        times.append(time)
        values.append(value)
    return times, values, blank


def _factor(unit: str, kind: str) -> float:
    """SI units per unit, after a check that the unit is of the kind."""
    known = UNITS.get(unit)
    if known is None or known.dimension != kind:
        likely = [symbol for symbol, entry in UNITS.items() if entry.dimension == kind]
        raise InputError(
            f"{shorten(unit)} is not a unit of {kind}; use one of {', '.join(likely)}", key="unit"
        )
    return known.factor


def _disorder(text: str, same: bool, last_line: int) -> str:
    """Explain a stamp that does not follow the one before it."""
    if same:
        return f"{shorten(text)} is the same moment as line {last_line}; keep one row for each"
    return (
        f"{shorten(text)} is earlier than line {last_line}; sort the rows by time, and where clocks were "
        "set back give "
        "stamps with their offset"
    )


def _outside(text: str, value: float, kind: str) -> str:
    """Explain a value that no river has."""
    if value < 0.0:
        return f"{shorten(text)} is negative; leave the cell blank where there is no value"
    most, unit = MOST[kind]
    found = f"{shorten(text)} is {value:.4g} {unit}, beyond any water (at most {most:g})"
    return f"{found}; check the unit and the column"
