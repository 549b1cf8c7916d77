"""Opening a text file of the user's, with every usual fault named."""

from __future__ import annotations

import codecs
import itertools
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO, TextIO

from racewright.errors import InputError
from racewright.records.csv_form import Encoding

_CODECS = {"utf-8": "utf-8-sig", "latin-1": "latin-1", "cp1252": "cp1252", "utf-16": "utf-16"}
_NAMES = {"utf-8": "UTF-8", "latin-1": "Latin-1", "cp1252": "CP1252", "utf-16": "UTF-16"}
_UTF16_MARKS = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
_PIECE = 1 << 16
"""Bytes decoded at a time in search of a fault."""


@contextmanager
def open_text(path: Path, encoding: Encoding, shown_as: str) -> Iterator[TextIO]:
    """Open for reading, line ends as they are; turn faults of the file into `InputError` while it is open.

    Raises
    ------
    InputError
        No such file, a directory, unreadable, or (with line and byte) not of this encoding.
    """
    check_file(path, "CSV", shown_as)
    try:
        _check_marks(path, encoding, shown_as)
        with path.open(encoding=_CODECS[encoding], newline="") as stream:
            yield stream
    except UnicodeError:
        raise _undecodable(path, encoding, shown_as) from None
    except OSError as fault:
        raise unreadable(fault, shown_as) from None


def check_file(path: Path, format_name: str, shown_as: str) -> None:
    """Refuse what is not a regular file."""
    try:
        if path.is_dir():
            raise InputError(f"is a directory; a {format_name} file is wanted", file=shown_as)
        if not path.exists():
            raise InputError("there is no such file", file=shown_as)
        if not path.is_file():
            raise InputError(f"is not a regular file; a {format_name} file is wanted", file=shown_as)
    except (OSError, ValueError) as fault:
        raise unreadable(fault, shown_as) from None


def unreadable(fault: OSError | ValueError, shown_as: str) -> InputError:
    """The error of a file that the system does not give, without the path that it was asked for."""
    reason = fault.strerror if isinstance(fault, OSError) and fault.strerror else type(fault).__name__
    return InputError(f"cannot be read: {reason}", file=shown_as)


def _check_marks(path: Path, encoding: Encoding, shown_as: str) -> None:
    """Refuse a byte-order mark of another encoding."""
    with path.open("rb") as stream:
        start = stream.read(3)
    if encoding != "utf-16" and start[:2] in _UTF16_MARKS:
        raise InputError("is UTF-16 text; save it as UTF-8 or say encoding = 'utf-16'", file=shown_as, line=1)
    if encoding == "utf-16" and start and start[:2] not in _UTF16_MARKS:
        message = "byte 1 of the line begins no UTF-16 byte-order mark; say encoding = 'utf-8', or save it anew"
        raise InputError(message, file=shown_as, line=1)
    if encoding not in ("utf-8", "utf-16") and start == codecs.BOM_UTF8:
        raise InputError("starts with a UTF-8 byte-order mark; say encoding = 'utf-8'", file=shown_as, line=1)


def _undecodable(path: Path, encoding: Encoding, shown_as: str) -> InputError:
    """Name the line, and the byte of that line, that is not of the encoding."""
    with path.open("rb") as stream:
        line, byte = _fault_in_utf16(stream) if encoding == "utf-16" else _fault_in_lines(stream, _CODECS[encoding])
        stream.seek(0)
        found = next(itertools.islice(stream, line - 1, None), b"") if encoding != "utf-16" else b""
    value = f", 0x{found[byte - 1]:02x}," if byte <= len(found) else ""
    cure = "say its encoding, like encoding = 'cp1252', or save the file as UTF-8 text"
    if encoding != "utf-8":
        cure = "say its true encoding, or save it as UTF-8"
    message = f"byte {byte} of the line{value} is not {_NAMES[encoding]}; {cure}"
    return InputError(message, file=shown_as, line=line)


def _fault_in_lines(stream: BinaryIO, codec: str) -> tuple[int, int]:
    """Line and byte, from 1, of the first fault; for encodings whose line end is one byte of its own."""
    line = 0
    for line, raw in enumerate(stream, start=1):
        try:
            raw.decode(codec)
        except UnicodeDecodeError as fault:
            return line, fault.start + 1
    return line, 1


def _fault_in_utf16(stream: BinaryIO) -> tuple[int, int]:
    """Line and byte, from 1, of the first fault; the byte-order mark counts as two bytes of line 1."""
    order = "utf-16-le" if stream.read(2) == codecs.BOM_UTF16_LE else "utf-16-be"
    decoder = codecs.getincrementaldecoder(order)()
    line, byte = 1, 3
    while True:
        piece = stream.read(_PIECE)
        try:
            text, broken = decoder.decode(piece, not piece), False
        except UnicodeDecodeError as fault:
            text, broken = fault.object[: fault.start].decode(order), True
        newlines = text.count("\n")
        line += newlines
        tail = len(text[text.rfind("\n") + 1 :].encode("utf-16-le"))
        byte = 1 + tail if newlines else byte + tail
        if broken or not piece:
            return line, byte
