"""Can the files of village, neighbours and strength be read? Loads no numerical library."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from racewright.cli.check_file import check_file
from racewright.records.csv_form import CsvForm
from racewright.records.endings import format_of
from racewright.records.meter_rows import meter_rows
from racewright.records.parquet_file import check_parquet
from racewright.records.series_rows import factor_of
from racewright.records.table_rows import read_cells
from racewright.scheme import LoadedScheme


def check_community(loaded: LoadedScheme, name: str) -> str:
    """What was read of a village's files, as it stands behind its name; '' where there are none.

    Raises
    ------
    InputError
        The file, a column, a cell or a unit is missing or wrong.
    """
    supply = loaded.scheme.community[name].supply
    if supply is None:
        return ""
    at = ("community", name, "supply")
    said = []
    if supply.load is not None and supply.load.meter is not None:
        said.append(f"meter with {_metered(loaded, supply.load.meter, (*at, 'load', 'meter'))}")
    if supply.sun is not None:
        said.append(f"sun with {_metered(loaded, supply.sun, (*at, 'sun'))}")
    return ": " + ", ".join(said) if said else ""


def check_sound(loaded: LoadedScheme, name: str) -> str:
    """As `check_community`, of the sound that was measured beside a machine."""
    sound = loaded.scheme.neighbours[name].sound
    if sound is None or sound.measured is None:
        return ""
    table = sound.measured
    columns = {table.frequency_column: "Hz", table.with_column: "1", table.background_column: "1"}
    return f": measured sound in {_cells(loaded, table, columns, ('neighbours', name, 'sound', 'measured'))} bands"


def check_stress(loaded: LoadedScheme, name: str) -> str:
    """As `check_community`, of a machine's series of stress."""
    strength = loaded.scheme.machine[name].strength
    if strength is None or not strength.series:
        return ""
    said = []
    for series, table in strength.series.items():
        columns, keys = {table.stress_column: table.unit}, ("machine", name, "strength", "series", series)
        said.append(f"{series} {_cells(loaded, table, columns, keys)}")
    return f", stress: {', '.join(said)} values"


def _metered(loaded: LoadedScheme, table: Any, keys: tuple[str, ...]) -> str:
    rows = check_file(loaded, table, keys, _powers)
    return "a file of values" if rows is None else f"{rows} values"


def _powers(table: Any, path: Path, form: CsvForm) -> int | None:
    """None for a Parquet file, of which only the first and last bytes are looked at."""
    factor = factor_of(table.unit, "power")
    if format_of(path, form, str(path)) == "parquet":
        check_parquet(path, str(path))
        return None
    return len(meter_rows(path, (table.time_column, table.value_column), factor, str(path), form)[0])


def _cells(loaded: LoadedScheme, table: Any, columns: dict[str, str], keys: tuple[str, ...]) -> int | None:
    def count(_table: Any, path: Path, form: CsvForm) -> int:
        return len(read_cells(path, columns, str(path), form)[0])

    return check_file(loaded, table, keys, count)
