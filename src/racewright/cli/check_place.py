"""The data files of a place for `racewright check`: record, tide, gaugings, transect. Loads no numerical library."""

from __future__ import annotations

import math
from array import array
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import cast

from racewright.cli.check_file import check_file
from racewright.errors import InputError
from racewright.record_rules import SHORTEST, check_bins, check_joined, too_short
from racewright.records.csv_form import CsvForm
from racewright.records.csv_rows import csv_rows
from racewright.records.series_check import check_series
from racewright.records.table_rows import read_cells
from racewright.records.tide_rows import TideForm, read_tide_rows
from racewright.scheme import LoadedScheme
from racewright.scheme.place_tables import GaugingsTable, RecordTable, TransectTable
from racewright.scheme.tide_tables import TideTable

LEAST_LEVELS = 3
"""Different gauged levels that fix a rating of stated zero level; two more fix the zero level too."""

LEAST_POINTS = 3
"""Of a transect."""


@dataclass
class PlaceRead:
    """What the files of a place hold.

    Attributes
    ----------
    rows : int or None
        Of record or tide; None where they were not counted [-].
    values : sequence of float
        Of a record of discharge or speed as text; else empty [m3/s], [m/s].
    gaugings : tuple of two sequences of float
        Levels and discharges [m], [m3/s].
    transect : tuple of two sequences of float
        Distances and bed levels [m].
    """

    rows: int | None = None
    values: Sequence[float] = ()
    gaugings: tuple[Sequence[float], Sequence[float]] = ((), ())
    transect: tuple[Sequence[float], Sequence[float]] = ((), ())

    @property
    def counts(self) -> tuple[int | None, int, int]:
        """Rows of the record, points of the transect, gaugings."""
        return self.rows, len(self.transect[0]), len(self.gaugings[0])


def check_place(loaded: LoadedScheme, name: str) -> PlaceRead:
    """Read every file of a place.

    Raises
    ------
    InputError
        A file, column or cell is missing or wrong; a record that is too short; gaugings or a transect of which no
        rating and no river can be made.
    """
    place, found = loaded.scheme.place[name], PlaceRead()

    def record(table: RecordTable, path: Path, form: CsvForm) -> int | None:
        if table.kind == "histogram":
            return _histogram(table, path, form)
        both = (table.time_column, table.value_column)
        values = check_series(path, both, table.unit, table.kind, table.zone, str(path), form)
        if values is None:
            return None
        if len(values) < SHORTEST:
            raise InputError(too_short(len(values)), file=str(path))
        found.values = values
        return len(values)

    def gaugings(table: GaugingsTable, path: Path, form: CsvForm) -> int:
        found.gaugings = _gaugings(table, path, form)
        return len(found.gaugings[0])

    def transect(table: TransectTable, path: Path, form: CsvForm) -> int:
        found.transect = _transect(table, path, form)
        return len(found.transect[0])

    if place.record is not None:
        found.rows = check_file(loaded, place.record, ("place", name, "record"), record)
    if place.tide is not None:
        found.rows = check_file(loaded, place.tide, ("place", name, "tide"), _tide_rows)
    if place.gaugings is not None:
        check_file(loaded, place.gaugings, ("place", name, "gaugings"), gaugings)
    if place.transect is not None:
        check_file(loaded, place.transect, ("place", name, "transect"), transect)
    return found


def _histogram(table: RecordTable, path: Path, form: CsvForm) -> int:
    columns = {table.from_column: table.unit, table.to_column: table.unit, table.value_column: "1"}
    low, high, share = read_cells(path, columns, str(path), form)
    try:
        check_joined(low, high)
        check_bins([*low[:1], *high], share)
    except InputError as fault:
        raise InputError(fault.message, file=str(path)) from None
    return len(share)


def _tide_rows(table: TideTable, path: Path, form: CsvForm) -> int:
    columns = {
        "east north": (table.east_column, table.north_column),
        "speed direction": (table.value_column, table.direction_column),
    }
    found = read_tide_rows(
        path,
        form=cast(TideForm, table.kind),
        time_column=table.time_column,
        value_columns=columns.get(table.kind, (table.value_column,)),
        unit=table.unit,
        zone=table.zone,
        shown_as=str(path),
        text=form,
    )
    return len(found.times)


def _gaugings(table: GaugingsTable, path: Path, form: CsvForm) -> tuple[array[float], array[float]]:
    columns = {table.level_column: table.level_unit, table.discharge_column: table.discharge_unit}
    levels, discharges = read_cells(path, columns, str(path), form)
    for i, (level, discharge) in enumerate(zip(levels, discharges, strict=True)):
        if discharge <= 0.0:
            message = (
                f"a gauging of {discharge:g} m3/s; a gauged discharge is above 0: mend the cell, or leave gaugings of"
                " still water out"
            )
            raise InputError(message, file=str(path), line=_line(path, columns, form, i), key=table.discharge_column)
        if table.zero_level is not None and level <= table.zero_level:
            message = (
                f"a gauged level of {level:g} m is not above the zero level, {table.zero_level:g} m, where the river"
                " stands still; mend the cell or zero_level"
            )
            raise InputError(message, file=str(path), line=_line(path, columns, form, i), key=table.level_column)
    wanted = LEAST_LEVELS + (2 if table.zero_level is None else 0)
    if len(set(levels)) < wanted:
        message = f"{len(set(levels))} different gauged levels; at least {wanted} are needed to fit a rating"
        raise InputError(message, file=str(path))
    return levels, discharges


def _transect(table: TransectTable, path: Path, form: CsvForm) -> tuple[array[float], array[float]]:
    columns = {table.distance_column: table.unit, table.bed_column: table.unit}
    distance, bed = read_cells(path, columns, str(path), form)
    if len(distance) < LEAST_POINTS:
        message = f"the transect has {len(distance)} points; at least {LEAST_POINTS} are needed"
        raise InputError(message, file=str(path))
    last = -math.inf
    for i, here in enumerate(distance):
        if here <= last:
            message = (
                f"the distance {here:g} m follows {last:g} m; distances must grow: sort them, and set foot and top of"
                " a wall 0.01 m apart"
            )
            raise InputError(message, file=str(path), line=_line(path, columns, form, i), key=table.distance_column)
        last = here
    return distance, bed


def _line(path: Path, columns: dict[str, str], form: CsvForm, row: int) -> int:
    """Line of the file that holds a row, from 0."""
    return next(line for i, (line, _cells) in enumerate(csv_rows(path, list(columns), str(path), form)) if i == row)
