"""The part of the dossier's page that makes it: chapters to choose, progress, cancel, downloads."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk import look
from racewright.desk.keeper.fault import fault_of
from racewright.desk.parts.dossier_job import doing, make_dossier
from racewright.desk.waiting import Waiting

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


def make_area(screen: Screen) -> None:
    """Build it; the chapters come with the first answer."""
    with look.section("Make the dossier"):
        look.note(
            "PDF and HTML of the draft as it is now, saved or not. A numbered folder in 'reports' beside the scheme"
            " keeps both, with figures and results, as 'racewright report' writes it. The making goes on when you"
            " leave this page; come back to it here.",
            "soft",
        )
        Maker(screen)


class Maker:
    """What one tab shows of the making, which is the desk's and not the tab's."""

    def __init__(self, screen: Screen) -> None:
        self._screen, self._job = screen, screen.desk.dossier
        self._boxes: dict[str, Any] = {}
        self._known: list[dict[str, Any]] = []
        self._choices = ui.element("div").classes("choices").props('role=group aria-label="Chapters to print"')
        with look.knobs():
            self._make = look.button("Make PDF and HTML", self.make, "strong")
            self._cancel = look.button("Cancel", self._job.stop, title="stop making; older reports stay as they are")
        self._waiting = Waiting("Making of the dossier")
        self._end = ui.element("div").props("role=status")
        screen.follow(self._follow)
        screen.on_leave(self._job.follow(self.show))
        self._follow()
        self.show()

    def _follow(self) -> None:
        """Chapters to choose, when an answer brings others than are shown."""
        known = self._screen.data.get("chapters", [])
        if known == self._known:
            return
        out = {anchor for anchor, box in self._boxes.items() if not box.value}
        self._known, self._boxes = known, {}
        self._choices.clear()
        with self._choices:
            for one in known:
                if one["always"]:
                    ui.checkbox(f"{one['title']} (always)", value=True).props("dense disable")
                else:
                    box = ui.checkbox(one["title"], value=one["anchor"] not in out).props("dense")
                    self._boxes[one["anchor"]] = box

    def make(self) -> None:
        """Begin it in a worker."""
        screen, keeper = self._screen, self._screen.desk.keeper
        chosen = tuple(anchor for anchor, box in self._boxes.items() if box.value)
        told = {"case": screen.case, "digest": keeper.loaded.digest}
        self._job.begin(told, make_dossier, keeper.data, keeper.shown, screen.options.case, chosen)

    def show(self) -> None:
        """Show how it stands: going on, ended, or nothing yet."""
        if self._screen.closed:
            return
        job = self._job
        self._busy(busy=job.runs)
        self._end.clear()
        if job.runs:
            of = self._of()
            self._waiting.begin(lambda: job.fraction, lambda done: f"{doing(done)}{of}", job.since)
            return
        self._waiting.end()
        with self._end:
            if job.result is not None:
                self._stands()
            elif job.cancelled:
                look.note(f"Cancelled{self._at()}; the reports stand as they were.", "safety")
            elif job.error is not None:
                look.note(f"Not made{self._at()}: {fault_of(job.error).message}", "safety")

    def _of(self) -> str:
        """The case that it is made of, where it is another than this page's."""
        case = str(self._job.told.get("case", ""))
        return "" if case == self._screen.case else f" of case {case.replace('_', ' ')}"

    def _at(self) -> str:
        ended = self._job.ended
        return self._of() + ("" if ended is None else f" at {ended:%H:%M:%S}")

    def _busy(self, *, busy: bool) -> None:
        for knob, off in ((self._cancel, not busy), (self._make, busy)):
            knob.props["disabled"] = off
            knob.update()

    def _stands(self) -> None:
        made, keeper = self._job.result, self._screen.desk.keeper
        said = f"Made{self._at()}: reports/{made.folder}."
        if self._job.told.get("digest") != keeper.loaded.digest:
            said += " The draft has changed since."
        look.note(said)
        with look.knobs():
            for ending, content in (("pdf", made.pdf), ("html", made.html)):
                name = f"{made.folder}.{ending}"
                size = f"{len(content) / 1e6:.1f} MB"
                look.button(f"Download {ending.upper()}, {size}", partial(ui.download.content, content, name))
