"""Run the desk as a user would, in a process of its own."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

START = 120.0
"""Longest wait for the desk's address [s]."""


@contextmanager
def desk(scheme: Path, *options: str) -> Iterator[str]:
    """The address of a running desk; it is ended by Ctrl-C."""
    command = [sys.executable, "-m", "racewright", "desk", str(scheme), "--no-browser", "--port", "0", *options]
    process = subprocess.Popen(command, stderr=subprocess.PIPE, text=True, env=environment())
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
    """The address that a desk prints on standard error."""
    assert process.stderr is not None
    begun = time.monotonic()
    said = ""
    while time.monotonic() < begun + START:
        line = process.stderr.readline()
        said += line
        found = re.search(r"Desk: (http://\S+)", line)
        if found:
            return found[1]
        if not line and process.poll() is not None:
            break
    raise RuntimeError(f"the desk did not start: {said}")
