"""Run the desk as a user would, in a process of its own."""

from __future__ import annotations

import os
import queue
import re
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

START = 120.0
"""Longest wait for the desk's address [s]."""


@contextmanager
def desk(scheme: Path, *options: str, extra: Mapping[str, str] | None = None) -> Iterator[str]:
    """The address of a running desk, with `extra` in its environment; it is ended by Ctrl-C."""
    command = [sys.executable, "-m", "racewright", "desk", str(scheme), "--no-browser", "--port", "0", *options]
    given = {**environment(), **(extra or {})}
    with subprocess.Popen(command, stderr=subprocess.PIPE, text=True, env=given) as process:
        try:
            yield address_of(process)
        finally:
            process.send_signal(signal.SIGINT)
            try:
                process.wait(20)
            except subprocess.TimeoutExpired:
                process.kill()


def environment() -> dict[str, str]:
    """This process's, without what a test run says of itself: the kit behaves otherwise under tests."""
    return {key: value for key, value in os.environ.items() if not key.startswith(("PYTEST_", "NICEGUI_"))}


def address_of(process: subprocess.Popen[str]) -> str:
    """The address that a desk prints on standard error; see `Heard.address`."""
    return Heard(process).address()


class Heard:
    """What a desk says on standard error, read as it comes, so that it never waits for a reader."""

    def __init__(self, process: subprocess.Popen[str]) -> None:
        self._process, self._lines = process, queue.Queue[str]()
        self._said = ""
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()

    def address(self) -> str:
        """The address that it prints.

        Raises
        ------
        RuntimeError
            It ended, or said no address within `START`.
        """
        try:
            while line := self._lines.get(timeout=START):
                if found := re.search(r"Desk: (http://\S+)", line):
                    return found[1]
        except queue.Empty:
            pass
        raise RuntimeError(f"the desk did not start: {self._said}")

    def all(self) -> str:
        """Everything it said, once it has ended."""
        self._reader.join()
        return self._said

    def _read(self) -> None:
        """Hand on every line, '' at the end."""
        assert self._process.stderr is not None
        for line in self._process.stderr:
            self._said += line
            self._lines.put(line)
        self._lines.put("")
