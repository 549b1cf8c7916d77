"""Names that somebody gave, made fit to stand in a drawing."""

from __future__ import annotations

import functools

from matplotlib import get_data_path
from matplotlib.ft2font import FT2Font

from racewright.dossier.text import clean


def label(text: str, most: int) -> str:
    """The name on one line, no wider than so many letters n; signs that the type lacks are replaced.

    Parameters
    ----------
    text : str
        Untrusted.
    most : int
        Widest; what is cut ends in an ellipsis.
    """
    told = "".join(c if _advance(c) else "\ufffd" for c in clean(text))
    room = most * _advance("n")
    if sum(_advance(c) for c in told) <= room:
        return told
    kept, room = "", room - _advance("\u2026")
    for c in told:
        room -= _advance(c)
        if room < 0.0:
            break
        kept += c
    return kept.rstrip() + "\u2026"


@functools.lru_cache(maxsize=4096)
def _advance(char: str) -> float:
    """Width of a sign in the drawings' type, any unit; 0 where it has none."""
    font = _font()
    return float(font.load_char(ord(char)).linearHoriAdvance) if font.get_char_index(ord(char)) else 0.0


@functools.cache
def _font() -> FT2Font:
    font = FT2Font(f"{get_data_path()}/fonts/ttf/DejaVuSans.ttf")
    font.set_size(100.0, 72.0)
    return font


def invented_title(title: str, *, invented: bool) -> str:
    """The title, with a word where nothing in the drawing was measured."""
    return f"{title} (invented data)" if invented else title
