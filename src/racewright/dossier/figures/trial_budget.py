"""What makes one reading unsure: sources side by side, on CP and on CT."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

import numpy as np
from matplotlib.figure import Figure
from matplotlib.patches import Patch

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, SECOND, bare_names, grid, in_house_style, is_narrow, sheet
from racewright.dossier.figures.label import invented_title, label

Bar = tuple[str, float, float]
"""Name, and relative standard uncertainty of CP and of CT that it makes [-]."""


@in_house_style
def draw(bars: Sequence[Bar], together: tuple[float, float], width: float, *, invented: bool) -> Figure:
    """Two bars a source, all sources together beneath.

    Parameters
    ----------
    bars : sequence of (name, on CP, on CT)
        Not empty; names are untrusted.
    together : (on CP, on CT)
        Combined relative standard uncertainties [-].
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    rows = [*bars, ("all together", *together)]
    figure = sheet(
        width,
        (1.3 if narrow else 1.2) + (0.3 if narrow else 0.26) * len(rows),
        invented_title(_title(bars, narrow=narrow), invented=invented),
    )
    axes = figure.add_subplot()
    most = 100.0 * max(max(r[1], r[2]) for r in rows)
    places = max(2, fmt.decimals_for(most, 2))
    for place, (_source, power, thrust) in enumerate(rows):
        for off, value, colour, hatch in ((-0.19, power, ACCENT, None), (0.19, thrust, SECOND, "////")):
            size = 100.0 * value
            axes.barh(
                place + off,
                size,
                height=0.36,
                facecolor=colour if hatch is None else "none",
                edgecolor=colour,
                hatch=hatch,
                linewidth=0.6,
            )
            text = fmt.number(size, places)
            if float(text) > 0.0:
                axes.text(size + 0.012 * most, place + off, text, ha="left", va="center", fontsize=6.2, color=INK)
    axes.set_yticks(range(len(rows)), [_name(r[0], narrow=narrow) for r in rows])
    axes.set_ylim(len(rows) - 0.45, -0.6)
    axes.set_xlim(0.0, 1.12 * most if most > 0.0 else 1.0)
    bare_names(axes)
    axes.set_xlabel(
        "standard uncertainty, %" if narrow else "relative standard uncertainty of the coefficient, %", loc="right"
    )
    figure.legend(
        handles=[
            Patch(facecolor=ACCENT, edgecolor=ACCENT, label="on CP"),
            Patch(facecolor="none", edgecolor=SECOND, hatch="////", label="on CT"),
        ],
        loc="outside lower left",
        ncols=2,
        frameon=False,
        fontsize=7.5,
        borderpad=0,
        handlelength=1.6,
    )
    grid(axes, "x")
    return figure


def _title(bars: Sequence[Bar], *, narrow: bool) -> str:
    worst = bars[int(np.argmax([b[1] for b in bars]))]
    name = label(worst[0], 26 if narrow else 44)
    return f"Most doubt on CP, {fmt.quantity(worst[1], fmt.SHARE, 2)}, comes from {name}"


def _name(text: str, *, narrow: bool) -> str:
    """The name, on two lines where the drawing is narrow."""
    if not narrow:
        return label(text, 36)
    lines = textwrap.wrap(label(text, 34), 18)
    return "\n".join(lines[:2])
