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


COMPILING = """
import os, signal, sys
from racewright.cli.interrupt import heed, listen
signal.signal(signal.SIGINT, signal.default_int_handler)
listen()
scope = {"os": os, "signal": signal}
exec(compile("def call(): os.kill(os.getpid(), signal.SIGINT); return 1", "/lib/llvmlite/binding.py", "exec"), scope)
assert scope["call"]() == 1
try:
    heed(0.5)
except KeyboardInterrupt:
    sys.exit(7)
"""


def test_an_interrupt_while_code_is_compiled_waits_for_the_next_tick() -> None:
    assert subprocess.run([sys.executable, "-c", COMPILING], check=False).returncode == 7
