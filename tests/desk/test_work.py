"""Workers: newest wins, the older one stops at its tick, progress is the newest, a dead worker is replaced."""

from __future__ import annotations

import asyncio
import time

import pytest

from racewright.desk.work.newest import Newest
from racewright.desk.work.pool import Pool
from racewright.errors import Cancelled, InputError, NoAnswerError
from tests.desk import jobs


def test_the_newest_wins_and_the_older_stops(pool: Pool) -> None:
    """With one worker the second can only be done because the first gave way: it would take 60 s."""
    newest = Newest(pool)

    async def both() -> tuple[object, object, float]:
        begun = time.monotonic()
        older = asyncio.ensure_future(newest.ask(("tab", "point"), jobs.count, 6000, 0.01))
        await asyncio.sleep(0.3)
        newer = asyncio.ensure_future(newest.ask(("tab", "point"), jobs.count, 3, 0.01))
        done = await asyncio.gather(older, newer, return_exceptions=True)
        return done[0], done[1], time.monotonic() - begun

    older, newer, taken = asyncio.run(both())
    assert isinstance(older, Cancelled)
    assert newer == 3
    assert taken < 20.0


def test_other_tabs_and_kinds_are_left_alone(pool: Pool) -> None:
    newest = Newest(pool)

    async def three() -> list[int]:
        kinds = [("a", "point"), ("a", "curve"), ("b", "point")]
        return list(await asyncio.gather(*(newest.ask(kind, jobs.count, 2, 0.01) for kind in kinds)))

    assert asyncio.run(three()) == [2, 2, 2]


def test_what_is_quick_does_not_wait_behind_long_jobs(pool: Pool) -> None:
    """The only other worker is held for a minute; the quick one answers meanwhile, and the long one goes on."""

    async def both() -> tuple[object, bool]:
        long = pool.begin(jobs.count, 6000, 0.01)
        found = await pool.result(pool.begin(jobs.count, 3, 0.0, quick=True))
        runs = not long.future.done()
        pool.cancel(long)
        await asyncio.gather(pool.result(long), return_exceptions=True)
        return found, runs

    assert asyncio.run(both()) == (3, True)


def test_progress_is_the_newest_and_the_loop_stays_free(pool: Pool) -> None:
    newest = Newest(pool)

    async def watch() -> tuple[list[float], float]:
        task = asyncio.ensure_future(newest.ask(("tab", "long"), jobs.count, 40, 0.01))
        seen: list[float] = []
        worst = 0.0
        while not task.done():
            begun = time.monotonic()
            await asyncio.sleep(0.01)
            worst = max(worst, time.monotonic() - begun)
            seen.append(newest.fraction(("tab", "long")) or 0.0)
        return seen, worst

    seen, worst = asyncio.run(watch())
    assert seen[:-1] == sorted(seen[:-1])
    assert max(seen) > 0.5
    assert worst < 0.25
    assert newest.fraction(("tab", "long")) is None


def test_a_tab_that_leaves_takes_its_work_along(pool: Pool) -> None:
    newest = Newest(pool)

    async def leave() -> float:
        begun = time.monotonic()
        task = asyncio.ensure_future(newest.ask(("gone", "long"), jobs.count, 6000, 0.01))
        await asyncio.sleep(0.3)
        newest.leave("gone")
        with pytest.raises(Cancelled):
            await task
        return time.monotonic() - begun

    assert asyncio.run(leave()) < 20.0


def test_a_fault_of_the_input_comes_back_with_its_place(pool: Pool) -> None:
    with pytest.raises(InputError) as caught:
        asyncio.run(Newest(pool).ask(("tab", "x"), jobs.fail))
    assert (caught.value.key, caught.value.line, caught.value.message) == ("a.b", 3, "is wrong")


def test_a_worker_that_dies_is_told_and_replaced(pool: Pool) -> None:
    newest = Newest(pool)
    with pytest.raises(NoAnswerError, match="worker process died"):
        asyncio.run(newest.ask(("tab", "x"), jobs.die))
    assert asyncio.run(newest.ask(("tab", "x"), jobs.count, 2, 0.0)) == 2
