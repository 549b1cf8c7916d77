"""A file that grows beside other work and has its name only when it is whole and on disk."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path

from racewright.records.forced import force

_FORCED = 1 << 25
"""Bytes forced to disk at a time while the file grows, so that little is left to wait for at its end."""


class PartFile:
    """`NAME.part`, written by one other thread; `finish` forces it to disk and gives it the name `path`."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.part = path.with_name(path.name + ".part")
        self._hand = ThreadPoolExecutor(1)
        self._working: Future[None] | None = None
        self._forced = 0

    def add(self, write: Callable[[], None]) -> None:
        """Have a piece written; waits for the piece before it, whose fault comes out here."""
        self._settle()
        self._working = self._hand.submit(self._write, write)

    def _write(self, write: Callable[[], None]) -> None:
        write()
        size = self.part.stat().st_size
        if size - self._forced >= _FORCED:
            force(self.part)
            self._forced = size

    def _settle(self) -> None:
        if self._working is not None:
            self._working.result()
            self._working = None

    def finish(self, close: Callable[[], None]) -> None:
        """Whole and on disk, under its name, after `close` has written its end."""
        self._settle()
        self._hand.shutdown()
        close()
        force(self.part)
        self.part.rename(self.path)
        force(self.path.parent)

    def drop(self, close: Callable[[], None]) -> None:
        """Leave nothing behind."""
        self._hand.shutdown()
        close()
        self.part.unlink(missing_ok=True)
