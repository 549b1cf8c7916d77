"""The part of the trials' page that takes logger files into the campaign's store, with progress and cancel."""

from __future__ import annotations

from typing import TYPE_CHECKING

from nicegui import ui

from racewright.desk import look
from racewright.desk.keeper.fault import fault_of
from racewright.desk.parts.trial_take_in import take_in
from racewright.desk.waiting import Waiting
from racewright.errors import Cancelled, RacewrightError

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

KIND = "take in"


def logger_area(screen: Screen) -> None:
    """Build it."""
    with look.section("Logger files"):
        _TakeIn(screen)


class _TakeIn:
    """Take the logger files in, with progress and cancel."""

    def __init__(self, screen: Screen) -> None:
        self._screen = screen
        with look.knobs():
            self._go = look.button("Take in logger files", self.go)
            self._stop = look.button("Cancel", lambda: screen.desk.newest.stop((screen.tab, KIND)))
        self._waiting = Waiting()
        self._said = ui.element("div").props("role=status")
        self._busy(busy=False)

    async def go(self) -> None:
        """Runs that are there already stay as they are."""
        screen, job = self._screen, (self._screen.tab, KIND)
        keeper, newest = screen.desk.keeper, screen.desk.newest
        self._said.clear()
        self._busy(busy=True)
        self._waiting.begin(lambda: newest.fraction(job))
        try:
            await newest.ask(job, take_in, keeper.data, keeper.shown, screen.options.case)
        except Cancelled:
            self._tell("Cancelled; runs that were taken in before stay.")
        except RacewrightError as error:
            self._tell(fault_of(error).message)
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
