"""Names that somebody gave, made fit to stand in a drawing."""

from __future__ import annotations

import functools

from matplotlib import get_data_path
from matplotlib.ft2font import FT2Font

from racewright.dossier.text import clean


def label(text: str, most: int) -> str:
    """The name on one line, at most so many characters, signs that the type lacks replaced.

    Parameters
    ----------
    text : str
        Untrusted.
    most : int
        Longest; what is cut ends in an ellipsis.
    """
    known = _known()
    told = "".join(c if ord(c) in known else "\ufffd" for c in clean(text))
    return told if len(told) <= most else told[: most - 1].rstrip() + "\u2026"


@functools.cache
def _known() -> frozenset[int]:
    """Characters of the drawings' type."""
    return frozenset(FT2Font(f"{get_data_path()}/fonts/ttf/DejaVuSans.ttf").get_charmap())


def invented_title(title: str, *, invented: bool) -> str:
    """The title, with a word where nothing in the drawing was measured."""
    return f"{title} (invented data)" if invented else title
