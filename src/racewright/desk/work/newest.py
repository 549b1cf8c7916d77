"""Newest wins: of several requests of one kind from one tab only the last is answered."""

from __future__ import annotations

from typing import Any

from racewright.desk.work.inside import Job
from racewright.desk.work.pool import Pool, Running
from racewright.errors import Cancelled

Kind = tuple[str, str]
"""(tab, kind of request)."""


class Newest:
    """Requests by tab and kind.

    Parameters
    ----------
    pool : Pool
    """

    def __init__(self, pool: Pool) -> None:
        self._pool = pool
        self._running: dict[Kind, Running] = {}

    async def ask(self, kind: Kind, job: Job, *arguments: Any, quick: bool = False) -> Any:
        """What the job gives; an older request of the same kind is cancelled. `quick` as in `Pool.begin`.

        Raises
        ------
        Cancelled
            A newer request of this kind came meanwhile; its answer must not be replaced by this one.
        """
        older = self._running.get(kind)
        if older is not None:
            self._pool.cancel(older)
        running = self._pool.begin(job, *arguments, quick=quick)
        self._running[kind] = running
        try:
            answer = await self._pool.result(running)
        finally:
            newest = self._running.get(kind) is running
            if newest:
                del self._running[kind]
        if not newest:
            raise Cancelled("a newer request took its place")
        return answer

    def fraction(self, kind: Kind) -> float | None:
        """How far the running request is; None where none runs."""
        running = self._running.get(kind)
        return None if running is None else self._pool.fraction(running)

    def stop(self, kind: Kind) -> None:
        """The running request of a kind is not wanted any more."""
        running = self._running.pop(kind, None)
        if running is not None:
            self._pool.cancel(running)

    def leave(self, tab: str) -> None:
        """A tab is gone: nothing it asked for is wanted."""
        for kind in [k for k in self._running if k[0] == tab]:
            self._pool.cancel(self._running.pop(kind))
