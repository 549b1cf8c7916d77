"""Untrusted text on its way to the page."""

from __future__ import annotations

from racewright.dossier.text import clean


def test_plain_text_and_emoji_stay() -> None:
    assert clean("Réka 5 m³/s 👩\u200d🔧 $x$ \\ <b>") == "Réka 5 m³/s 👩\u200d🔧 $x$ \\ <b>"


def test_line_ends_become_spaces() -> None:
    assert clean(" a\r\n\tb \n") == "a b"


def test_control_override_and_surrogate_become_visible() -> None:
    assert clean("a\x00b\u202ec\ud800d\ufeff") == "a\ufffdb\ufffdc\ufffdd\ufffd"
