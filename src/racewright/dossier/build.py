"""Findings to a dossier: one HTML page, one PDF, the figures."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace

from racewright.dossier.compose import compose
from racewright.dossier.document import Document
from racewright.dossier.drawings import draw_all
from racewright.dossier.page import page
from racewright.dossier.sheets import sheets
from racewright.ledger.findings import Findings
from racewright.tick import Tick, silent

DRAWN, PAGED = 0.85, 0.9
"""Fractions of `build` at which the drawings and the page stand. Own choice."""
ALWAYS = ("missing", "assumptions", "cautions")
"""Chapters that no dossier goes without: what is unsure, what it rests on, and who decides."""


@dataclass(frozen=True)
class Dossier:
    """The two documents and the figures, in memory.

    Attributes
    ----------
    html : bytes
        UTF-8, self-contained.
    pdf : bytes
        The same content on A4.
    figures : dict of str to bytes
        SVG by plain name ('stream', 'power', ...); the name has no suffix.
    """

    html: bytes
    pdf: bytes
    figures: dict[str, bytes]


def build(findings: Findings, chapters: Collection[str] | None = None, tick: Tick = silent) -> Dossier:
    """Make the dossier; equal findings give equal bytes.

    Parameters
    ----------
    findings : Findings
        Any part may be None; its text is untrusted.
    chapters : collection of str, optional
        Anchors of those to print besides page one and `ALWAYS`; all of them when left out.
    tick : Tick
        Called between groups of drawings, page and sheets.
    """
    tick(0.0)
    drawings = draw_all(findings, lambda done: tick(DRAWN * done))
    document = compose(findings)
    if chapters is not None:
        document = chosen(document, chapters)
    html = page(document, drawings)
    tick(PAGED)
    pdf = sheets(document, drawings)
    tick(1.0)
    return Dossier(html, pdf, dict(drawings.wide))


def chosen(document: Document, chapters: Collection[str]) -> Document:
    """The document with some of its chapters alone; those of `ALWAYS` stay.

    Parameters
    ----------
    document : Document
    chapters : collection of str
        Anchors; one that the document does not have is passed over.
    """
    kept = (*chapters, *ALWAYS)
    return replace(document, chapters=tuple(c for c in document.chapters if c.anchor in kept))
