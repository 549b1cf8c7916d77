"""Constituents of a tide with the errors of their amplitudes."""

from __future__ import annotations

import numpy as np
from matplotlib.figure import Figure
from matplotlib.patches import Patch

from racewright.dossier.figures.house import ACCENT, INK, PAPER, SECOND, grid, in_house_style, is_narrow, sheet
from racewright.place.tide_result import Tide

MOST = 12
"""Bars at most."""
_LOOK = {"fitted": (ACCENT, ""), "table": (ACCENT, ""), "inferred": (SECOND, "////")}
_WORD = {"fitted": "fitted", "table": "from a table", "inferred": "inferred from its neighbour"}


@in_house_style
def draw(tide: Tide, width: float) -> Figure:
    """One bar each, largest first, logarithmic; whiskers of the 95 % interval.

    Parameters
    ----------
    tide : Tide
        With one kept constituent or more.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    rows = sorted((row for row in tide.constituents if row.kept), key=lambda row: -row.amplitude)[:MOST]
    figure = sheet(width, 3.2 if narrow else 3.0, _title(tide))
    axes = figure.add_subplot()
    place = np.arange(len(rows))
    size = np.array([row.amplitude for row in rows])
    error = np.array([min(row.amplitude_error, 0.95 * row.amplitude) for row in rows])
    bars = axes.bar(place, size, width=0.7, linewidth=0)
    for bar, row in zip(bars, rows, strict=True):
        colour, hatch = _LOOK[row.origin]
        bar.set(facecolor=colour if not hatch else PAPER, edgecolor=colour, hatch=hatch, linewidth=0.8, alpha=0.9)
    known = error > 0.0
    axes.errorbar(
        place[known],
        size[known],
        error[known],
        linestyle="none",
        ecolor=INK,
        elinewidth=1.0,
        capsize=2.5,
        capthick=0.9,
    )
    axes.set_yscale("log")
    axes.yaxis.set_major_formatter(lambda v, _: f"{v:g}")
    bottom = 10.0 ** np.floor(np.log10(max(float((size - error).min()), 1e-4)))
    axes.set_ylim(bottom, 2.0 * float(size.max()))
    axes.set_xlim(-0.6, len(rows) - 0.4)
    axes.set_xticks(place, [row.name for row in rows], rotation=90 if narrow else 0)
    axes.tick_params(axis="x", length=0)
    axes.set_ylabel("amplitude, m" if tide.kind == "level" else _SPEED[tide.kind])
    kinds = list(dict.fromkeys(row.origin for row in rows))
    if len(kinds) > 1:
        axes.legend(
            handles=[
                Patch(
                    facecolor=_LOOK[k][0] if not _LOOK[k][1] else PAPER,
                    edgecolor=_LOOK[k][0],
                    hatch=_LOOK[k][1],
                    label=_WORD[k],
                )
                for k in kinds
            ],
            loc="upper right",
            frameon=False,
            fontsize=7.5,
        )
    grid(axes)
    return figure


_SPEED = {"along": "amplitude, m/s", "east north": "larger half axis, m/s"}


def _title(tide: Tide) -> str:
    first = max((row for row in tide.constituents if row.kept), key=lambda row: row.amplitude)
    share = 100.0 * first.share
    told = f"{first.name} carries {share:.0f} % of the constituents' energy"
    if tide.explained is None:
        return told
    return f"{told}; all together explain {100.0 * tide.explained:.1f} % of the record's variance"
