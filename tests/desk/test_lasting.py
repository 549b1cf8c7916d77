"""A job of the desk itself: it outlives the tab that began it, and every tab sees how it stands."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from nicegui import Client
from nicegui.page import page as kit_page

from racewright.desk.keeper.keeper import Keeper
from racewright.desk.parts.dossier_job import doing
from racewright.desk.parts.dossier_make import Maker
from racewright.desk.work.lasting import Lasting
from racewright.desk.work.pool import Pool
from racewright.errors import Cancelled, InputError
from tests.desk import jobs


async def _until(true: Callable[[], bool]) -> None:
    for _look in range(1500):
        if true():
            return
        await asyncio.sleep(0.02)
    raise AssertionError("never true")


def _run(work: Callable[[], Awaitable[None]]) -> None:
    async def through() -> None:
        await work()

    asyncio.run(through())


def test_a_job_is_told_when_it_begins_and_when_it_ends(pool: Pool) -> None:
    job = Lasting(pool)
    seen: list[tuple[bool, Any]] = []
    end = job.follow(lambda: seen.append((job.runs, job.result)))

    async def go() -> None:
        assert (job.runs, job.fraction, job.since) == (False, None, None)
        job.begin({"case": "a"}, jobs.count, 3, 0.01)
        await _until(lambda: not job.runs)
        end()
        job.begin({}, jobs.count, 2, 0.0)
        await _until(lambda: not job.runs)

    _run(go)
    assert seen == [(True, None), (False, 3)]
    assert job.result == 2
    assert job.since is not None
    assert job.ended is not None
    assert job.since <= job.ended


def test_a_stop_a_fault_and_a_newer_one(pool: Pool) -> None:
    """The first would take a minute; the newer one gives the answer, the older never."""
    job = Lasting(pool)

    async def go() -> None:
        job.begin({}, jobs.count, 6000, 0.01)
        await _until(lambda: (job.fraction or 0.0) > 0.0)
        job.stop()
        await _until(lambda: not job.runs)
        assert job.cancelled
        assert isinstance(job.error, Cancelled)
        job.begin({}, jobs.fail)
        await _until(lambda: not job.runs)
        assert isinstance(job.error, InputError)
        assert not job.cancelled
        job.begin({}, jobs.count, 6000, 0.01)
        job.begin({"n": 2}, jobs.count, 2, 0.0)
        await _until(lambda: not job.runs)
        await asyncio.sleep(0.1)

    _run(go)
    assert (job.result, job.error, job.told) == (2, None, {"n": 2})


def test_a_fault_of_ours_is_told_and_logged(pool: Pool, caplog: pytest.LogCaptureFixture) -> None:
    job = Lasting(pool)

    async def go() -> None:
        job.begin({}, jobs.count, "many", 0.0)
        await _until(lambda: not job.runs)

    _run(go)
    assert "internal fault (TypeError)" in str(job.error)
    assert "TypeError" in caplog.text


def _tab(keeper: Keeper, job: Lasting) -> Any:
    ends: list[Callable[[], None]] = []
    screen = SimpleNamespace(
        desk=SimpleNamespace(dossier=job, keeper=keeper),
        data={"chapters": []},
        options=SimpleNamespace(case=None),
        case="",
        closed=False,
        follow=lambda _f: None,
        on_leave=ends.append,
    )

    def leave() -> None:
        screen.closed = True
        for end in ends:
            end()

    return SimpleNamespace(screen=screen, leave=leave)


def _said(client: Client) -> str:
    return "\n".join(str(getattr(e, "text", "")) for e in client.elements.values())


def test_a_dossier_goes_on_when_its_page_is_left_and_is_there_on_return(tmp_path: Path, pool: Pool) -> None:
    """One tab begins it and is closed; the next shows it going on, with a named bar, and then its downloads."""
    path = tmp_path / "scheme.toml"
    path.write_bytes(b'format = 2\ntitle = "Nothing yet"\n')
    keeper, job = Keeper(path), Lasting(pool)
    before, after = (Client(kit_page("/"), request=None) for _n in range(2))

    async def go() -> None:
        first, second = _tab(keeper, job), _tab(keeper, job)
        with before:
            one = Maker(first.screen)
        one.make()
        assert job.runs
        first.leave()
        with after:
            Maker(second.screen)
        assert "Computing the draft" in _said(after)
        assert job.since is not None
        assert f"since {job.since:%H:%M:%S}" in _said(after)
        bar = next(e for e in after.elements.values() if e.props.get("role") == "progressbar")
        assert bar.props["aria-label"] == "Making of the dossier"
        assert bar.props["aria-valuenow"] == "0"
        cancel = next(e for e in after.elements.values() if getattr(e, "text", "") == "Cancel")
        assert cancel.props["disabled"] is False
        await _until(lambda: not job.runs)
        said = _said(after)
        assert "reports/0001-empty" in said
        assert "Download PDF" in said
        assert "Download HTML" in said
        assert "Download" not in _said(before)
        assert cancel.props["disabled"] is True
        keeper.edit({"title": "Another"}, keeper.revision)
        with Client(kit_page("/"), request=None) as third:
            Maker(_tab(keeper, job).screen)
        assert "The draft has changed since." in _said(third)

    _run(go)


def test_what_is_being_done_is_said_in_its_order() -> None:
    said = list(dict.fromkeys(doing(n / 1000.0) for n in range(1001)))
    assert said == ["Computing the draft", "Drawing the figures", "Setting the page", "Setting the sheets of the PDF"]
