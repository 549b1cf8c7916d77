"""Is a file a whole Parquet file? Told from its first and last bytes; loads no numerical library."""

from __future__ import annotations

import os
from pathlib import Path

from racewright.errors import InputError
from racewright.records.text_file import check_file, unreadable

_MAGIC, _SEALED = b"PAR1", b"PARE"
_LEAST = 12
"""Magic, length of the footer, magic [bytes]."""


def check_parquet(path: Path, shown_as: str) -> None:
    """Refuse what is no Parquet file, or only part of one; columns and rows are not looked at.

    Parameters
    ----------
    path : Path
    shown_as : str
        Name of the file in messages.

    Raises
    ------
    InputError
        No such file, a directory, unreadable, empty, not Parquet, encrypted, cut short.
    """
    check_file(path, "Parquet", shown_as)
    try:
        with path.open("rb") as stream:
            head = stream.read(4)
            size = stream.seek(0, os.SEEK_END)
            stream.seek(max(0, size - 8))
            tail = stream.read(8)
    except OSError as fault:
        raise unreadable(fault, shown_as) from None
    if not head:
        raise InputError("is empty; a Parquet file is wanted", file=shown_as)
    if head == _SEALED or tail[4:] == _SEALED:
        raise InputError("is encrypted; write it without encryption", file=shown_as)
    if head != _MAGIC:
        raise InputError("is not a Parquet file: it does not begin with 'PAR1'", file=shown_as)
    footer = int.from_bytes(tail[:4], "little")
    if size < _LEAST or tail[4:] != _MAGIC or footer + _LEAST > size:
        raise InputError("is only part of a Parquet file: its end is missing; copy it again", file=shown_as)
