"""The head: which scheme, which case, what is not saved, and the light."""

from __future__ import annotations

from collections.abc import Callable
from urllib.parse import urlencode

from nicegui import ui

from racewright.desk.look.lettering import button, words
from racewright.desk.screen import Screen
from racewright.errors import RacewrightError


def head(screen: Screen) -> None:
    """Build it; it follows the draft."""
    keeper = screen.desk.keeper
    with ui.element("div").classes("which"):
        words("strong", keeper.loaded.scheme.title or keeper.path.name, "scheme")
        _cases(screen)
    with ui.element("div").classes("draft"):
        state = words("span", "", "state").props("role=status")
        undo = button("Undo", lambda: _try(lambda: keeper.undo(keeper.revision)), "quiet")
        redo = button("Redo", lambda: _try(lambda: keeper.redo(keeper.revision)), "quiet")
        save = button("Save", lambda: _try(lambda: keeper.save(keeper.revision)), "strong", title="Ctrl+S")
        save.props("data-keys=save")
        undo.props("data-keys=undo")
        redo.props("data-keys=redo")
        light = words("button", "Light", "knob quiet").props("type=button data-light")
        light.props["title"] = "light, dark, or as the system has it"
        words("button", "Guide", "knob quiet").props("type=button data-guided title='the two-minute look'")

    def follow() -> None:
        state.set_text("not saved" if keeper.unsaved else "saved")
        state.classes(add="unsaved" if keeper.unsaved else "", remove="" if keeper.unsaved else "unsaved")
        for knob, able in ((undo, keeper.can_undo), (redo, keeper.can_redo), (save, keeper.unsaved)):
            knob.props(remove="disabled") if able else knob.props("disabled")

    follow()
    screen.follow(follow)


def _try(action: Callable[[], object]) -> None:
    """Do it; a refusal is told and nothing is lost."""
    try:
        action()
    except RacewrightError as error:
        ui.notify(str(error), type="warning", position="top", close_button="Close", timeout=0, multi_line=True)


def _cases(screen: Screen) -> None:
    """A choice of the case, where there are several."""
    cases = list(screen.desk.keeper.loaded.scheme.case)
    if len(cases) < 2:
        words("span", screen.case.replace("_", " "), "case")
        return
    chosen = ui.select({c: c.replace("_", " ") for c in cases}, value=screen.case, label="case")
    chosen.props("outlined dense stack-label").classes("case")
    chosen.on_value_change(lambda e: ui.navigate.to(f"{screen.page.address}?{urlencode({'case': e.value})}"))
