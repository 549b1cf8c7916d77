"""What shows that an answer is awaited: words at once, a bar later, and a mark for who cannot see them."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from typing import Any

from nicegui import ui

from racewright.desk.look.lettering import words
from racewright.dossier.format import THIN

LOOK = 0.25
"""Time between looks at the progress [s]; the newest value is shown, older ones are never queued."""


class Pending:
    """Counts what a page waits for; its element is `aria-busy` until nothing is."""

    def __init__(self) -> None:
        self._count = 0
        self._element: Any = None

    def show_on(self, element: Any) -> None:
        """The element that tells; what was begun before counts."""
        self._element = element
        self._tell()

    def begin(self) -> None:
        """One more is awaited."""
        self._count += 1
        if self._count == 1:
            self._tell()

    def end(self) -> None:
        """One has come, or will not come."""
        self._count -= 1
        if self._count == 0:
            self._tell()

    def leave(self) -> None:
        """The page is gone: nobody is told any more."""
        self._element = None

    def _tell(self) -> None:
        if self._element is not None:
            self._element.props(f"aria-busy={'true' if self._count else 'false'}")


class Waiting:
    """A line that appears while something is computed: what is being done, how far it is, and a bar.

    Parameters
    ----------
    name : str
        What is awaited, for who cannot see the bar.
    """

    def __init__(self, name: str = "The page's answer") -> None:
        with ui.element("div").classes("waiting") as self._line:
            self._text = words("span", "").props("role=status")
            self._far = words("span", "", "far")
            with ui.element("div").classes("bar").props("role=progressbar aria-valuemin=0 aria-valuemax=100") as bar:
                bar.props["aria-label"] = name
                self._bar = ui.element("div")
        self._named = bar
        self._fraction: Callable[[], float | None] = lambda: None
        self._doing: Callable[[float], str] = _computing
        self._since: datetime.datetime | None = None
        self._timer = ui.timer(LOOK, self._look, active=False)
        self._line.set_visibility(False)

    def begin(
        self,
        fraction: Callable[[], float | None],
        doing: Callable[[float], str] | None = None,
        since: datetime.datetime | None = None,
    ) -> None:
        """Something is being computed.

        Parameters
        ----------
        fraction : callable
            Tells how far it is, 0 to 1, or None.
        doing : callable, optional
            Tells what is being done when it is so far.
        since : datetime, optional
            When it began, with its zone; it is told where given.
        """
        self._fraction, self._doing, self._since = fraction, doing or _computing, since
        self._show(0.0)
        self._line.set_visibility(True)
        self._timer.activate()

    def end(self) -> None:
        """It is there."""
        self._timer.deactivate()
        self._line.set_visibility(False)

    def _look(self) -> None:
        done = self._fraction()
        if done is not None:
            self._show(done)

    def _show(self, done: float) -> None:
        said = f", {100 * done:.0f}{THIN}%"
        if self._since is not None:
            taken = (datetime.datetime.now(self._since.tzinfo) - self._since).total_seconds()
            said += f", since {self._since:%H:%M:%S} ({taken:.0f}{THIN}s)"
        self._text.set_text(self._doing(done))
        self._far.set_text(said)
        self._bar.style(f"width: {100 * done:.1f}%")
        self._named.props["aria-valuenow"] = f"{100 * done:.0f}"
        self._named.update()


def _computing(_done: float) -> str:
    return "Computing"
