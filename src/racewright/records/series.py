"""A record of discharge or speed from whichever file holds it."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from racewright.place.result import Series
from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.endings import format_of
from racewright.records.series_csv import read_series


def read_any_series(
    path: Path,
    *,
    time_column: str,
    value_column: str,
    unit: str,
    kind: Literal["discharge", "speed"],
    zone: str,
    shown_as: str,
    form: CsvForm = PLAIN,
) -> Series:
    """Read a record; .csv, .txt and .tsv as delimited text, .parquet as Parquet.

    Parameters
    ----------
    path, time_column, value_column, unit, kind, zone, shown_as
        As for `series_csv.read_series`.
    form : CsvForm
        How a text file is written; of a Parquet file, only the order of its rows.

    Raises
    ------
    InputError
        As `endings.format_of`, `series_csv.read_series`, `series_parquet.read_series_parquet`.
    """
    if format_of(path, form, shown_as) == "csv":
        return read_series(
            path,
            time_column=time_column,
            value_column=value_column,
            unit=unit,
            kind=kind,
            zone=zone,
            shown_as=shown_as,
            form=form,
        )
    from racewright.records.series_parquet import read_series_parquet  # 0.3 s that a CSV file need not wait

    return read_series_parquet(
        path,
        time_column=time_column,
        value_column=value_column,
        unit=unit,
        kind=kind,
        zone=zone,
        shown_as=shown_as,
        order=form.order,
    )
