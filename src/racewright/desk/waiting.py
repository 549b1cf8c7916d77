"""What shows that an answer is awaited: words at once, a bar later, and a mark for who cannot see them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from nicegui import ui

from racewright.desk.look.lettering import words

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
    """A line that appears while something is computed."""

    def __init__(self) -> None:
        with ui.element("div").classes("waiting").props("role=status") as self._line:
            self._text = words("span", "")
            with ui.element("div").classes("bar"):
                self._bar = ui.element("div")
        self._fraction: Callable[[], float | None] = lambda: None
        self._timer = ui.timer(LOOK, self._look, active=False)
        self._line.set_visibility(False)

    def begin(self, fraction: Callable[[], float | None]) -> None:
        """Something is being computed; `fraction` tells how far it is."""
        self._fraction = fraction
        self._text.set_text("Computing")
        self._bar.style("width: 0")
        self._line.set_visibility(True)
        self._timer.activate()

    def end(self) -> None:
        """It is there."""
        self._timer.deactivate()
        self._line.set_visibility(False)

    def _look(self) -> None:
        done = self._fraction()
        if done is not None:
            self._text.set_text(f"Computing, {100 * done:.0f} %")
            self._bar.style(f"width: {100 * done:.1f}%")
