"""The machine in the water column at low water, median and high water, side by side to one scale."""

from __future__ import annotations

import numpy as np
from matplotlib.figure import Figure
from matplotlib.patches import Rectangle

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BED,
    BODY,
    INK,
    SECOND,
    WATER,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.place.result import Standing


@in_house_style
def draw(standings: tuple[Standing, ...], width: float) -> Figure:
    """One column per standing: bed, water, the duct's box between its lowest and highest point.

    Parameters
    ----------
    standings : tuple of Standing
        Not empty.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    deepest = max(max(s.depth, s.clearance + box_height(s)) for s in standings)
    under = 0.12 * deepest + max(0.0, *(-s.clearance for s in standings))
    figure = sheet(width, 3.5 if narrow else 3.3, _title(standings))
    axes = figure.add_subplot()
    for k, s in enumerate(standings):
        left, right = k + 0.06, k + 0.94
        axes.add_patch(Rectangle((left, -under), right - left, under, color=BED, linewidth=0))
        axes.add_patch(Rectangle((left, 0), right - left, max(s.depth, 0.0), color=WATER, linewidth=0))
        axes.plot([left, right], [s.depth, s.depth], color=ACCENT, linewidth=1.2)
        axes.plot([left, right], [0, 0], color=INK, linewidth=0.8)
        aground = s.clearance < 0
        axes.add_patch(
            Rectangle(
                (k + 0.34, s.clearance),
                0.32,
                box_height(s),
                facecolor=SECOND if aground else BODY,
                linewidth=0,
            )
        )
    axes.set_xlim(0, len(standings))
    axes.set_ylim(-under, deepest * 1.1)
    axes.set_xticks([k + 0.5 for k in range(len(standings))])
    axes.set_xticklabels([_words(s, narrow=narrow) for s in standings], linespacing=1.4)
    axes.tick_params(axis="x", length=0)
    axes.spines["bottom"].set_visible(False)
    axes.set_ylabel("height above the bed, m")
    return figure


def box_height(standing: Standing) -> float:
    """Height of the duct: depth less cover and clearance [m]."""
    return standing.depth - standing.cover - standing.clearance


def _words(standing: Standing, *, narrow: bool) -> str:
    label = standing.label.replace(" (", "\n(") if narrow else standing.label
    return "\n".join(
        (
            label,
            fmt.fixed(standing.speed, fmt.SPEED, 2),
            f"{fmt.fixed(standing.cover, fmt.LENGTH, 2)} over it",
            f"{fmt.fixed(standing.clearance, fmt.LENGTH, 2)} under it",
        )
    )


def _title(standings: tuple[Standing, ...]) -> str:
    worst = min(standings, key=lambda s: s.clearance)
    room = fmt.fixed(abs(worst.clearance), fmt.LENGTH, 2)
    if worst.clearance < 0:
        return f"The duct is aground by {room} at {worst.label}"
    return f"Least water under the duct: {room} at {worst.label}"


def is_drawable(standings: tuple[Standing, ...]) -> bool:
    """True where the standings give finite depths to draw."""
    return bool(standings) and all(np.isfinite([s.depth, s.cover, s.clearance]).all() for s in standings)
