"""What makes the band on power wide: one bar a cause, the combined band beneath."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, BODY, INK, bare_names, grid, in_house_style, is_narrow, sheet

Cause = tuple[str, float, float]
"""Name, low and high end [W]."""


@in_house_style
def draw(value: float, causes: Sequence[Cause], combined: tuple[float, float], width: float) -> Figure:
    """Bars about the computed power.

    Parameters
    ----------
    value : float
        Computed power [W].
    causes : sequence of (name, low, high)
        Power at both ends of each cause alone [W].
    combined : (low, high)
        The band that is used [W].
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    rows = [*causes, ("all together", *combined)]
    scale = fmt.pick(fmt.POWER, max(abs(value), abs(combined[1]) / 2))
    figure = sheet(width, 0.95 + 0.3 * len(rows), _title(value, causes))
    axes = figure.add_subplot()
    for y, (name, low, high) in enumerate(rows):
        last = name == rows[-1][0]
        a, b = low / scale.factor, high / scale.factor
        axes.barh(y, b - a, left=a, height=0.5, color=ACCENT if last else BODY, alpha=0.9 if last else 0.75)
        if not narrow or last:
            digits = fmt.decimals_for(max(abs(a), abs(b)), 3)
            gap = 0.012 * abs(combined[1] - combined[0]) / scale.factor
            for x, text, side in (
                (a - gap, fmt.number(a, digits), "right"),
                (b + gap, fmt.number(b, digits), "left"),
            ):
                axes.text(x, y, text, ha=side, va="center", fontsize=7.5, color=INK)
    axes.axvline(value / scale.factor, color=INK, linewidth=1.0)
    axes.set_yticks(range(len(rows)), [r[0] for r in rows])
    axes.set_ylim(len(rows) - 0.5, -0.6)
    ends = [min(r[1] for r in rows) / scale.factor, max(r[2] for r in rows) / scale.factor]
    room = 0.16 * max(ends[1] - ends[0], 1e-9)
    axes.set_xlim(ends[0] - room, ends[1] + room)
    bare_names(axes)
    axes.set_xlabel(f"shaft power, {scale.unit}" + ("" if narrow else "; line: computed"))
    grid(axes, "x")
    return figure


def _title(value: float, causes: Sequence[Cause]) -> str:
    if not causes:
        return f"Shaft power {fmt.quantity(value, fmt.POWER)}"
    widest = max(causes, key=lambda c: c[2] - c[1])
    return f"{widest[0][0].upper()}{widest[0][1:]} makes the band on power widest"
