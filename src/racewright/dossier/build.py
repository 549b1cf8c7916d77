"""Findings to a dossier: one HTML page, one PDF, the figures."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.dossier.compose import compose
from racewright.dossier.drawings import draw_all
from racewright.dossier.page import page
from racewright.dossier.sheets import sheets
from racewright.ledger.findings import Findings


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


def build(findings: Findings) -> Dossier:
    """Make the dossier; equal findings give equal bytes.

    Parameters
    ----------
    findings : Findings
        Any part may be None; its text is untrusted.
    """
    drawings = draw_all(findings)
    document = compose(findings)
    return Dossier(page(document, drawings), sheets(document, drawings), dict(drawings.wide))
