"""Rows of words and numbers from a CSV file: what became of debris, parts lists."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.csv_rows import csv_rows


def read_words(
    path: Path, columns: Sequence[str], shown_as: str, form: CsvForm = PLAIN
) -> list[tuple[int, tuple[str, ...]]]:
    """Line number and stripped cells of each row; errors as for `csv_rows.csv_rows`.

    Parameters
    ----------
    path : Path
    columns : sequence of str
        Names, spelt as in the header.
    shown_as : str
        Name of the file in messages.
    form : CsvForm
    """
    return [(line, tuple(cells)) for line, cells in csv_rows(path, list(columns), shown_as, form)]
