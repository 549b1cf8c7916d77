"""A job of the scheme's own session: it goes on when the page that began it is left."""

from __future__ import annotations

import asyncio
import datetime
import logging
from collections.abc import Callable, Mapping
from typing import Any

from racewright.desk.work.inside import Job
from racewright.desk.work.pool import Pool, Running
from racewright.errors import Cancelled, NoAnswerError, RacewrightError

LOG = logging.getLogger("racewright.desk")

Follower = Callable[[], None]


class Lasting:
    """One kind of job for the whole desk, whichever tab began it; what it gave is kept until the next begins.

    Parameters
    ----------
    pool : Pool

    Attributes
    ----------
    told : mapping
        What the one who began it says of it.
    since, ended : datetime or None
        On this machine's clock; None before the first, `ended` also while one runs.
    result : object
        What the last gave; None where it did not come to its end.
    error : RacewrightError or None
        Why the last gave nothing; `Cancelled` where it was stopped.
    """

    def __init__(self, pool: Pool) -> None:
        self._pool = pool
        self._running: Running | None = None
        self._task: asyncio.Task[None] | None = None
        self._followers: list[Follower] = []
        self._clear({})
        self.since: datetime.datetime | None = None

    def _clear(self, told: Mapping[str, Any]) -> None:
        self.told = told
        self.result: Any = None
        self.error: RacewrightError | None = None
        self.ended: datetime.datetime | None = None

    @property
    def runs(self) -> bool:
        """True while one runs."""
        return self._running is not None

    @property
    def fraction(self) -> float | None:
        """How far the running one is, 0 to 1; None where none runs."""
        return None if self._running is None else self._pool.fraction(self._running)

    def begin(self, told: Mapping[str, Any], job: Job, *arguments: Any) -> None:
        """Begin one; one that runs already is stopped and gives nothing.

        Parameters
        ----------
        told : mapping
            Kept beside it as `told`.
        job : callable
            One that can be imported.
        *arguments
            What it takes.
        """
        if self._running is not None:
            self._pool.cancel(self._running)
        self._clear(told)
        self.since = _now()
        running = self._running = self._pool.begin(job, *arguments)
        self._task = asyncio.get_running_loop().create_task(self._through(running))
        self._tell()

    def stop(self) -> None:
        """Stop the running one at its next tick."""
        if self._running is not None:
            self._pool.cancel(self._running)

    def follow(self, follower: Follower) -> Callable[[], None]:
        """Call `follower` when one begins or ends; returns what ends that."""
        self._followers.append(follower)

        def end() -> None:
            if follower in self._followers:
                self._followers.remove(follower)

        return end

    async def _through(self, running: Running) -> None:
        result: Any = None
        error: RacewrightError | None = None
        try:
            result = await self._pool.result(running)
        except RacewrightError as fault:
            error = fault
        except Exception as fault:  # a fault of ours: told, logged, and the desk goes on
            LOG.error("a lasting job: %s", type(fault).__name__, exc_info=fault)
            error = NoAnswerError(f"internal fault ({type(fault).__name__}); please report it with the version")
        if self._running is not running:  # a newer one took its place
            return
        self._running, self.result, self.error, self.ended = None, result, error, _now()
        self._tell()

    @property
    def cancelled(self) -> bool:
        """True where the last was stopped."""
        return isinstance(self.error, Cancelled)

    def _tell(self) -> None:
        for follower in tuple(self._followers):
            follower()


def _now() -> datetime.datetime:
    return datetime.datetime.now().astimezone()
