"""A Figure to SVG: the same bytes for the same drawing, and a form to stand inside an HTML page."""

from __future__ import annotations

import io
import re

from matplotlib.figure import Figure

from racewright.dossier.figures.house import DARK, in_house_style

_METADATA = {"Date": None, "Creator": None, "Format": None, "Type": None}
_PATH = re.compile(r' (?:d="|transform="translate\()[^"]+"')
_LONG = re.compile(r"-?\d+\.\d{3,}")


@in_house_style
def svg(figure: Figure) -> bytes:
    """The figure as a stand-alone SVG file, without date or program name."""
    buffer = io.BytesIO()
    figure.savefig(buffer, format="svg", metadata=_METADATA)
    return _PATH.sub(_shorten, buffer.getvalue().decode("utf-8")).encode("utf-8")


def _shorten(path: re.Match[str]) -> str:
    """Paths and places to a hundredth of a point: fewer bytes, no visible change."""
    return _LONG.sub(lambda number: f"{float(number.group()):.2f}".rstrip("0").rstrip("."), path.group())


def inline(drawing: bytes, prefix: str, kind: str) -> str:
    """The SVG as an element of an HTML page.

    Prolog, fixed size and name spaces go; ids get a prefix, so that several drawings live on one page;
    colours of the palette become CSS variables with the light colour as fallback, so that the page can turn
    dark.

    Parameters
    ----------
    drawing : bytes
        From `svg`.
    prefix : str
        Letters, digits and hyphens, unique on the page.
    kind : str
        CSS class of the element.
    """
    text = drawing.decode("utf-8")
    text = text[text.index("<svg") :]
    head, body = text.split(">", 1)
    view = re.search(r'viewBox="([^"]+)"', head)
    assert view is not None
    body = re.sub(r"<metadata>.*?</metadata>", "", body, flags=re.DOTALL)
    body = re.sub(r"<!--.*?-->|\n *(?=<)", "", body, flags=re.DOTALL)
    body = body.replace("xlink:href", "href")
    body = re.sub(r'\bid="([^"]+)"', rf'id="{prefix}-\1"', body)
    body = re.sub(r'href="#([^"]+)"', rf'href="#{prefix}-\1"', body)
    body = re.sub(r"url\(#([^)]+)\)", rf"url(#{prefix}-\1)", body)
    for light in DARK:
        body = body.replace(light, f"var({variable(light)},{light})")
    return f'<svg class="{kind}" viewBox="{view.group(1)}" aria-hidden="true" focusable="false">{body.strip()}'


def variable(colour: str) -> str:
    """Name of the CSS variable of a palette colour."""
    return f"--p{list(DARK).index(colour)}"
