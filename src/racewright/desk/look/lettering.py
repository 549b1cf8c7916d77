"""Text on the screen: any HTML element that holds words. What the user wrote is text here, never markup."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from nicegui.elements.mixins.text_element import TextElement


def words(tag: str, text: str, classes: str = "") -> TextElement:
    """An element such as 'p', 'h2', 'strong' with its text.

    Parameters
    ----------
    tag : str
        A plain HTML tag.
    text : str
        Escaped by the kit.
    classes : str
        CSS classes of `static/desk.css`.
    """
    return TextElement(tag=tag, text=text).classes(classes)


def button(text: str, pressed: Callable[[], Any], classes: str = "", *, title: str = "") -> TextElement:
    """A button with a word on it.

    Parameters
    ----------
    text : str
    pressed : callable
        Without arguments, plain or async.
    classes : str
        '' plain, 'strong' for the one main action of its place, 'quiet' for the least.
    title : str
        What it does, where the word alone does not say it.
    """
    made = words("button", text, f"knob {classes}").props("type=button")
    if title:
        made.props["title"] = title
    made.on("click", lambda _event: pressed())
    return made


def link(text: str, address: str, classes: str = "") -> TextElement:
    """A link inside the desk."""
    made = words("a", text, classes)
    made.props["href"] = address
    return made
