"""The document as a PDF on A4 sheets."""

from __future__ import annotations

import dataclasses
import functools
import importlib.resources
import json
import logging
import os

import matplotlib as mpl
import typst

from racewright.dossier.document import Document
from racewright.dossier.drawings import Drawings

LOG = logging.getLogger("racewright.dossier")


@functools.cache
def _fonts() -> typst.Fonts:
    """The serif that Typst carries and the sans that matplotlib carries; nothing of the computer's own."""
    carried = os.path.join(mpl.get_data_path(), "fonts", "ttf")
    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[carried])


def sheets(document: Document, drawings: Drawings) -> bytes:
    """PDF without date; text reaches the setting as JSON strings, never as markup.

    Parameters
    ----------
    document : Document
    drawings : Drawings
        From `draw_all`, for the same findings.
    """
    template = importlib.resources.files("racewright.dossier").joinpath("templates/dossier.typ").read_bytes()
    pictures = {f"figure-{name}": svg.decode("utf-8") for name, svg in drawings.wide.items()}
    pdf, warnings = typst.compile_with_warnings(
        template,
        format="pdf",
        font_paths=_fonts(),
        ignore_system_fonts=True,
        sys_inputs={"dossier": json.dumps(dataclasses.asdict(document)), **pictures},
    )
    for warning in warnings:
        LOG.warning("the PDF's setting: %s", warning.message)
    return pdf
