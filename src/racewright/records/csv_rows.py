"""Rows of a delimited text file, with line numbers and every usual fault named."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from operator import itemgetter
from pathlib import Path

from racewright.errors import InputError
from racewright.records.csv_form import PLAIN, CsvForm
from racewright.records.csv_header import read_header
from racewright.records.text_file import open_text


def csv_rows(
    path: Path, wanted: Sequence[str], shown_as: str, form: CsvForm = PLAIN
) -> Iterator[tuple[int, list[str]]]:
    """Yield the line number and the wanted cells, stripped, of each row below the header.

    Lines before the header that start with '#' are comments; blank lines and rows of blank cells are passed
    over.

    Parameters
    ----------
    path : Path
    wanted : sequence of str
        Column names, spelt as in the header.
    shown_as : str
        Name of the file in messages.
    form : CsvForm
        Default: UTF-8, the delimiter told from the header.

    Raises
    ------
    InputError
        With file and line: no such file, a directory, unreadable, of another encoding, empty, header only, a
        wanted column missing or there twice, a row with more or fewer cells than the header, a broken quote.
    """
    with open_text(path, form.encoding, shown_as) as stream:
        header = read_header(stream, wanted, form, shown_as)
        reader = csv.reader(stream, delimiter=header.delimiter, strict=True)
        pick = itemgetter(*header.index) if len(wanted) > 1 else lambda cells: (cells[header.index[0]],)
        width, found = header.width, False
        try:
            for cells in reader:
                chosen = [cell.strip() for cell in pick(cells)] if len(cells) == width else []
                if not any(chosen) and not "".join(cells).strip():
                    continue
                line = header.line + reader.line_num
                if not chosen:
                    raise InputError(_miscounted(len(cells), width, header.delimiter), file=shown_as, line=line)
                found = True
                yield line, chosen
        except csv.Error as fault:
            line = header.line + reader.line_num
            raise InputError(f"broken row: {fault}; check its quotes", file=shown_as, line=line) from None
        if not found:
            raise InputError("has a header but no rows below it", file=shown_as, line=header.line)


def _miscounted(found: int, width: int, delimiter: str) -> str:
    """Explain a row with the wrong number of cells."""
    hint = "; write decimals with a point, not a comma" if delimiter == "," and found > width else ""
    return f"the row has {found} cells but the header {width}{hint}"
