"""Dossier: choose chapters, look at them, make PDF and HTML, see what is missing."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import TYPE_CHECKING, Any

from racewright.desk import look
from racewright.desk.seam import Asked, Drawing, Options, Page

if TYPE_CHECKING:
    from racewright.desk.screen import Screen


class DossierOptions(Options):
    """Which part is looked at."""

    chapter: str = "front"
    """Anchor of the chapter shown; 'front' is page one."""


def data(asked: Asked) -> dict[str, Any]:
    """The dossier's chapters by name, one of them whole, and what is missing as in `report --json`."""
    from dataclasses import asdict

    from racewright.desk.parts.chapter import block_told, told
    from racewright.dossier.build import ALWAYS
    from racewright.dossier.compose import compose

    found = asked.findings()
    document = compose(found)
    shown = next((c for c in document.chapters if c.anchor == asked.options.chapter), None)
    return {
        "title": found.title,
        "case": found.case,
        "empty": document.empty,
        "notice": list(document.notice),
        "chapters": [{"anchor": c.anchor, "title": c.title, "always": c.anchor in ALWAYS} for c in document.chapters],
        "answers": [
            {
                "question": a.question,
                "headlines": [list(h) for h in a.headlines],
                "marks": [asdict(m) for m in a.marks],
                "lines": list(a.lines),
                "table": None if a.table is None else block_told(a.table),
            }
            for a in document.answers
        ],
        "shown": None if shown is None else told(shown),
        "missing": [asdict(m) for m in found.missing],
        "left_out": list(found.left_out),
        "provenance_line": document.provenance,
    }


def drawings(asked: Asked) -> Mapping[str, Drawing]:
    """The drawings of the chapter that is shown."""
    from racewright.desk.parts.chapter import paired, pictures
    from racewright.desk.parts.dossier_drawings import drawings_of
    from racewright.dossier.compose import compose

    found = asked.findings()
    shown = next((c for c in compose(found).chapters if c.anchor == asked.options.chapter), None)
    wanted = () if shown is None else pictures(shown)
    if not wanted:
        return {}
    drawn = drawings_of(found)
    return paired({name: drawn.wide[name] for name in wanted if name in drawn.wide}, drawn.narrow)


def controls(screen: Screen) -> None:
    """Choose, make, cancel, download; stays while previews come and go."""
    from racewright.desk.parts.dossier_make import make_area

    make_area(screen)


def view(screen: Screen, data: dict[str, Any]) -> None:
    """Build the preview and what is missing."""
    with look.section("Preview"):
        _tabs(screen, data)
        if data["shown"] is None:
            _front(data)
    if data["shown"] is not None:
        from racewright.desk.parts.chapter_view import chapter

        chapter(screen, data["shown"])
    with look.section("What is missing, and what it would need"):
        _missing(data)


def _tabs(screen: Screen, data: dict[str, Any]) -> None:
    """A knob for page one and for each chapter; the one that is shown is marked."""
    here = "front" if data["shown"] is None else data["shown"]["anchor"]
    with look.knobs():
        for anchor, title in (("front", "Page one"), *((c["anchor"], c["title"]) for c in data["chapters"])):
            knob = look.button(title, partial(screen.ask, chapter=anchor), "strong" if anchor == here else "")
            knob.props["aria-pressed"] = "true" if anchor == here else "false"


def _front(data: dict[str, Any]) -> None:
    from racewright.desk.parts.chapter_view import table_of

    look.cautions([s for line in (data["empty"], *data["notice"]) for s in look.sentences_of(line)])
    for answer in data["answers"]:
        look.words("h3", answer["question"])
        if answer["headlines"]:
            with look.figures():
                for value, what in answer["headlines"]:
                    label, _mark, more = what.partition("; ")
                    look.figure(label[:1].upper() + label[1:], value, more)
        if answer["marks"]:
            look.warnings(answer["marks"], shown=len(answer["marks"]))
        for line in answer["lines"]:
            look.note(line)
        if answer["table"]:
            table_of(answer["table"])
    look.note(data["provenance_line"], "soft")


def _missing(data: dict[str, Any]) -> None:
    if data["missing"]:
        rows = [[m["chapter"], m["needs"]] for m in data["missing"]]
        look.table(
            "Chapters that the scheme has no tables for yet", [look.Column("chapter"), look.Column("needs")], rows
        )
    else:
        look.note("The scheme has every table that this version computes from.")
    if data["left_out"]:
        look.note("Not computed by this version: " + "; ".join(data["left_out"]) + ".", "soft")


PAGE = Page("dossier", "Dossier", "Dossier", 70, data, view, drawings, controls, DossierOptions)
