"""Rows of a record of discharge or speed, checked one by one; loads no numerical library."""

from __future__ import annotations

from array import array
from dataclasses import dataclass
from pathlib import Path

from racewright.errors import InputError
from racewright.quantity.units import UNITS
from racewright.records.cells import number, shorten, stamp
from racewright.records.csv_rows import csv_rows
from racewright.records.zone import zone_offset

MOST = {"discharge": (1e6, "m3/s"), "speed": (20.0, "m/s")}
"""Beyond any river or strait: a larger value means a wrong unit or column."""


@dataclass(frozen=True)
class Rows:
    """Stamps [s since 1970-01-01 UTC], SI values, and how many values were blank."""

    times: array[int]
    values: array[float]
    blank: int


def read_rows(path: Path, columns: tuple[str, str], unit: str, kind: str, zone: str, shown_as: str) -> Rows:
    """Read and check every row; parameters and errors as for `series_csv.read_series`.

    Parameters
    ----------
    path : Path
    columns : tuple of str
        Names of the time column and the value column.
    unit, kind, zone, shown_as : str

    Raises
    ------
    InputError
    """
    factor = _factor(unit, kind)
    shift = zone_offset(zone)
    rows = _read(path, columns, factor, kind, shift, shown_as)
    if rows.blank > len(rows.values):
        raise InputError(
            f"{rows.blank} of {rows.blank + len(rows.values)} values are blank; more than half is no record",
            file=shown_as,
            key=columns[1],
        )
    return rows


def _read(path: Path, columns: tuple[str, str], factor: float, kind: str, shift: int, shown_as: str) -> Rows:
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
    return Rows(times, values, blank)


def _factor(unit: str, kind: str) -> float:
    """SI units per unit, after a check that the unit is of the kind."""
    known = UNITS.get(unit)
    if known is None or known.dimension != kind:
        likely = [symbol for symbol, entry in UNITS.items() if entry.dimension == kind]
        raise InputError(f"{shorten(unit)} is not a unit of {kind}; use one of {', '.join(likely)}", key="unit")
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
