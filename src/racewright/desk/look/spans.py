"""Two fields for a span that the scheme has whole or not at all: its start and its end."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from nicegui import ui

from racewright.desk.keeper.keys import Value, meaning_of
from racewright.desk.keeper.plain import unit_of, with_unit
from racewright.desk.look.lettering import words

if TYPE_CHECKING:
    from racewright.desk.screen import Screen

ENDS = ("start", "end")
BOTH = "give both ends"


def span_fields(screen: Screen, table: str, label: str) -> None:
    """Entries for `start` and `end` of a table; the edit is made when both are there, or both are gone.

    Parameters
    ----------
    screen : Screen
    table : str
        Dotted path of the table.
    label : str
        What the span is, in words.
    """
    _Span(screen, table, label)


class _Span:
    def __init__(self, screen: Screen, table: str, label: str) -> None:
        self._screen, self._table = screen, table
        self._keys = {end: f"{table}.{end}" for end in ENDS}
        self._held = self._written()
        self._units = {end: unit_of(key, self._held[end]) for end, key in self._keys.items()}
        self._entries: dict[str, Any] = {}
        for end, key in self._keys.items():
            with ui.element("div").classes("field"):
                entry = ui.input(f"{label}: {end}, {self._units[end]}", value=self._held[end])
                entry.props("outlined dense stack-label autocomplete=off spellcheck=false")
                meaning = meaning_of(key)
                words("p", meaning.text if meaning else "", "help")
            entry.on("blur", self._commit)
            entry.on("keydown.enter", self._commit)
            self._entries[end] = entry
        screen.follow(self._follow)

    def _written(self) -> dict[str, str]:
        return {end: self._screen.written(key) for end, key in self._keys.items()}

    def _commit(self) -> None:
        typed = {end: with_unit(str(entry.value or ""), self._units[end]) for end, entry in self._entries.items()}
        if typed == self._held:
            self._say({})
            return
        empty = [end for end in ENDS if not typed[end]]
        if len(empty) == 1:
            self._say({empty[0]: BOTH})
            return
        changes: dict[str, Value] = {self._keys[end]: typed[end] for end in ENDS}
        fault = self._screen.edit({self._table: None} if empty else changes)
        if fault is None:
            self._take()
            self._say({})
            return
        at = next((end for end, key in self._keys.items() if key == fault.key), "")
        self._say({at: fault.message} if at else {"end": f"{fault.key}: {fault.message}".removeprefix(": ")})

    def _take(self) -> None:
        self._held = self._written()
        for end, entry in self._entries.items():
            entry.value = self._held[end]

    def _follow(self) -> None:
        """Show what the draft has now, unless something else was typed meanwhile."""
        entries = self._entries
        if self._written() != self._held:
            if all(str(entry.value or "") == self._held[end] for end, entry in entries.items()):
                self._take()
            self._held = self._written()
        fault = self._screen.fault
        self._say(
            {
                end: fault.message if fault is not None and fault.key == key else self._screen.refusal(key)
                for end, key in self._keys.items()
            }
        )

    def _say(self, messages: dict[str, str]) -> None:
        for end, entry in self._entries.items():
            entry.error = messages.get(end) or None
