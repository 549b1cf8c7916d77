"""Rows of a delimited text file, with line numbers and every usual fault named."""

from __future__ import annotations

import csv
import difflib
from collections.abc import Iterator, Sequence
from pathlib import Path

from racewright.errors import InputError
from racewright.records.cells import shorten

DELIMITERS = (",", ";", "\t")


def csv_rows(path: Path, wanted: Sequence[str], shown_as: str) -> Iterator[tuple[int, list[str]]]:
    """Yield the line number and the wanted cells, stripped, of each row below the header.

    The file is UTF-8, with or without a byte-order mark; the delimiter is a comma, a semicolon or a tab, told
    from the header. Lines before the header that start with '#' are comments; blank lines and rows of blank
    cells are passed over.

    Parameters
    ----------
    path : Path
    wanted : sequence of str
        Column names, spelt as in the header.
    shown_as : str
        Name of the file in messages.

    Raises
    ------
    InputError
        With file and line: no such file, a directory, unreadable, not UTF-8, empty, header only, a wanted
        column missing or there twice, a row with more or fewer cells than the header, a broken quote.
    """
    _check_file(path, shown_as)
    try:
        with path.open(encoding="utf-8-sig", newline="") as stream:
            yield from _rows(stream, wanted, shown_as)
    except UnicodeDecodeError:
        raise _not_utf8(path, shown_as) from None
    except OSError as fault:
        raise InputError(f"cannot be read: {fault.strerror}", file=shown_as) from None


def _rows(stream: Iterator[str], wanted: Sequence[str], shown_as: str) -> Iterator[tuple[int, list[str]]]:
    """Find the header, then yield rows."""
    skipped = 0
    header_line = ""
    for text in stream:
        if text.strip() and not text.startswith("#"):
            header_line = text
            break
        skipped += 1
    if not header_line:
        columns = " and ".join(repr(name) for name in wanted)
        raise InputError(f"is empty; a header with the columns {columns} and rows below it are wanted", file=shown_as)
    delimiter, header = _header(header_line, wanted, shown_as, skipped + 1)
    index = [header.index(name) for name in wanted]
    reader = csv.reader(stream, delimiter=delimiter, strict=True)
    width, found = len(header), False
    try:
        for cells in reader:
            line = skipped + 1 + reader.line_num
            if not any(cells) or not "".join(cells).strip():
                continue
            if len(cells) != width:
                raise InputError(_miscounted(len(cells), width, delimiter), file=shown_as, line=line)
            found = True
            yield line, [cells[i].strip() for i in index]
    except csv.Error as fault:
        line = skipped + 1 + reader.line_num
        raise InputError(f"broken row: {fault}; check its quotes", file=shown_as, line=line) from None
    if not found:
        raise InputError("has a header but no rows below it", file=shown_as, line=skipped + 1)


def _header(text: str, wanted: Sequence[str], shown_as: str, line: int) -> tuple[str, list[str]]:
    """Tell the delimiter and the column names; refuse missing and doubled columns."""
    tried = []
    for delimiter in DELIMITERS:
        try:
            names = [name.strip() for name in next(csv.reader([text], delimiter=delimiter))]
        except csv.Error as fault:
            raise InputError(f"broken header: {fault}", file=shown_as, line=line) from None
        tried.append((sum(name in names for name in wanted), len(names), delimiter, names))
    _, _, delimiter, names = max(tried, key=lambda item: item[:2])
    for name in wanted:
        if names.count(name) > 1:
            raise InputError(f"the column {name!r} stands twice in the header", file=shown_as, line=line)
        if name not in names:
            near = difflib.get_close_matches(name, names, n=1, cutoff=0.5)
            meant = f"; the nearest is {shorten(near[0])}" if near else ""
            listed = ", ".join(shorten(found) for found in names[:12]) + (", ..." if len(names) > 12 else "")
            raise InputError(f"no column {name!r}{meant}; the columns are {listed}", file=shown_as, line=line)
    return delimiter, names


def _miscounted(found: int, width: int, delimiter: str) -> str:
    """Explain a row with the wrong number of cells."""
    hint = "; write decimals with a point, not a comma" if delimiter == "," and found > width else ""
    return f"the row has {found} cells but the header {width}{hint}"


def _check_file(path: Path, shown_as: str) -> None:
    """Refuse what is not a regular file."""
    try:
        if path.is_dir():
            raise InputError("is a directory; a CSV file is wanted", file=shown_as)
        if not path.exists():
            raise InputError("there is no such file", file=shown_as)
        if not path.is_file():
            raise InputError("is not a regular file; a CSV file is wanted", file=shown_as)
    except (OSError, ValueError) as fault:
        raise InputError(f"cannot be read: {fault}", file=shown_as) from None


def _not_utf8(path: Path, shown_as: str) -> InputError:
    """Find the first byte that is not UTF-8."""
    with path.open("rb") as stream:
        if stream.read(2) in (b"\xff\xfe", b"\xfe\xff"):
            return InputError("is UTF-16 text; save it as UTF-8", file=shown_as, line=1)
        stream.seek(0)
        for line, raw in enumerate(stream, start=1):
            try:
                raw.decode("utf-8")
            except UnicodeDecodeError as fault:
                byte = raw[fault.start]
                return InputError(
                    f"byte {fault.start + 1} of the line, 0x{byte:02x}, is not UTF-8; save the file as UTF-8 text",
                    file=shown_as,
                    line=line,
                )
    return InputError("is not UTF-8; save it as UTF-8 text", file=shown_as)
