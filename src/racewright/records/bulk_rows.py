"""Rows of a large record, many at once.

Takes files without quotes whose every row has the header's number of cells and whose stamps grow; gives up on
any other, for `series_rows` to read them or to name their fault. What both can read they read alike.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterator
from pathlib import Path
from typing import TextIO

import numpy as np

from racewright.errors import InputError
from racewright.records.bulk_cells import Bytes, Ints, bulk_numbers, bulk_stamps
from racewright.records.csv_form import CsvForm
from racewright.records.csv_header import Header, read_header
from racewright.records.series_rows import MOST, MOST_ROWS, Rows, too_long
from racewright.records.text_file import open_text

CHUNK = 1 << 22
"""Characters taken at a time."""
_LONGEST_LINE = 100_000
"""Bytes; below the length of cell that the row-by-row reader refuses."""
_NEWLINE = 10
_BLANKS = (32, 9)


class _Unusual(Exception):
    """The file is not of the common form."""


def bulk_rows(
    path: Path, columns: tuple[str, str], factor: float, kind: str, shift: int, shown_as: str, form: CsvForm
) -> Rows | None:
    """Read a record in whole chunks.

    Parameters
    ----------
    path, columns, kind, shown_as, form
        As for `series_rows.read_rows`.
    factor : float
        SI units per unit.
    shift : int
        Offset of stamps that have none of their own [s].

    Returns
    -------
    Rows or None
        None where anything is unusual or wrong.

    Raises
    ------
    InputError
        More than `series_rows.MOST_ROWS` values, all of them clean.
    """
    times, values, blank, last = array("q"), array("d"), 0, None
    try:
        with open_text(path, form.encoding, shown_as) as stream:
            header = read_header(stream, columns, form, shown_as)
            for chunk in _chunks(stream):
                (time_begin, time_end), (begin, end) = _cut(chunk, header)
                time = bulk_stamps(chunk, time_begin, time_end, shift)
                value, is_blank = bulk_numbers(chunk, begin, end, form.decimal)
                value *= factor
                if (np.diff(time) <= 0).any() or (last is not None and time[0] <= last):
                    return None
                last = time[-1]
                if not ((value >= 0.0) & (value <= MOST[kind][0])).all():
                    return None
                blank += int(is_blank.sum())
                times.frombytes(time[~is_blank].tobytes())
                values.frombytes(value[~is_blank].tobytes())
                if len(values) > MOST_ROWS:
                    break
    except (_Unusual, InputError, ValueError):
        return None
    if len(values) > MOST_ROWS:
        raise InputError(too_long(), file=shown_as)
    return None if last is None else Rows(times, values, blank)


def _chunks(stream: TextIO) -> Iterator[Bytes]:
    """Whole lines as bytes, line ends all one newline, empty lines left out."""
    rest = ""
    while True:
        piece = stream.read(CHUNK)
        text = rest + piece
        cut = text.rfind("\n") + 1 if piece else len(text)
        text, rest = text[:cut], text[cut:]
        if len(rest) > _LONGEST_LINE:
            raise _Unusual
        data = text.encode().replace(b"\r\n", b"\n")
        if not data.endswith(b"\n"):
            data += b"\n"
        while b"\n\n" in data:
            data = data.replace(b"\n\n", b"\n")
        data = data.removeprefix(b"\n")
        if b'"' in data or b"\r" in data:
            raise _Unusual
        if data:
            yield np.frombuffer(data, dtype=np.uint8)
        if not piece:
            return


def _cut(text: Bytes, header: Header) -> list[tuple[Ints, Ints]]:
    """First byte, and the one behind the last, of each cell of the wanted columns, blanks around it left out."""
    marks = np.flatnonzero((text == ord(header.delimiter)) | (text == _NEWLINE))
    if marks.size % header.width:
        raise _Unusual
    ends = marks.reshape(-1, header.width)
    is_newline = text[ends] == _NEWLINE
    if not is_newline[:, -1].all() or is_newline[:, :-1].any():
        raise _Unusual
    line_begin = np.concatenate(([0], ends[:-1, -1] + 1))
    if (ends[:, -1] - line_begin).max() > _LONGEST_LINE:
        raise _Unusual
    return [
        _trim(text, line_begin if column == 0 else ends[:, column - 1] + 1, ends[:, column])
        for column in header.index
    ]


def _trim(text: Bytes, begin: Ints, end: Ints) -> tuple[Ints, Ints]:
    """Leave out blanks and tabs at both ends."""
    begin, end = begin.copy(), end.copy()
    while (wide := (begin < end) & np.isin(text[begin], _BLANKS)).any():
        begin += wide
    while (wide := (begin < end) & np.isin(text[np.maximum(end - 1, 0)], _BLANKS)).any():
        end -= wide
    return begin, end
