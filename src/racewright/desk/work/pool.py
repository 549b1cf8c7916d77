"""Worker processes of the desk; what they do never holds up the page."""

from __future__ import annotations

import asyncio
import itertools
import os
from concurrent.futures import Future, ProcessPoolExecutor
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from multiprocessing import get_context
from typing import Any

from racewright.desk.work import inside
from racewright.desk.work.board import Board
from racewright.desk.work.inside import Job
from racewright.errors import Cancelled, NoAnswerError


@dataclass(frozen=True)
class Running:
    """A job that was handed out: its number and what it will give."""

    serial: int
    future: Future[Any]


class Pool:
    """A pool of spawned processes of one thread each.

    Parameters
    ----------
    workers : int, optional
        As many as there are processors, 2 to 4, when left out.
    """

    def __init__(self, workers: int | None = None) -> None:
        self.workers = workers or max(2, min(4, os.cpu_count() or 2))
        self._context = get_context("spawn")
        self._board = Board.new(self._context)
        self._serials = itertools.count(1)
        self._executor = self._new()

    def _new(self) -> ProcessPoolExecutor:
        return ProcessPoolExecutor(
            self.workers, mp_context=self._context, initializer=inside.start, initargs=(self._board,)
        )

    def warm(self) -> None:
        """Start every worker and let it load; returns at once."""
        for _worker in range(self.workers):
            self.begin(inside.warm)

    def begin(self, job: Job, *arguments: Any) -> Running:
        """Hand out a job. A pool whose worker died is made anew."""
        serial = next(self._serials)
        self._board.begin(serial)
        try:
            future = self._executor.submit(inside.run, serial, job, arguments)
        except BrokenProcessPool:
            self._executor = self._new()
            future = self._executor.submit(inside.run, serial, job, arguments)
        return Running(serial, future)

    def fraction(self, running: Running) -> float:
        """How far a job is, 0 to 1."""
        return self._board.fraction(running.serial)

    def cancel(self, running: Running) -> None:
        """Stop a job at its next tick, or before it begins."""
        self._board.cancel(running.serial)
        running.future.cancel()

    async def result(self, running: Running) -> Any:
        """What a job gives.

        Raises
        ------
        Cancelled
            It was cancelled.
        NoAnswerError
            Its process died.
        """
        try:
            return await asyncio.wrap_future(running.future)
        except asyncio.CancelledError:
            if running.future.cancelled():
                raise Cancelled("a newer request took its place") from None
            raise
        except BrokenProcessPool:
            raise NoAnswerError("a worker process died (out of memory?); ask again") from None

    def stop(self) -> None:
        """End every worker; what runs is cancelled."""
        processes = list((self._executor._processes or {}).values())
        self._executor.shutdown(wait=False, cancel_futures=True)
        for process in processes:
            process.terminate()
