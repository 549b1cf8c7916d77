"""A field for one scheme key: label, text with its unit, and the error beside it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk.keeper.keys import meaning_of, typed
from racewright.desk.look.lettering import words

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


@contextmanager
def fields() -> Iterator[None]:
    """Fields beside each other, as many as fit."""
    with ui.element("div").classes("fields"):
        yield


def field(screen: Screen, key: str, label: str = "") -> None:
    """An entry for a key; Enter or leaving it makes the edit, and a fault of that key appears below it.

    Parameters
    ----------
    screen : Screen
    key : str
        Dotted path, like 'machine.river_unit.vanes.turned'.
    label : str
        The key's last part, in words, when left out.
    """
    meaning = meaning_of(key)
    shown = label or key.rsplit(".", 1)[-1].replace("_", " ")
    with ui.element("div").classes("field"):
        entry = _entry(screen, key, shown, meaning.takes.words if meaning and meaning.takes else ())
        help_text = meaning.text if meaning else ""
        if meaning and meaning.default:
            help_text += f" (if left out: {meaning.default})"
        if help_text:
            words("p", help_text, "help")
    _wire(screen, key, entry)


def _entry(screen: Screen, key: str, label: str, choices: tuple[str, ...]) -> Any:
    written = screen.written(key)
    if choices:
        return ui.select(["", *choices], value=written, label=label).props("outlined dense stack-label")
    entry = ui.input(label, value=written).props("outlined dense stack-label autocomplete=off spellcheck=false")
    meaning = meaning_of(key)
    if meaning and meaning.default:
        entry.props["placeholder"] = meaning.default
    return entry


def _wire(screen: Screen, key: str, entry: Any) -> None:
    """Edit on Enter and on leaving; follow the draft unless something else was typed meanwhile."""
    held = {"text": screen.written(key)}

    def show(message: str) -> None:
        entry.error = message or None

    def commit() -> None:
        text = str(entry.value or "")
        if text == held["text"]:
            show("")
            return
        fault = screen.edit({key: typed(key, text)})
        if fault is None:
            held["text"] = screen.written(key)
            show("")
        else:
            show(fault.message if fault.key in (key, "") else f"{fault.key}: {fault.message}")

    def follow() -> None:
        now = screen.written(key)
        if now != held["text"]:
            if str(entry.value or "") == held["text"]:
                entry.value = now
            held["text"] = now
        computed = screen.fault
        show(computed.message if computed is not None and computed.key == key else "")

    entry.on("blur", commit)
    entry.on("keydown.enter", commit)
    screen.follow(follow)
