"""Can a machine's generator table be read? Loads no numerical library."""

from __future__ import annotations

from racewright.errors import InputError, MissingColumn
from racewright.record_rules import check_grid
from racewright.records.table_rows import read_cells
from racewright.scheme import LoadedScheme


def check_generator(loaded: LoadedScheme, name: str) -> int:
    """Points of a machine's generator table; 0 without one.

    Raises
    ------
    InputError
        The file, a column, a cell or a point is missing or wrong; of a column it is said at the key that names it.
    """
    table = loaded.scheme.machine[name].drive.table
    if table is None:
        return 0
    keys = ("machine", name, "drive", "table")
    path = loaded.data_file(table.file, *keys, "file")
    columns = {
        table.speed_column: table.speed_unit,
        table.current_column: "A",
        table.voltage_column: "V",
        table.loss_column: "W",
    }
    if table.torque_column is not None:
        columns[table.torque_column] = "N m"
    try:
        speed, current, *_others = read_cells(path, columns, str(path))
        check_grid(speed, current)
    except MissingColumn as fault:
        raise loaded.column_error(fault, table, *keys) from None
    except InputError as fault:
        if fault.file is not None:
            raise
        raise InputError(fault.message, file=str(path)) from None
    return len(speed)
