"""Notices over a page: what could not be computed, a file changed outside, a draft of an earlier day."""

from __future__ import annotations

from collections.abc import Callable

from nicegui import ui

from racewright.desk.keeper.fault import Fault
from racewright.desk.look.lettering import button, words
from racewright.desk.screen import Screen
from racewright.errors import RacewrightError


def notices(screen: Screen) -> Callable[[Fault | None], None]:
    """Build their places; returns what tells a fault, or (None) that there is none."""
    outside = ui.element("div")
    fault_place = ui.element("div")
    keeper = screen.desk.keeper
    shown: dict[str, object] = {}

    def follow() -> None:
        state = (keeper.changed_outside, keeper.recovered and keeper.unsaved)
        if shown.get("state") == state:
            return
        shown["state"] = state
        outside.clear()
        with outside:
            if keeper.changed_outside:
                _changed_outside(screen)
            elif state[1]:
                _notice(
                    "There are changes from an earlier day that were not saved.", "They are in the draft you see."
                )

    def say(fault: Fault | None) -> None:
        fault_place.clear()
        if fault is None:
            return
        with fault_place:
            where = ": ".join(part for part in (fault.place, fault.key) if part)
            _notice("This cannot be computed as it stands.", f"{where}: {fault.message}" if where else fault.message)

    follow()
    screen.follow(follow)
    return say


def _notice(title: str, text: str) -> None:
    with ui.element("div").classes("notice").props("role=alert"):
        words("strong", title)
        words("p", text)


def _changed_outside(screen: Screen) -> None:
    keeper = screen.desk.keeper
    with ui.element("div").classes("notice").props("role=alert"):
        words("strong", f"{keeper.path.name} was changed outside the desk.")
        words(
            "p",
            "Nothing was overwritten. Take the file as it is now, or keep the draft: then saving replaces the file.",
        )
        with ui.element("div").classes("knobs"):
            button("Take the file", lambda: _try(lambda: keeper.reload(keeper.revision)))
            button("Keep the draft", lambda: _try(lambda: keeper.keep(keeper.revision)))
            button("Compare", lambda: _compare(screen))


def _try(action: Callable[[], object]) -> None:
    try:
        action()
    except RacewrightError as error:
        ui.notify(str(error), type="warning", position="top", close_button="Close", timeout=0, multi_line=True)


def _compare(screen: Screen) -> None:
    """Show what differs, line by line."""
    lines = screen.desk.keeper.compare()
    with ui.dialog() as dialog, ui.element("div").classes("sheet"):
        words("h2", "From the file to the draft")
        words("pre", "\n".join(lines) or "No difference.", "diff").props("tabindex=0")
        button("Close", dialog.close)
    dialog.open()
