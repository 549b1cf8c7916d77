"""Drawings remembered by what they are drawn from, for tests that ask what a dossier says, not how it is drawn.

Most of a dossier's time goes into its drawings, and most of them are the same from test to test. A test that compares
the bytes of two dossiers, or looks at drawings, must not use this.
"""

from __future__ import annotations

import functools
import hashlib
import importlib
import io
import pkgutil
from collections.abc import Callable
from typing import Any

import pytest

from racewright.ledger.codec import encode

_saved: dict[str, bytes] = {}
"""SVG by function, arguments and settings of saving, for as long as this process lives."""


class Remembered:
    """Stands for a figure that was saved before."""

    def __init__(self, key: str) -> None:
        self.key = key

    def savefig(self, buffer: io.BytesIO, **settings: Any) -> None:
        """Write what was saved then; the settings are always the same."""
        assert settings["format"] == "svg"
        buffer.write(_saved[self.key])


def remembering(draw: Callable[..., Any]) -> Callable[..., Any]:
    """The function, or a stand-in for its figure when one of equal arguments has been saved."""

    @functools.wraps(draw)
    def drawn(*arguments: Any, **named: Any) -> Any:
        try:
            content = encode((arguments, tuple(sorted(named.items()))), "")
        except TypeError:  # an argument of no kind that a value can be made of
            return draw(*arguments, **named)
        key = f"{draw.__module__} {hashlib.sha256(content).hexdigest()}"
        if key in _saved:
            return Remembered(key)
        figure = draw(*arguments, **named)
        real = figure.savefig

        def save(buffer: io.BytesIO, **settings: Any) -> None:
            assert settings["format"] == "svg"
            real(buffer, **settings)
            _saved[key] = buffer.getvalue()

        figure.savefig = save
        return figure

    return drawn


def remember_drawings(patch: pytest.MonkeyPatch) -> None:
    """Until the patch is undone."""
    import racewright.dossier.figures as figures

    for found in pkgutil.iter_modules(figures.__path__):
        module = importlib.import_module(f"{figures.__name__}.{found.name}")
        if hasattr(module, "draw"):
            patch.setattr(module, "draw", remembering(module.draw))
