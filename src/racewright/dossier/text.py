"""Untrusted text made safe to set: control characters out, everything else kept as written."""

from __future__ import annotations

import unicodedata


def clean(text: str) -> str:
    """Text on one line with control, format and surrogate characters made visible or dropped.

    Line ends and tabs become spaces; other control characters, direction overrides and lone surrogates become
    U+FFFD, so that text cannot hide or turn its neighbours. Joiners (in emoji) stay.

    Parameters
    ----------
    text : str
        Any text from a scheme.
    """
    return " ".join("".join(_safe(c) for c in text).split())


def signs(text: str) -> str:
    """The program's own text: `clean`, with '+-' set as the sign that it stands for."""
    return clean(text).replace("+-", "\u00b1")


def _safe(char: str) -> str:
    if char in "\t\n\r\x0b\x0c\x85":
        return " "
    category = unicodedata.category(char)
    if category in ("Cc", "Cs", "Cn", "Co") or (category == "Cf" and char not in "\u200d\u200c\u00ad"):
        return "\ufffd"
    return char


def sentence(*parts: str) -> str:
    """Parts that are not empty, joined by spaces."""
    return " ".join(p for p in parts if p)
