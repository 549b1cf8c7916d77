"""Build a chapter of the dossier on the screen."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING, Any

from racewright.desk import look

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


def chapter(screen: Screen, told: dict[str, Any], *, leave: Collection[str] = ()) -> None:
    """A section for each heading of the chapter.

    Parameters
    ----------
    screen : Screen
    told : dict
        From `parts.chapter.told`, decoded.
    leave : collection of str
        Headings that the page itself shows in another way; '' is what stands before the first.
    """
    for part in told["parts"]:
        if part["heading"] not in leave:
            with look.section(part["heading"] or told["title"]):
                blocks(screen, part["blocks"])


def blocks(screen: Screen, found: list[dict[str, Any]]) -> None:
    """Words and drawings beside each other where there are both, tables below in full width."""
    drawn = [b for b in found if b["kind"] == "picture" and b["name"] in screen.drawings]
    others = [b for b in found if b["kind"] not in ("picture", "table")]
    if drawn:
        with look.columns("wide first" if len(drawn) == 1 else "even"):
            for block in drawn:
                look.drawing(screen, block["name"], block["alt"], block["caption"])
            if others:
                _words(others)
    else:
        _words(others)
    for block in found:
        if block["kind"] == "table":
            table_of(block)


def table_of(told: dict[str, Any]) -> None:
    """A table of the dossier."""
    columns = [look.Column(c["name"], number=c["align"] == "end") for c in told["columns"]]
    look.table(told["caption"], columns, told["rows"])


def _words(found: list[dict[str, Any]]) -> None:
    with look.words_of():
        for block in found:
            if block["kind"] == "text" and block["tone"] == "safety":
                look.cautions(look.sentences_of(block["text"]))
            elif block["kind"] == "text":
                look.note(block["text"], block["tone"])
            else:
                for item in block["items"]:
                    look.note(item, "soft")
