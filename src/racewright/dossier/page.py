"""The document as one HTML page that needs nothing else."""

from __future__ import annotations

from typing import Any

from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from racewright.dossier.document import Document, Picture
from racewright.dossier.drawings import Drawings
from racewright.dossier.figures.house import DARK
from racewright.dossier.figures.save import inline, variable


def page(document: Document, drawings: Drawings) -> bytes:
    """UTF-8 HTML with inline style and drawings; no script, no request.

    Parameters
    ----------
    document : Document
        Its text is escaped here.
    drawings : Drawings
        From `draw_all`, for the same findings.
    """
    templates = Environment(
        loader=PackageLoader("racewright.dossier"),
        autoescape=True,
        undefined=StrictUndefined,
        keep_trailing_newline=True,
    )
    dark = " ".join(f"{variable(light)}: {there};" for light, there in DARK.items())
    context: dict[str, Any] = {
        "document": document,
        "css": Markup(templates.get_template("dossier.css").render(dark=dark)),
        "wide": {k: Markup(inline(v, f"w-{k}", "wide")) for k, v in drawings.wide.items()},
        "narrow": {k: Markup(inline(v, f"n-{k}", "narrow")) for k, v in drawings.narrow.items()},
        "numbers": _numbers(document),
    }
    return templates.get_template("dossier.html").render(context).encode("utf-8")


def _numbers(document: Document) -> dict[str, int]:
    """Figure numbers by name, in reading order."""
    names = [b.name for c in document.chapters for b in c.blocks if isinstance(b, Picture)]
    return {name: k + 1 for k, name in enumerate(names)}
