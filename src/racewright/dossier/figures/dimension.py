"""Dimension lines, leaders and the scale bar of a drawing to scale."""

from __future__ import annotations

import math

from matplotlib.axes import Axes

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import INK, SOFT, halo

_ENDS = {"arrowstyle": "<|-|>,head_width=0.12,head_length=0.28", "shrinkA": 0, "shrinkB": 0, "linewidth": 0.6}


def upright(axes: Axes, x: float, low: float, high: float, label: str, ground: str) -> None:
    """A vertical dimension line at x with its label turned along it."""
    axes.annotate("", (x, high), (x, low), arrowprops={**_ENDS, "color": INK}, zorder=8)
    axes.text(
        x,
        (low + high) / 2,
        label,
        rotation=90,
        ha="center",
        va="center",
        fontsize=7.5,
        bbox=halo(ground),
        zorder=9,
    )


def level(axes: Axes, y: float, left: float, right: float, label: str, ground: str) -> None:
    """A horizontal dimension line at y with its label on it."""
    axes.annotate("", (right, y), (left, y), arrowprops={**_ENDS, "color": INK}, zorder=8)
    axes.text((left + right) / 2, y, label, ha="center", va="center", fontsize=7.5, bbox=halo(ground), zorder=9)


def witness(axes: Axes, x: tuple[float, float], y: tuple[float, float]) -> None:
    """A thin line from the thing to its dimension line."""
    axes.plot(x, y, color=SOFT, linewidth=0.4, zorder=7)


def leader(axes: Axes, at: tuple[float, float], text_at: tuple[float, float], label: str, ground: str) -> None:
    """A label with a thin line to the thing it names."""
    axes.annotate(
        label,
        at,
        text_at,
        ha="center",
        va="center",
        fontsize=7.5,
        bbox=halo(ground),
        arrowprops={"arrowstyle": "-", "color": INK, "linewidth": 0.5, "shrinkA": 0, "shrinkB": 0},
        zorder=9,
    )


def scale_bar(axes: Axes, right: float, y: float, span: float, tick: float) -> None:
    """A bar of a round length, about a fifth of `span`, ending at `right` [m]."""
    raw = span / 5
    power = 10.0 ** math.floor(math.log10(raw))
    length = max(m for m in (1.0, 2.0, 5.0, 10.0) if m * power <= raw * 1.001) * power
    left = right - length
    axes.plot([left, right], [y, y], color=INK, linewidth=1.4, solid_capstyle="butt", zorder=9)
    for x in (left, right):
        axes.plot([x, x], [y - tick, y + tick], color=INK, linewidth=0.8, zorder=9)
    axes.text(
        (left + right) / 2,
        y + 1.3 * tick,
        fmt.join(f"{length:g}", fmt.LENGTH[0]),
        ha="center",
        va="bottom",
        fontsize=7.5,
        zorder=9,
    )
