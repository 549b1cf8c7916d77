"""Shared memory between the desk and its workers: how far each job is, and which job is to stop."""

from __future__ import annotations

from dataclasses import dataclass
from multiprocessing.context import SpawnContext
from typing import Any

from racewright.errors import Cancelled

SLOTS = 256
"""Jobs that can be followed at a time."""


@dataclass(frozen=True)
class Board:
    """One slot a job. A newer value stands over an older one: whoever looks sees the newest.

    Attributes
    ----------
    done : shared array of float, shape (SLOTS,)
        Fraction done [-].
    stop : shared array of int, shape (SLOTS,)
        Serial number up to which jobs in the slot are to stop.
    """

    done: Any
    stop: Any

    @classmethod
    def new(cls, context: SpawnContext) -> Board:
        """An empty board."""
        return cls(context.Array("d", SLOTS, lock=False), context.Array("q", SLOTS, lock=False))

    def tick(self, serial: int, fraction: float) -> None:
        """From inside a job: say how far it is.

        Raises
        ------
        Cancelled
            When it is to stop.
        """
        slot = serial % SLOTS
        if self.stop[slot] >= serial:
            raise Cancelled("a newer request took its place")
        self.done[slot] = fraction

    def begin(self, serial: int) -> None:
        """A job is about to be handed out."""
        self.done[serial % SLOTS] = 0.0

    def cancel(self, serial: int) -> None:
        """A job is not wanted any more."""
        self.stop[serial % SLOTS] = max(self.stop[serial % SLOTS], serial)

    def fraction(self, serial: int) -> float:
        """How far a job is, 0 to 1."""
        return float(self.done[serial % SLOTS])
