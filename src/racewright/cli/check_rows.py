"""The data files of a machine's rows: can they be read? Loads no numerical library."""

from __future__ import annotations

from pathlib import Path

from racewright.errors import InputError, MissingColumn
from racewright.records.table_rows import read_cells
from racewright.scheme import LoadedScheme
from racewright.scheme.machine_tables import AsBuiltTable, SectionsTable


def check_rows(loaded: LoadedScheme, name: str) -> str:
    """What is said of a machine's rows after its name; '' when both are the design's.

    Raises
    ------
    InputError
        A file is not there or cannot be read.
    """
    machine, said = loaded.scheme.machine[name], []
    for key, row in (("vanes", machine.vanes), ("rotor", machine.rotor)):
        if row.sections is not None:
            count = _sections(loaded, row.sections, ("machine", name, key, "sections"))
            said.append(f"{key} of {count} sections")
        if row.as_built is not None:
            count = _as_built(loaded, row.as_built, ("machine", name, key, "as_built"))
            said.append(f"{key} measured at {count} radii")
    return "".join(f", {one}" for one in said)


def _sections(loaded: LoadedScheme, table: SectionsTable, keys: tuple[str, ...]) -> int:
    length, angle = table.length_unit, table.angle_unit
    wanted = {
        table.radius_column: length,
        table.chord_column: length,
        table.angle_column: angle,
        table.camber_column: angle,
        table.thickness_column: "1",
    }
    wanted |= {column: angle for column in (table.sweep_column, table.lean_column) if column is not None}
    path = loaded.data_file(table.file, *keys, "file")
    try:
        count = len(read_cells(path, wanted, str(path))[0])
    except MissingColumn as fault:
        raise loaded.column_error(fault, table, *keys) from None
    if count < 2:
        raise InputError(f"has {count} sections; two or more, from hub to tip, are wanted", file=str(path))
    return count


def _as_built(loaded: LoadedScheme, table: AsBuiltTable, keys: tuple[str, ...]) -> int:
    path: Path = loaded.data_file(table.file, *keys, "file")
    try:
        count = len(read_cells(path, {table.radius_column: table.length_unit}, str(path))[0])
    except MissingColumn as fault:
        raise loaded.column_error(fault, table, *keys) from None
    for column, unit in (
        (table.chord_column, table.length_unit),
        (table.angle_column, table.angle_unit),
        (table.thickness_column, "1"),
    ):
        try:
            read_cells(path, {column: unit}, str(path))
        except MissingColumn:
            continue  # not measured
    return count
