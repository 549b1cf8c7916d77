"""Remarks of a computation by severity: a word and a shape, never only a colour."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from nicegui import ui

from racewright.desk.look.lettering import words
from racewright.dossier.text import signs

_ORDER = ("warning", "caution", "note")


def warnings(remarks: Sequence[Mapping[str, Any]], *, shown: int = 6, none: str = "No remarks.") -> None:
    """Worst first, each text once with all that it is about; those beyond `shown` fold away.

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
    ranked = sorted(together(remarks), key=lambda r: _ORDER.index(r["severity"]))
    _list(ranked[:shown])
    if len(ranked) > shown:
        with ui.element("details").classes("more"):
            words("summary", f"{len(ranked) - shown} more")
            _list(ranked[shown:])


def together(remarks: Sequence[Mapping[str, Any]]) -> list[dict[str, Any]]:
    """Remarks of one severity and text as one: `about` names all that it holds for, and how many where it is many."""
    found: dict[tuple[str, str], list[str]] = {}
    for remark in remarks:
        found.setdefault((str(remark["severity"]), str(remark["text"])), []).append(str(remark["about"]))
    return [
        {"severity": severity, "text": text, "about": _about(list(dict.fromkeys(about)), len(about))}
        for (severity, text), about in found.items()
    ]


def _about(names: list[str], count: int) -> str:
    said = "; ".join(names)
    return said if count == 1 else f"{said} ({count} times)"


def _list(remarks: Sequence[Mapping[str, Any]]) -> None:
    with ui.element("ul").classes("remarks"):
        for remark in remarks:
            with ui.element("li").classes(str(remark["severity"])):
                with ui.element("p").classes("mark"):
                    words("strong", str(remark["severity"]))
                    words("span", str(remark["about"]))
                words("p", signs(str(remark["text"])))
