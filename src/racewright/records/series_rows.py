"""Rows of a record of discharge or speed, checked one by one; loads no numerical library."""

from __future__ import annotations

from array import array
from dataclasses import dataclass
from pathlib import Path

from racewright.errors import InputError
from racewright.quantity.units import UNITS
from racewright.records.cells import number, shorten, stamp
from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.csv_rows import csv_rows
from racewright.records.disorder import Clash, disorder, sort_rows
from racewright.records.zone import zone_offset

MOST = {"discharge": (1e6, "m3/s"), "speed": (20.0, "m/s")}
"""Beyond any river or strait: a larger value means a wrong unit or column."""


MOST_ROWS = 50_000_000
"""Largest record: 95 years of minutes, 0.8 GB in memory."""


@dataclass(frozen=True)
class Rows:
    """A record as read.

    Attributes
    ----------
    times : array of int
        Stamps [s since 1970-01-01 UTC], strictly growing.
    values : array of float
        SI values.
    blank : int
        Blank values, skipped.
    repeated : int
        Rows left out because stamp and value are there already.
    backward : int
        Rows of the file whose stamp is earlier than the one above.
    """

    times: array[int]
    values: array[float]
    blank: int
    repeated: int = 0
    backward: int = 0


def read_rows(
    path: Path, columns: tuple[str, str], unit: str, kind: str, zone: str, shown_as: str, form: CsvForm = PLAIN
) -> Rows:
    """Read and check every row; parameters and errors as for `series_csv.read_series`.

    Parameters
    ----------
    path : Path
    columns : tuple of str
        Names of the time column and the value column.
    unit, kind, zone, shown_as : str
    form : CsvForm

    Raises
    ------
    InputError
    """
    factor = factor_of(unit, kind)
    rows = _read(path, columns, factor, kind, zone_offset(zone), shown_as, form)
    check_blanks(rows, columns[1], shown_as)
    return rows


def check_blanks(rows: Rows, column: str, shown_as: str) -> None:
    """Refuse a record of which more than half is blank."""
    if rows.blank > len(rows.values):
        found = f"{rows.blank} of {rows.blank + len(rows.values)} values are blank"
        raise InputError(f"{found}; more than half is no record", file=shown_as, key=column)


def _read(
    path: Path, columns: tuple[str, str], factor: float, kind: str, shift: int, shown_as: str, form: CsvForm
) -> Rows:
    """Read all rows; stamps and SI values packed, blanks counted."""
    times, values, lines, blank, backward = array("q"), array("d"), array("q"), 0, 0
    last, last_line = None, 0
    most, rising, disordered = MOST[kind][0], form.order == "rising", False
    for line, (time_text, value_text) in csv_rows(path, columns, shown_as, form):
        column = columns[0]
        try:
            time = stamp(time_text, shift)
            if last is not None and time <= last:
                if rising:
                    raise ValueError(disorder(time_text, time == last, f"line {last_line}"))
                disordered = True
                backward += time < last
            last, last_line = time, line
            if not value_text:
                blank += 1
                continue
            column = columns[1]
            value = number(value_text, form.decimal) * factor
            if not 0.0 <= value <= most:
                raise ValueError(outside(value_text, value, kind))
        except ValueError as fault:
            raise InputError(str(fault), file=shown_as, line=line, key=column) from None
        if len(values) == MOST_ROWS:
            raise InputError(too_long(), file=shown_as)
        times.append(time)
        values.append(value)
        if not rising:
            lines.append(line)
    if not disordered:
        return Rows(times, values, blank)
    try:
        times, values, repeated = sort_rows(times, values, lines, "line")
    except Clash as clash:
        raise InputError(str(clash), file=shown_as, line=clash.second, key=columns[0]) from None
    return Rows(times, values, blank, repeated, backward)


def too_long() -> str:
    """Explain the limit of rows."""
    return f"has more than {MOST_ROWS} values; split the file, or average it to a longer interval"


def factor_of(unit: str, kind: str) -> float:
    """SI units per unit, after a check that the unit is of the kind."""
    known = UNITS.get(unit)
    if known is None or known.dimension != kind:
        likely = [symbol for symbol, entry in UNITS.items() if entry.dimension == kind]
        raise InputError(f"{shorten(unit)} is not a unit of {kind}; use one of {', '.join(likely)}", key="unit")
    return known.factor


def outside(text: str, value: float, kind: str) -> str:
    """Explain a value that no river has."""
    if value < 0.0:
        return f"{shorten(text)} is negative; leave the cell blank where there is no value"
    most, unit = MOST[kind]
    found = f"{shorten(text)} is {value:.4g} {unit}, beyond any water (at most {most:g})"
    return f"{found}; check the unit and the column"
