"""Strokes that tell load states apart without relying on colour alone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from racewright.dossier.figures.house import ACCENT, INK, SECOND, SOFT
from racewright.dossier.figures.label import label

_SOLID: Literal["-"] = "-"
_LONG, _SHORT = (0.0, (5.0, 2.0)), (0.0, (1.0, 1.6))


@dataclass(frozen=True)
class Stroke:
    """Colour and dashes of one line."""

    colour: str
    dashes: Literal["-"] | tuple[float, tuple[float, ...]]


_STROKES = (
    Stroke(ACCENT, _SOLID),
    Stroke(SECOND, _LONG),
    Stroke(INK, _SHORT),
    Stroke(SOFT, _SOLID),
    Stroke(ACCENT, _LONG),
    Stroke(SECOND, _SOLID),
    Stroke(INK, _SOLID),
    Stroke(SOFT, _LONG),
    Stroke(ACCENT, _SHORT),
    Stroke(SECOND, _SHORT),
)


def stroke(place: int) -> Stroke:
    """The stroke of the state at that place; ten differ."""
    return _STROKES[place % len(_STROKES)]


def key(figure: Figure, names: tuple[str, ...], columns: int) -> None:
    """One key for all axes, beneath them."""
    strokes = [stroke(i) for i in range(len(names))]
    handles = [Line2D([], [], color=s.colour, linestyle=s.dashes, linewidth=1.6) for s in strokes]
    figure.legend(
        handles, [label(n, 18) for n in names], loc="outside lower left", ncols=min(columns, len(names)),
        frameon=False, fontsize=7.5, handlelength=2.6,
    )  # fmt: skip
