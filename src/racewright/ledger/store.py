"""The content cache: one file per node key, written whole, shared by processes, held under a size."""

from __future__ import annotations

import contextlib
import os
import tempfile
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

Classes = dict[str, type]

LARGEST = 256 * 1024 * 1024
"""Bytes that the cache may hold; the least recently used values go first."""

_ENDING = ".npz"


@dataclass(frozen=True)
class Store:
    """A folder of node values. Everything that can go wrong here is a miss or a value not kept, never an error.

    Attributes
    ----------
    folder : Path
    classes : dict
        The dataclasses that values are made of, by name.
    largest : int
        Size cap [bytes].
    """

    folder: Path
    classes: Classes
    largest: int = LARGEST
    _room: list[int] = field(default_factory=list, repr=False, compare=False)
    """Bytes that may still be written before the folder is looked through again; empty before the first time."""

    def get(self, key: str) -> tuple[bool, Any]:
        """(True, value), or (False, None) when there is no sound value under this key."""
        from racewright.ledger.codec import Foreign, decode  # here: `cache` needs no numerical library

        path = self._path(key)
        try:
            value = decode(path.read_bytes(), key, self.classes)
        except (OSError, Foreign):
            return False, None
        with contextlib.suppress(OSError):
            os.utime(path)
        return True, value

    def put(self, key: str, value: Any) -> None:
        """Keep a value; a full or read-only disk only means that it is computed again next time."""
        from racewright.ledger.codec import encode

        path = self._path(key)
        data = encode(value, key)
        try:
            path.parent.mkdir(parents=True, exist_ok=True)
            handle, temporary = tempfile.mkstemp(dir=path.parent, suffix=".part")
            with os.fdopen(handle, "wb") as stream:
                stream.write(data)
            Path(temporary).replace(path)
        except OSError:
            return
        self._spend(len(data))

    def size(self) -> tuple[int, int]:
        """Number of files and bytes held."""
        sizes = [size for _time, size, _path in self._files()]
        return len(sizes), sum(sizes)

    def clear(self) -> int:
        """Remove every value; returns how many files went."""
        gone = 0
        for _time, _size, path in self._files():
            with contextlib.suppress(OSError):
                path.unlink()
                gone += 1
        return gone

    def _path(self, key: str) -> Path:
        return self.folder / key[:2] / f"{key}{_ENDING}"

    def _files(self) -> list[tuple[float, int, Path]]:
        """Age, size and path of what is held, oldest use first."""
        found = []
        for path in self.folder.glob("??/*"):
            if path.suffix in (_ENDING, ".part"):
                with contextlib.suppress(OSError):
                    status = path.stat()
                    found.append((status.st_mtime, status.st_size, path))
        return sorted(found)

    def _spend(self, size: int) -> None:
        """Look through the folder when an eighth of its free room is used up, for others write there too."""
        if not self._room or self._room[0] < size:
            self._room[:] = [(self.largest - self._trim()) // 8]
        else:
            self._room[0] -= size

    def _trim(self) -> int:
        """Remove the least recently used values above the cap; bytes left."""
        files = self._files()
        total = sum(size for _time, size, _path in files)
        for _time, size, path in files:
            if total <= self.largest:
                break
            with contextlib.suppress(OSError):
                path.unlink()
            total -= size
        return total


def cache_folder() -> Path:
    """RACEWRIGHT_CACHE, else the user's cache folder."""
    named = os.environ.get("RACEWRIGHT_CACHE")
    if named:
        return Path(named)
    base = os.environ.get("XDG_CACHE_HOME") or "~/.cache"
    return Path(base).expanduser() / "racewright"
