"""The part of the dossier's page that makes it: chapters to choose, progress, cancel, downloads."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk import look
from racewright.desk.keeper.fault import fault_of
from racewright.desk.parts.dossier_job import Made, make_dossier
from racewright.desk.waiting import Waiting
from racewright.errors import Cancelled, RacewrightError

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

KIND = "make dossier"


def make_area(screen: Screen) -> None:
    """Build it; the chapters come with the first answer."""
    with look.section("Make the dossier"):
        look.note(
            "PDF and HTML of the draft as it is now, saved or not. A numbered folder in 'reports' beside the scheme"
            " keeps both, with figures and results, as 'racewright report' writes it.",
            "soft",
        )
        _Maker(screen)


class _Maker:
    """What one tab makes."""

    def __init__(self, screen: Screen) -> None:
        self._screen = screen
        self._boxes: dict[str, Any] = {}
        self._known: list[dict[str, Any]] = []
        self._choices = ui.element("div").classes("choices").props('role=group aria-label="Chapters to print"')
        with look.knobs():
            self._make = look.button("Make PDF and HTML", self.make, "strong")
            self._cancel = look.button("Cancel", self.cancel, title="stop making; older reports stay as they are")
        self._waiting = Waiting()
        self._end = ui.element("div").props("role=status")
        self._busy(busy=False)
        screen.follow(self._follow)
        self._follow()

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

    async def make(self) -> None:
        """Make it in a worker; a second press replaces the first."""
        screen = self._screen
        keeper, newest, job = screen.desk.keeper, screen.desk.newest, (screen.tab, KIND)
        chosen = tuple(anchor for anchor, box in self._boxes.items() if box.value)
        self._end.clear()
        self._busy(busy=True)
        self._waiting.begin(lambda: newest.fraction(job))
        try:
            made = await newest.ask(job, make_dossier, keeper.data, keeper.shown, screen.options.case, chosen)
        except Cancelled:
            self._say("Cancelled; the reports stand as they were.")
        except RacewrightError as error:
            self._say(fault_of(error).message)
        else:
            self._stands(made)
        finally:
            if not screen.closed:
                self._waiting.end()
                self._busy(busy=False)

    def cancel(self) -> None:
        """Stop at the next tick."""
        self._screen.desk.newest.stop((self._screen.tab, KIND))

    def _busy(self, *, busy: bool) -> None:
        self._cancel.props["disabled"] = not busy
        self._make.props["disabled"] = busy
        self._cancel.update()
        self._make.update()

    def _say(self, text: str) -> None:
        if not self._screen.closed:
            with self._end:
                look.note(text, "safety")

    def _stands(self, made: Made) -> None:
        if self._screen.closed:
            return
        with self._end:
            look.note(f"Made: reports/{made.folder}.")
            with look.knobs():
                for ending, content in (("pdf", made.pdf), ("html", made.html)):
                    name = f"{made.folder}.{ending}"
                    size = f"{len(content) / 1e6:.1f} MB"
                    look.button(
                        f"Download {ending.upper()}, {size}",
                        partial(ui.download.content, content, name),
                    )
