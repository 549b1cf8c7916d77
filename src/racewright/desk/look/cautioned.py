"""Cautions beside numbers: each sentence stands in full once on a page, and says for what else it holds."""

from __future__ import annotations

import weakref
from collections.abc import Iterable
from itertools import groupby
from typing import Any

from nicegui import ui
from nicegui.element import Element

from racewright.desk.look.lettering import words
from racewright.dossier.text import signs

TOP = "the top of the page"
"""What is said of a place that stands under no heading."""

_PAGES: weakref.WeakKeyDictionary[Any, list[Cautions]] = weakref.WeakKeyDictionary()
"""Those that stand on each tab's page."""


def cautions(sentences: Iterable[str], sources: Iterable[str] = ()) -> None:
    """A block of cautions beside a number, with what they rest on.

    A sentence that stands in an earlier block of the page is not shown again: the block says under which heading it
    is found, and there stands for what else it holds.

    Parameters
    ----------
    sentences : iterable of str
        Equal ones are told once.
    sources : iterable of str
        Lines with basis and edition.
    """
    found = dict.fromkeys(sentences)
    if found:
        Cautions(found, dict.fromkeys(sources))


def sentences_of(text: str) -> list[str]:
    """Sentences of a caution: several share some of them."""
    parts = text.strip().split(". ")
    return [p if p.endswith((".", "!", "?", ":")) else f"{p}." for p in parts if p]


class Cautions(Element):
    """One block; `look.cautions` builds it.

    Parameters
    ----------
    sentences, sources : dict
        By text, in order.
    """

    def __init__(self, sentences: dict[str, None], sources: dict[str, None]) -> None:
        super().__init__("div")
        self.classes("cautions")
        self.heading = _heading(self)
        self._lines: dict[str, tuple[Any, Any]] = {}
        with self:
            self._said = ui.element("p").classes("note safety")
            with self._said:
                for text in sentences:
                    with ui.element("span") as line:
                        words("span", f"{signs(text)} ")
                        self._lines[text] = (line, words("span", "", "also"))
            self._sources = []
            for text in sources:
                line = words("p", signs(text), "note soft")
                self._lines[text] = (line, None)
                self._sources.append(text)
            self._above = words("p", "", "note soft above")
        here = _PAGES.setdefault(self.client, [])
        shared = any(not self._lines.keys().isdisjoint(block.texts) for block in here)
        here.append(self)
        if shared:
            _settle(here)
        else:
            self.show(dict.fromkeys(self._lines, self), {})

    @property
    def texts(self) -> Iterable[str]:
        """Everything that it says."""
        return self._lines.keys()

    def show(self, first: dict[str, Cautions], also: dict[str, list[str]]) -> None:
        """Show what is this block's own.

        Parameters
        ----------
        first : dict
            The block that shows each text.
        also : dict
            Headings of the others that it holds for, by text.
        """
        own = [text for text in self._lines if first[text] is self]
        spoken = [text for text in own if text not in self._sources]
        others = {text: tuple(h for h in also.get(text, ()) if h != self.heading) for text in spoken}
        ends = {run[-1]: _holds(names, len(run)) for names, run in _runs(others)}
        for text, (line, more) in self._lines.items():
            line.set_visibility(text in own)
            if more is not None:
                more.set_text(ends.get(text, ""))
        self._said.set_visibility(bool(spoken))
        elsewhere = dict.fromkeys(first[text].heading for text in self._lines if first[text] is not self)
        named = [f"\u2018{heading}\u2019" if heading != TOP else heading for heading in elsewhere]
        word = "Cautions" if not spoken else "Further cautions"
        self._above.set_text(f"{word} and basis: as told under {', '.join(named)}." if named else "")
        self._above.set_visibility(bool(named))

    def _handle_delete(self) -> None:
        """What it said in full must not be lost: the next block that shares it shows it."""
        super()._handle_delete()
        here = _PAGES.get(self.client, [])
        if self in here:
            here.remove(self)
            if any(not self._lines.keys().isdisjoint(block.texts) for block in here):
                _settle(here)


def _runs(others: dict[str, tuple[str, ...]]) -> list[tuple[tuple[str, ...], list[str]]]:
    """Neighbouring sentences that hold for the same others, together."""
    return [(names, list(run)) for names, run in groupby(others, key=lambda text: others[text])]


def _holds(names: tuple[str, ...], count: int) -> str:
    if not names:
        return ""
    which = "holds" if count == 1 else f"these {count} sentences hold"
    return f"({which} also for: {'; '.join(names)}) "


def _settle(here: list[Cautions]) -> None:
    """Give every text to the first block on the page that has it."""
    here.sort(key=_place)
    first: dict[str, Cautions] = {}
    also: dict[str, list[str]] = {}
    for block in here:
        for text in block.texts:
            if first.setdefault(text, block) is not block and block.heading not in also.setdefault(text, []):
                also[text].append(block.heading)
    for block in here:
        block.show(first, also)


def _place(block: Element) -> list[int]:
    """Where it stands on the page, to sort by."""
    steps: list[int] = []
    element: Any = block
    while (slot := element.parent_slot) is not None:
        steps.append(slot.children.index(element))
        element = slot.parent
    return steps[::-1]


def _heading(block: Element) -> str:
    """Of the part that it stands in."""
    found = (str(e.props["data-heading"]) for e in block.ancestors() if "data-heading" in e.props)
    return next(found, TOP)
