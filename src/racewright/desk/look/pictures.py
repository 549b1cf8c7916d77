"""A drawing of the answer, wide on a screen and narrow on a phone, with its words for who cannot see it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from nicegui import ui

from racewright.desk.look.lettering import words

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


def drawing(screen: Screen, name: str, alt: str, caption: str = "") -> None:
    """Show a drawing that the page's `drawings` made; nothing where there is none of that name.

    Parameters
    ----------
    screen : Screen
    name : str
        Key in what `Page.drawings` gives.
    alt : str
        What it shows, in a sentence.
    caption : str
    """
    made = screen.drawings.get(name)
    if made is not None:
        pictured(made, name, alt, caption)


def pictured(made: tuple[str, str], name: str, alt: str, caption: str = "") -> None:
    """Show a drawing: SVG for a wide screen and for a phone, a name for its file, and words as in `drawing`."""
    with ui.element("figure").classes("drawing"):
        picture = ui.element("div").props("role=img").classes("both")
        picture.props["aria-label"] = alt
        with picture:  # our own drawings: text in them is outlines, never markup
            ui.html(made[0], sanitize=False)
            ui.html(made[1], sanitize=False)
        with ui.element("figcaption"):
            words("span", caption or alt)
            save = words("button", "save as SVG", "copy").props("type=button")
            save.props["data-save"] = name
