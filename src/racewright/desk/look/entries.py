"""A field for one scheme key: label with its unit, text, and the error beside it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk.keeper.keys import meaning_of, typed
from racewright.desk.keeper.plain import unit_of, with_unit
from racewright.desk.look.lettering import link, words

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


@contextmanager
def fields() -> Iterator[None]:
    """Fields beside each other, as many as fit."""
    with ui.element("div").classes("fields"):
        yield


def field(screen: Screen, key: str, label: str = "") -> None:
    """An entry for a key; Enter or leaving it makes the edit, and a fault of that key appears below it.

    The label ends with the unit that a plain number in the field stands in.

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
    with ui.element("div").classes("field").props("tabindex=-1") as place:
        place.props["id"] = _anchor(key)
        entry = _entry(screen, key, shown, meaning.takes.words if meaning and meaning.takes else ())
        help_text = meaning.text if meaning else ""
        if meaning and meaning.default:
            help_text += f" (if left out: {meaning.default})"
        if help_text:
            words("p", help_text, "help")
    _wire(screen, key, entry, shown)


def refused(screen: Screen) -> None:
    """A line that appears when a value that was pulled is refused, with the way to its field, which says why."""
    place = ui.element("div").classes("refused").props("role=status")

    def follow() -> None:
        place.clear()
        for key, message in screen.refusals.items():
            with place:
                words("span", f"Refused: {message} ")
                link("To its field", f"#{_anchor(key)}")

    screen.follow(follow)


def _anchor(key: str) -> str:
    return "field-" + re.sub(r"[^A-Za-z0-9_-]", "-", key)


def _unit(screen: Screen, key: str) -> str:
    return unit_of(key, screen.written(key), lambda: screen.currency)


def _labelled(label: str, unit: str) -> str:
    return f"{label}, {unit}" if unit else label


def _entry(screen: Screen, key: str, label: str, choices: tuple[str, ...]) -> Any:
    written = screen.written(key)
    if choices:
        return ui.select(["", *choices], value=written, label=label).props("outlined dense stack-label")
    entry = ui.input(_labelled(label, _unit(screen, key)), value=written)
    entry.props("outlined dense stack-label autocomplete=off spellcheck=false")
    meaning = meaning_of(key)
    if meaning and meaning.default:
        entry.props["placeholder"] = meaning.default
    return entry


def _wire(screen: Screen, key: str, entry: Any, label: str) -> None:
    """Edit on Enter and on leaving; follow the draft unless something else was typed meanwhile."""
    held = {"text": screen.written(key), "unit": _unit(screen, key)}

    def show(message: str) -> None:
        entry.error = message or None

    def take() -> None:
        """What the draft has now, and the unit that a plain number stands in from here on."""
        held["text"] = screen.written(key)
        unit = _unit(screen, key)
        if unit != held["unit"]:
            held["unit"] = unit
            entry.props["label"] = _labelled(label, unit)
            entry.update()

    def commit() -> None:
        text = str(entry.value or "")
        if text == held["text"]:
            show(screen.refusal(key))
            return
        fault = screen.edit({key: typed(key, with_unit(text, held["unit"]))})
        if fault is None:
            take()
            entry.value = held["text"]
            show("")
        else:
            show(fault.message if fault.key in (key, "") else f"{fault.key}: {fault.message}")

    def follow() -> None:
        now = screen.written(key)
        if now != held["text"]:
            if str(entry.value or "") == held["text"]:
                entry.value = now
            take()
        computed = screen.fault
        show(computed.message if computed is not None and computed.key == key else screen.refusal(key))

    entry.on("blur", commit)
    entry.on("keydown.enter", commit)
    screen.follow(follow)
