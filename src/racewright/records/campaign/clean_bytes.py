"""A logger file's bytes on their way to the parser: hashed, as UTF-8, whole lines only, nothing hostile."""

from __future__ import annotations

import codecs
import hashlib
import io
from pathlib import Path

from racewright.errors import InputError
from racewright.records.campaign.form import Told
from racewright.records.csv_form import Encoding
from racewright.records.text_file import check_file, unreadable

_PACKED = {
    b"\x1f\x8b": "gzip",
    b"PK\x03\x04": "zip",
    b"BZh": "bzip2",
    b"\xfd7zXZ\x00": "xz",
    b"\x28\xb5\x2f\xfd": "zstd",
    b"7z\xbc\xaf\x27\x1c": "7z",
}
_OTHERS = {b"PAR1": "Parquet", b"TDSm": "TDMS"}
_CODECS = {"latin-1": "latin-1", "cp1252": "cp1252", "utf-16": "utf-16"}
_TAKEN = 1 << 22
"""Bytes read at a time."""
_LONGEST_LINE = 1 << 20
"""A line of a logger file is shorter [bytes]."""


class CleanBytes(io.RawIOBase):
    """Read-only stream of a text file's whole lines in UTF-8.

    Raises InputError for NUL bytes, bytes that are not of the encoding, packed files, endless lines. The bytes go
    through SHA-256 on their way, a last line without end is left out, and `told` says both.
    """

    def __init__(self, path: Path, encoding: Encoding, told: Told, shown_as: str) -> None:
        super().__init__()
        check_file(path, "CSV", shown_as)
        self._shown, self._told, self._line = shown_as, told, 1
        self._hash = hashlib.sha256()
        self._ready, self._rest, self._at_end = b"", b"", False
        self._decoder = codecs.getincrementaldecoder(_CODECS[encoding])() if encoding in _CODECS else None
        try:
            self._file = path.open("rb")
        except OSError as fault:
            raise unreadable(fault, shown_as) from None
        head = self._file.read(8)
        for magic, kind in _PACKED.items():
            if head.startswith(magic):
                self._file.close()
                raise InputError(f"is a {kind} archive, not text; unpack it first", file=shown_as)
        for magic, kind in _OTHERS.items():
            if head.startswith(magic):
                self._file.close()
                raise InputError(f"is a {kind} file, not text; let its name say so", file=shown_as)
        self._file.seek(0)

    def readable(self) -> bool:
        """Always."""
        return True

    def close(self) -> None:
        """Close the file."""
        if not self.closed:
            self._file.close()
        super().close()

    def readinto(self, buffer: bytearray | memoryview) -> int:  # type: ignore[override]
        """Fill the buffer; 0 at the end."""
        while not self._ready and not self._at_end:
            self._take()
        count = min(len(buffer), len(self._ready))
        buffer[:count] = self._ready[:count]
        self._ready = self._ready[count:]
        return count

    def _take(self) -> None:
        """One more piece of the file, up to its last line end."""
        try:
            piece = self._file.read(_TAKEN)
        except OSError as fault:
            raise unreadable(fault, self._shown) from None
        self._hash.update(piece)
        if not piece:
            self._at_end = True
            self._told.sha256 = self._hash.hexdigest()
            self._told.cut_short = bool(self._rest.strip())
            return
        text = self._rest + self._as_utf8(piece)
        if self._line == 1:
            text = text.removeprefix(codecs.BOM_UTF8)
        place = text.find(b"\0")
        if place >= 0:
            line = self._line + text.count(b"\n", 0, place)
            raise InputError(
                "holds NUL bytes; the file is damaged, no text, or UTF-16 (say encoding = 'utf-16')",
                file=self._shown,
                line=line,
            )
        cut = text.rfind(b"\n") + 1
        if not cut and len(text) > _LONGEST_LINE:
            raise InputError("a line is longer than a million characters", file=self._shown, line=self._line)
        self._ready, self._rest = text[:cut], text[cut:]
        self._line += self._ready.count(b"\n")

    def _as_utf8(self, piece: bytes) -> bytes:
        if self._decoder is None:
            return piece
        try:
            return self._decoder.decode(piece).encode()
        except UnicodeError:
            message = "holds bytes that are not of its encoding; say its true encoding, like encoding = 'cp1252'"
            raise InputError(message, file=self._shown, line=self._line) from None
