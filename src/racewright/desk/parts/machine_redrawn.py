"""A chart that is built anew when answers come, but not more often than the eye follows."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from nicegui import background_tasks, ui

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

APART = 1.0
"""Least time between two charts [s]."""
STAYS = 5.0
"""How long the old one stays, out of sight [s]: the kit complains when one is taken away while it finds its size."""


class Redrawn:
    """Builds within a place, emptied before; the newest call wins.

    Parameters
    ----------
    screen : Screen
    place : element
    build : callable
    """

    def __init__(self, screen: Screen, place: Any, build: Callable[[], None]) -> None:
        self._screen, self._place, self._build = screen, place, build
        self._last, self._waits = 0.0, False
        self._shown: Any = None

    def soon(self) -> None:
        """At once where the last one has stood long enough, else when it has."""
        left = self._last + APART - time.monotonic()
        if left <= 0.0:
            self._now()
        elif not self._waits:
            self._waits = True
            self._screen.run(self._later(left))

    async def _later(self, left: float) -> None:
        await asyncio.sleep(left)
        self._waits = False
        if not self._screen.closed:
            self._now()

    def _now(self) -> None:
        self._last = time.monotonic()
        with self._place:
            new = ui.element("div")
            with new:
                self._build()
        old, self._shown = self._shown, new
        if old is not None:
            old.style("position: absolute; visibility: hidden; width: 20rem")
            background_tasks.create(self._away(old))

    async def _away(self, old: Any) -> None:
        """Take the old one away when it has surely found its size."""
        await asyncio.sleep(STAYS)
        if not self._screen.closed:
            old.delete()
