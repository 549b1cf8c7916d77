"""Progress and cancel: the one way a long computation talks to its caller."""

from __future__ import annotations

from collections.abc import Callable

Tick = Callable[[float], None]
"""Called with the fraction done (0 to 1) between loads, lines or chunks; may raise `Cancelled`."""


def silent(_fraction: float) -> None:
    """A tick that does nothing."""


def part_of(tick: Tick, done: int, of: int) -> Tick:
    """The tick of one of several equal parts, after `done` of them."""
    return lambda fraction: tick((done + fraction) / of)
