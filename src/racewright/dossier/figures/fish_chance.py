"""Chance of a fish that comes in: struck, and dead between the ends that are known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
    INK,
    SECOND,
    bare_names,
    grid,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title, label


@dataclass(frozen=True)
class Bar:
    """One kind of fish at one operating point; chances in parts of one [-].

    Attributes
    ----------
    fish, point : str
        Name (untrusted), operating point.
    struck, low, value, high : float
    """

    fish: str
    point: str
    struck: float
    low: float
    value: float
    high: float


@in_house_style
def draw(bars: Sequence[Bar], width: float, *, invented: bool) -> Figure:
    """A bar from lowest to highest chance of death, marks for the screening value and for the chance to be struck.

    Parameters
    ----------
    bars : sequence of Bar
        Not empty.
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the fish are invented.
    """
    narrow = is_narrow(width)
    figure = sheet(width, 1.25 + 0.36 * len(bars), invented_title(_title(bars), invented=invented))
    axes = figure.add_subplot()
    for y, bar in enumerate(bars):
        low, high = 100.0 * bar.low, 100.0 * bar.high
        axes.barh(y, max(high - low, 0.4), left=low, height=0.42, color=BODY, alpha=0.35)
        axes.plot(100.0 * bar.value, y, "o", color=SECOND, markersize=5.0)
        axes.plot(100.0 * bar.struck, y, "|", color=ACCENT, markersize=13.0, markeredgewidth=2.4)
    names = [
        f"{label(bar.fish, 12)}\n{bar.point}" if narrow else f"{label(bar.fish, 18)}, {bar.point}" for bar in bars
    ]
    axes.set_yticks(range(len(bars)), names)
    axes.set_ylim(len(bars) - 0.5, -1.15)
    axes.set_xlim(-2.0, 103.0)
    first = bars[0]
    for x, text, colour in ((first.struck, "struck", ACCENT), (first.value, "dies, screening", SECOND)):
        side = "right" if x > 0.75 else "left"
        axes.text(100.0 * x, -0.42, text, color=colour, ha=side, va="bottom", fontsize=7.5)
    if first.high - first.value > 0.3:
        axes.text(
            50.0 * (first.value + min(first.high, first.struck)), 0.0, "dies: known ends" if not narrow else "ends",
            ha="center", va="center", fontsize=7.5, color=INK,
        )  # fmt: skip
    bare_names(axes)
    axes.set_xlabel("chance of a fish that comes in, %")
    grid(axes, "x")
    return figure


def _title(bars: Sequence[Bar]) -> str:
    most, least = max(bars, key=lambda b: b.struck), min(bars, key=lambda b: b.struck)
    words = [f"{fmt.fixed(b.struck, fmt.SHARE, 0)} of {label(b.fish, 16)}" for b in (most, least)]
    if most.struck == least.struck:
        return f"Struck of the fish that come in: {words[0]}"
    return f"Struck of the fish that come in: {words[0]}, {words[1]}"
