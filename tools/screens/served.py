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
    """The address that a desk prints on standard error; what it says later is read and dropped, so that it never
    waits for a reader.

    Raises
    ------
    RuntimeError
        It ended, or said no address within `START`.
    """
    said: queue.Queue[str] = queue.Queue()
    threading.Thread(target=_read, args=(process, said), daemon=True).start()
    lines = ""
    try:
        while line := said.get(timeout=START):
            lines += line
            if found := re.search(r"Desk: (http://\S+)", line):
                return found[1]
    except queue.Empty:
        pass
    raise RuntimeError(f"the desk did not start: {lines}")


def _read(process: subprocess.Popen[str], said: queue.Queue[str]) -> None:
    """Hand on every line, '' at the end."""
    assert process.stderr is not None
    for line in process.stderr:
        said.put(line)
    said.put("")
