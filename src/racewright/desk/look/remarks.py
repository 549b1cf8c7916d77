"""Remarks of a computation by severity: a word and a shape, never only a colour."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from nicegui import ui

from racewright.desk.look.lettering import words
from racewright.dossier.text import signs

_ORDER = ("warning", "caution", "note")


def warnings(remarks: Sequence[Mapping[str, Any]], *, shown: int = 6, none: str = "No remarks.") -> None:
    """Worst first; those beyond `shown` fold away.

    Parameters
    ----------
    remarks : sequence of mappings
        With `severity`, `about` and `text`, as they stand in a page's data.
    shown : int
    none : str
        Said where there are none.
    """
    if not remarks:
        words("p", none, "note soft")
        return
    ranked = sorted(remarks, key=lambda r: _ORDER.index(r["severity"]))
    _list(ranked[:shown])
    if len(ranked) > shown:
        with ui.element("details").classes("more"):
            words("summary", f"{len(ranked) - shown} more")
            _list(ranked[shown:])


def _list(remarks: Sequence[Mapping[str, Any]]) -> None:
    with ui.element("ul").classes("remarks"):
        for remark in remarks:
            with ui.element("li").classes(str(remark["severity"])):
                with ui.element("p").classes("mark"):
                    words("strong", str(remark["severity"]))
                    words("span", str(remark["about"]))
                words("p", signs(str(remark["text"])))
