"""Can a record be read? Loads no numerical library."""

from __future__ import annotations

from array import array
from pathlib import Path

from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.endings import format_of
from racewright.records.parquet_file import check_parquet
from racewright.records.series_rows import factor_of, read_rows
from racewright.records.zone import zone_offset


def check_series(
    path: Path, columns: tuple[str, str], unit: str, kind: str, zone: str, shown_as: str, form: CsvForm = PLAIN
) -> array[float] | None:
    """Check a record of any format; parameters as for `series_rows.read_rows`.

    Returns
    -------
    array of float or None
        Its values; None for a Parquet file, of which only the first and last bytes are looked at [SI].

    Raises
    ------
    InputError
    """
    if format_of(path, form, shown_as) == "csv":
        return read_rows(path, columns, unit, kind, zone, shown_as, form).values
    factor_of(unit, kind)
    zone_offset(zone)
    check_parquet(path, shown_as)
    return None
