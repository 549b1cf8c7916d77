"""Parts of a page: sections, columns, notes, and what stands where nothing is yet."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from nicegui import ui

from racewright.desk.look.lettering import link, words


@contextmanager
def section(title: str, lead: str = "") -> Iterator[None]:
    """A part of the page under a heading; `lead` is its answer in a sentence."""
    with ui.element("section").classes("part") as part:
        part.props["data-heading"] = title
        words("h2", title)
        if lead:
            words("p", lead, "lead")
        yield


@contextmanager
def columns(shape: str = "even") -> Iterator[None]:
    """Children side by side where there is room, one below the other on a phone.

    Parameters
    ----------
    shape : {'even', 'wide first', 'wide last'}
    """
    with ui.element("div").classes(f"columns {shape.replace(' ', '-')}"):
        yield


@contextmanager
def words_of() -> Iterator[None]:
    """Paragraphs below each other as one piece, inside `columns` as one column."""
    with ui.element("div").classes("paragraphs"):
        yield


@contextmanager
def knobs() -> Iterator[None]:
    """Buttons beside each other."""
    with ui.element("div").classes("knobs"):
        yield


def note(text: str, tone: str = "plain") -> None:
    """A paragraph; tone 'lead' for the answer in a sentence, 'safety' for what must not be overlooked,
    'soft' for what may be. Cautions that several places of a page share are `look.cautions`."""
    words("p", text, f"note {tone}")


def empty(what: str, then: str, address: str = "", label: str = "") -> None:
    """Where nothing is yet: what is missing, what to do next, and where."""
    with ui.element("div").classes("empty"):
        words("p", what, "what")
        words("p", then)
        if address:
            link(label or "Go there", address, "knob")
