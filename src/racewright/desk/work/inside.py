"""What runs inside a worker process."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable
from typing import Any

from racewright.desk.work.board import Board
from racewright.tick import Tick

_BOARD: list[Board] = []

Job = Callable[..., Any]
"""A function that can be imported, called as job(*arguments, tick)."""


YIELDS = 5
"""How far workers of long jobs step back behind the desk itself and what is quick (a niceness)."""


def start(board: Board, yields: int) -> None:
    """First thing in a worker: one thread, deaf to Ctrl-C (its parent tells it), the board at hand."""
    import racewright.threads  # noqa: F401

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if yields and hasattr(os, "nice"):
        os.nice(yields)
    _BOARD[:] = [board]


def run(serial: int, job: Job, arguments: tuple[Any, ...]) -> Any:
    """Run a job with a tick of its own."""
    board = _BOARD[0]
    tick: Tick = lambda fraction: board.tick(serial, fraction)  # noqa: E731
    tick(0.0)
    return job(*arguments, tick)


def warm(tick: Tick) -> None:
    """Load what nearly every answer needs, so that the first is as quick as the next."""
    import racewright.desk.seam
    import racewright.dossier.drawings
    import racewright.ledger.chain

    racewright.desk.seam.all_pages()
    tick(1.0)
