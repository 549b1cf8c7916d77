"""One data file of a scheme, opened for `check`. Loads no numerical library."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from racewright.errors import MissingColumn
from racewright.records.csv_form import CsvForm
from racewright.scheme import LoadedScheme


def check_file(
    loaded: LoadedScheme, table: Any, keys: tuple[str, ...], count: Callable[..., int | None]
) -> int | None:
    """Count the rows of a table's data file; a missing column is said of the key that names it.

    Parameters
    ----------
    loaded : LoadedScheme
    table : Table
        With `file`, and how the text is written.
    keys : tuple of str
        Where the table stands in the scheme.
    count : callable
        Takes the table, the path and the form of the text.

    Raises
    ------
    InputError
        No such file; what `count` refuses.
    """
    path = loaded.data_file(table.file, *keys, "file")
    try:
        return count(
            table, path, CsvForm(table.delimiter, table.decimal, table.encoding, getattr(table, "order", "rising"))
        )
    except MissingColumn as fault:
        raise loaded.column_error(fault, table, *keys) from None
