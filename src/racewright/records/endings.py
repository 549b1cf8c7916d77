"""Which reader a record file needs, told from its ending; loads no numerical library."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from racewright.errors import InputError
from racewright.records.cells import shorten
from racewright.records.csv_form import PLAIN, CsvForm

_CSV, _PARQUET = (".csv", ".txt", ".tsv"), (".parquet",)


def format_of(path: Path, form: CsvForm, shown_as: str) -> Literal["csv", "parquet"]:
    """Format of a record file.

    Parameters
    ----------
    path : Path
        Capitals in its ending do not matter.
    form : CsvForm
        Refused for Parquet where it says more than the order of rows.
    shown_as : str
        Name of the file in messages.

    Raises
    ------
    InputError
        Another ending; a delimiter, decimal mark or encoding given for Parquet.
    """
    ending = path.suffix.lower()
    if ending in _CSV:
        return "csv"
    if ending not in _PARQUET:
        found = f"ends in {shorten(path.suffix)}" if path.suffix else "has no ending"
        raise InputError(f"{found}; records are read from {', '.join(_CSV)} and {_PARQUET[0]}", file=shown_as)
    for key in ("delimiter", "decimal", "encoding"):
        if getattr(form, key) != getattr(PLAIN, key):
            raise InputError("is for CSV files; leave it out for a Parquet file", file=shown_as, key=key)
    return "parquet"
