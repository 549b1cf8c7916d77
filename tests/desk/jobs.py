"""Jobs for worker processes; they can be imported there."""

from __future__ import annotations

import os
import time

from racewright.errors import InputError
from racewright.tick import Tick


def count(steps: int, pause: float, tick: Tick) -> int:
    """Tick on for a while; gives the number of steps."""
    for step in range(steps):
        tick(step / steps)
        time.sleep(pause)
    return steps


def fail(tick: Tick) -> None:
    """The input is wrong."""
    tick(0.5)
    raise InputError("is wrong", key="a.b", line=3)


def die(_tick: Tick) -> None:
    """The process goes."""
    os._exit(1)
