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
    """Two lanes of spawned processes of one thread each: one process for what is quick, the others for the rest.

    What is quick thus never waits behind a long job, and finds what its process remembers.

    Parameters
    ----------
    workers : int, optional
        For the long jobs; as many as there are processors, 2 to 4, when left out.
    """

    def __init__(self, workers: int | None = None) -> None:
        self.workers = workers or max(2, min(4, os.cpu_count() or 2))
        self._context = get_context("spawn")
        self._board = Board.new(self._context)
        self._serials = itertools.count(1)
        self._lanes = {quick: self._new(quick=quick) for quick in (False, True)}

    def _new(self, *, quick: bool) -> ProcessPoolExecutor:
        processes, yields = (1, 0) if quick else (self.workers, inside.YIELDS)
        return ProcessPoolExecutor(
            processes, mp_context=self._context, initializer=inside.start, initargs=(self._board, yields)
        )

    def warm(self) -> None:
        """Start every worker and let it load; returns at once."""
        self.begin(inside.warm, quick=True)
        for _worker in range(self.workers):
            self.begin(inside.warm)

    def begin(self, job: Job, *arguments: Any, quick: bool = False) -> Running:
        """Hand out a job; `quick` ones have a process of their own. A lane whose worker died is made anew."""
        serial = next(self._serials)
        self._board.begin(serial)
        try:
            future = self._lanes[quick].submit(inside.run, serial, job, arguments)
        except BrokenProcessPool:
            self._lanes[quick] = self._new(quick=quick)
            future = self._lanes[quick].submit(inside.run, serial, job, arguments)
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
        for lane in self._lanes.values():
            processes = list((lane._processes or {}).values())
            lane.shutdown(wait=False, cancel_futures=True)
            for process in processes:
                process.terminate()
