"""A Ctrl-C whose exception is swallowed by a callback still stops the run at the next tick."""

from __future__ import annotations

import subprocess
import sys

SWALLOWED = """
import os, signal, sys
from racewright.cli.interrupt import heed, listen
signal.signal(signal.SIGINT, signal.default_int_handler)
listen()
try:
    os.kill(os.getpid(), signal.SIGINT)
except KeyboardInterrupt:
    pass  # as a callback of a compiled library does
try:
    heed(0.5)
except KeyboardInterrupt:
    sys.exit(7)
"""


def test_a_swallowed_interrupt_is_raised_again_at_the_next_tick() -> None:
    assert subprocess.run([sys.executable, "-c", SWALLOWED], check=False).returncode == 7
