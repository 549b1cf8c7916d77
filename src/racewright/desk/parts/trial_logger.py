"""The part of the trials' page that takes logger files into the campaign's store, with progress and cancel."""

from __future__ import annotations

import asyncio
from pathlib import Path
from typing import TYPE_CHECKING, Any

from anyio import to_thread
from nicegui import ui

from racewright.desk import look
from racewright.desk.guard.rules import UPLOAD
from racewright.desk.keeper.fault import fault_of
from racewright.desk.parts.dropped import ENDINGS, HEAD, already, ending_of, free_name, keep, left_over, part_in
from racewright.desk.parts.trial_runs import Runs, run_fields
from racewright.desk.parts.trial_take_in import take_in
from racewright.desk.waiting import Waiting
from racewright.errors import Cancelled, RacewrightError

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

KIND = "take in"

_HEADER = """
<div class="drop">
  <button type="button" class="knob" @click="props.pickFiles">Choose a logger file</button>
  <span>or drop it here, up to {most} MB</span>
  <span style="display: none"><q-uploader-add-trigger /></span>
</div>
"""
"""Top of the drop area: the kit's own has a knob without a name, around an entry without one."""


def logger_area(screen: Screen) -> None:
    """Build it."""
    with look.section("Logger files"):
        look.note(
            "Drop a logger's file to add it to the campaign as a run; say which column each channel is, give the"
            " run's tares and span below, then take it in. It is kept beside the scheme as it came.",
            "soft",
        )
        with look.columns("wide last"):
            drop = Drop(screen)
            _columns(screen)
    drop.runs = run_fields(screen)
    with look.section("Take in"):
        _TakeIn(screen)


def _columns(screen: Screen) -> None:
    """Which column of the files each channel is."""
    trials = screen.table("trials")
    names = screen.desk.keeper.loaded.scheme.trials[trials].channels
    with look.fields():
        for name in names:
            look.field(screen, f"trials.{trials}.channels.{name}.column", f"{name}: column")


_ONE_BY_ONE = asyncio.Lock()
"""Two files that come at once are looked at one after the other, so that the second meets the first."""


class Drop:
    """Files dropped here become runs of the draft."""

    def __init__(self, screen: Screen) -> None:
        self._screen = screen
        self.runs: Runs | None = None
        """Where the fields of a new run are shown."""
        with ui.element("div"):
            self._area = ui.upload(
                on_upload=self.came,
                on_rejected=lambda _event: self._tell("Refused: too large, or no logger file by its ending."),
                max_file_size=UPLOAD,
                auto_upload=True,
            ).props(f"flat bordered accept={','.join(ENDINGS)}")
            self._area.add_slot("header", _HEADER.format(most=UPLOAD // 1_000_000))
            self._said = ui.element("div").props("role=status")

    async def came(self, event: Any) -> None:
        """A file came: it becomes a run, unless a run has it already."""
        part = part_in(self._screen.desk.keeper.path.parent)
        try:
            await event.file.save(part)
            async with _ONE_BY_ONE:
                await self._taken(part, str(event.file.name))
        except RacewrightError as error:
            self._tell(f"Refused: {fault_of(error).message}.")
        finally:
            part.unlink(missing_ok=True)
            self._area.reset()

    async def _taken(self, part: Path, dropped: str) -> None:
        screen, trials = self._screen, self._screen.table("trials")
        folder, table = screen.desk.keeper.path.parent, screen.desk.keeper.loaded.scheme.trials[trials]
        with part.open("rb") as stream:
            ending = ending_of(dropped, stream.read(HEAD))
        files = {name: run.file for name, run in table.runs.items()}
        there = await to_thread.run_sync(already, part, folder, files)
        if there:
            runs = f"run {there[0]}" if len(there) == 1 else f"runs {', '.join(there)}"
            self._tell(
                f"{dropped} is there already, as {runs} ({files[there[0]]}), byte for byte. Nothing was imported."
            )
            self._show(there[0])
            return
        run = free_name(dropped, table.runs)
        left = await to_thread.run_sync(left_over, part, run, ending)  # of a run that was taken back
        kept = left or await to_thread.run_sync(keep, part, run, ending)
        fault = screen.edit({f"trials.{trials}.runs.{run}.file": kept})
        if fault is not None:
            if not left:
                (folder / kept).unlink(missing_ok=True)
            self._tell(f"Refused: {fault.message}")
            return
        self._tell(f"Run {run} is in the draft, from {kept}. Give its tares and span below, then take it in.")
        self._show(run)

    def _show(self, run: str) -> None:
        if self.runs is not None and not self._screen.closed:
            self.runs.choose(run)

    def _tell(self, text: str) -> None:
        if not self._screen.closed:
            self._said.clear()
            with self._said:
                look.note(text)


class _TakeIn:
    """Take the logger files in, with progress and cancel."""

    def __init__(self, screen: Screen) -> None:
        self._screen = screen
        with look.knobs():
            self._go = look.button("Take in logger files", self.go)
            self._stop = look.button("Cancel", lambda: screen.desk.newest.stop((screen.tab, KIND)))
        self._waiting = Waiting("Taking in of the logger files")
        self._said = ui.element("div").props("role=status")
        self._busy(busy=False)

    async def go(self) -> None:
        """Runs that are there already stay as they are."""
        screen, job = self._screen, (self._screen.tab, KIND)
        keeper, newest = screen.desk.keeper, screen.desk.newest
        self._said.clear()
        self._busy(busy=True)
        self._waiting.begin(lambda: newest.fraction(job), lambda _done: "Taking in the logger files")
        try:
            await newest.ask(job, take_in, keeper.data, keeper.shown, screen.options.case)
        except Cancelled:
            self._tell("Cancelled; runs that were taken in before stay.")
        except RacewrightError as error:
            fault = fault_of(error)
            self._tell(f"{fault.key}: {fault.message}".removeprefix(": "))
            if fault.key:
                screen.refuse(fault, (fault.key,))
        else:
            screen.refresh()
        finally:
            if not screen.closed:
                self._waiting.end()
                self._busy(busy=False)

    def _busy(self, *, busy: bool) -> None:
        self._go.props["disabled"], self._stop.props["disabled"] = busy, not busy
        self._go.update()
        self._stop.update()

    def _tell(self, text: str) -> None:
        if not self._screen.closed:
            with self._said:
                look.note(text, "safety")
