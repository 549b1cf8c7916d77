"""A logger file's bytes on their way to the parser: hashed, as UTF-8, whole lines only, nothing hostile."""

from __future__ import annotations

import codecs
import hashlib
import io
from pathlib import Path

import numpy as np

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
TAKEN = 1 << 22
"""Bytes handed on at a time."""
_LINE_END = ord("\n")
_LEAST = 1 << 16
"""Bytes read at a time even where a line without end is held back."""
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
        self._ready, self._rest, self._at_end = memoryview(b""), b"", False
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

    def read(self, size: int = -1) -> memoryview:
        """At most `size` bytes, all that are ready where it is negative; none at the end. Nothing is copied."""
        while not self._ready and not self._at_end:
            self._take()
        count = len(self._ready) if size < 0 else size
        found, self._ready = self._ready[:count], self._ready[count:]
        return found

    def _piece(self) -> bytearray | None:
        """What was left over and the next bytes of the file, `TAKEN` together; None at its end."""
        kept = len(self._rest)
        text = bytearray(max(TAKEN, kept + _LEAST))
        text[:kept] = self._rest
        with memoryview(text) as whole:
            try:
                count = self._file.readinto(whole[kept:])
            except OSError as fault:
                raise unreadable(fault, self._shown) from None
            self._hash.update(whole[kept : kept + count])
        if not count:
            return None
        del text[kept + count :]
        if self._decoder is not None:
            text[kept:] = self._as_utf8(self._decoder, bytes(text[kept:]))
        return text

    def _take(self) -> None:
        """One more piece of the file, up to its last line end."""
        text = self._piece()
        if text is None:
            self._at_end = True
            self._told.sha256 = self._hash.hexdigest()
            self._told.cut_short = bool(self._rest.strip())
            return
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
        self._ready, self._rest = memoryview(text)[:cut], bytes(memoryview(text)[cut:])
        self._line += int(np.count_nonzero(np.frombuffer(text, np.uint8, cut) == _LINE_END))

    def _as_utf8(self, decoder: codecs.IncrementalDecoder, piece: bytes) -> bytes:
        try:
            return decoder.decode(piece).encode()
        except UnicodeError:
            message = "holds bytes that are not of its encoding; say its true encoding, like encoding = 'cp1252'"
            raise InputError(message, file=self._shown, line=self._line) from None
