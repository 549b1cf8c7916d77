"""An answer that comes after a newer one is not shown: neither a page's nor a handle's."""

from __future__ import annotations

import asyncio
from concurrent.futures import Future
from pathlib import Path
from types import SimpleNamespace
from typing import Any

from racewright.desk.answer import Answer
from racewright.desk.desk import Desk
from racewright.desk.keeper.keeper import Keeper
from racewright.desk.parts import machine_drawn
from racewright.desk.parts.machine_drawing import HANDLES
from racewright.desk.parts.machine_live import Answers, Live
from racewright.desk.seam import Options, page_named
from racewright.desk.work.pool import Running
from racewright.errors import Cancelled
from tests.desk.common import example


class _Pool:
    """Jobs that are done when the test says so."""

    def __init__(self) -> None:
        self.futures: list[Future[Any]] = []

    def begin(self, *_job: Any, quick: bool = False) -> Running:
        self.futures.append(Future())
        return Running(len(self.futures), self.futures[-1])

    def cancel(self, running: Running) -> None:
        """It goes on: a worker stops at its next tick only, and may be past its last."""

    async def result(self, running: Running) -> Any:
        return await asyncio.wrap_future(running.future)


def test_an_older_answer_does_not_come_after_one_that_was_held(tmp_path: Path) -> None:
    """Edit and undo: the answer at hand is shown at once, that of the edit is not shown after it."""
    keeper, pool = Keeper(example(tmp_path)), _Pool()
    desk, page = Desk(keeper, pool), page_named("standing")  # type: ignore[arg-type]

    async def walk() -> tuple[Answer, Any]:
        first = asyncio.ensure_future(desk.page("tab", page, Options()))
        await asyncio.sleep(0)
        pool.futures[0].set_result(Answer("as it was"))
        await first
        keeper.edit({"title": "edited"}, keeper.revision)
        edited = asyncio.ensure_future(desk.page("tab", page, Options()))
        await asyncio.sleep(0)
        keeper.undo(keeper.revision)
        held = await desk.page("tab", page, Options())
        pool.futures[1].set_result(Answer("edited"))
        return held, (await asyncio.gather(edited, return_exceptions=True))[0]

    held, late = asyncio.run(walk())
    assert held.text == "as it was"
    assert isinstance(late, Cancelled)


def test_a_further_answer_is_held_but_a_quick_one_is_asked_again(tmp_path: Path) -> None:
    """What a page asks besides its data is at hand when it is opened again; quick ones stand on a worker's memory."""
    keeper, pool = Keeper(example(tmp_path)), _Pool()
    desk = Desk(keeper, pool)  # type: ignore[arg-type]

    async def ask(text: str, *, quick: bool) -> str:
        asked = asyncio.ensure_future(desk.further("tab", "kind", machine_drawn.drawn, Options(), quick=quick))
        await asyncio.sleep(0)
        if pool.futures and not pool.futures[-1].done():
            pool.futures[-1].set_result(Answer(text))
        return (await asked).text

    async def walk() -> list[str]:
        found = [await ask("one", quick=True), await ask("two", quick=True)]
        found += [await ask("three", quick=False), await ask("four", quick=False)]
        keeper.edit({"title": "edited"}, keeper.revision)
        return [*found, await ask("five", quick=False)]

    assert asyncio.run(walk()) == ["one", "two", "three", "three", "five"]


def _live(folder: Path) -> Any:
    """The live part of a machine page whose edits are all taken."""
    live: Any = Live.__new__(Live)
    keeper = SimpleNamespace(text=example(folder).read_text("utf-8"))
    live.screen = SimpleNamespace(
        table=lambda _role: "river_unit", edit=lambda _changes: None, desk=SimpleNamespace(keeper=keeper)
    )
    return live


def test_a_preview_that_comes_after_the_handle_was_let_go_is_not_shown(tmp_path: Path) -> None:
    live, asked = _live(tmp_path), list[Any]()
    live.preview, live.shown = {}, lambda: None
    live.version = lambda _kind, _function, _data, show, quick: asked.append(show)
    handle = next(h for h in HANDLES if h.name == "vanes_turned")
    live.pulled(handle, 1.0, False)
    asked[0]({"point": 1.0})
    assert live.preview == {"point": 1.0}
    live.pulled(handle, 2.0, True)
    asked[0]({"point": 0.5})
    assert live.preview == {"point": 1.0}, "the last preview stands, a later one is not shown"
    live.stale, live.draft = True, Answers(point={"point": 0.0})
    live._further = lambda *_what: None
    live._quickly({"point": 2.0, "basis": "computed"})
    assert (live.preview, live.draft.point["point"]) == ({}, 2.0)


def test_a_handle_that_is_let_go_never_shows_the_draft_before(tmp_path: Path) -> None:
    """Between letting go and the quick answer the last preview is shown, not the older answer of the draft."""
    live, seen = _live(tmp_path), list[Any]()
    live.pulling, live.preview, live.draft = True, {"point": "preview"}, Answers(point={"point": "before"})
    live.shown = lambda: seen.append((live.preview or live.draft.point)["point"])
    live.pulled(next(h for h in HANDLES if h.name == "vanes_turned"), 2.0, True)
    assert seen == ["preview"]
