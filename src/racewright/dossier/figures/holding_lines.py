"""Strokes that both views of a layout share: lines, machine, ghost."""

from __future__ import annotations

from matplotlib.axes import Axes
from matplotlib.patches import Polygon

from racewright.dossier.figures.holding_shape import Hung, LinePoints, hull
from racewright.dossier.figures.house import ACCENT, BODY, INK, PAPER, SECOND, SOFT

DASHED = (0, (4, 2.5))
DOTTED = (0, (1, 2))


def draw_line(axes: Axes, line: LinePoints, view: tuple[int, int]) -> None:
    """One line: solid, dotted when slack, thick where it lies on the bed; a power cable in its own colour.

    Parameters
    ----------
    axes : Axes
    line : LinePoints
    view : tuple of int
        Which of along, across and up are drawn to the right and upwards.
    """
    i, j = view
    cable = line.load.purpose == "power cable"
    style = DOTTED if line.load.form == "slack" else "-"
    colour = SECOND if cable else INK
    for part in (line.main, *line.legs):
        axes.plot(part[:, i], part[:, j], color=colour, linewidth=1.1, linestyle=style, zorder=5)
    if line.lying.size:
        axes.plot(line.lying[:, i], line.lying[:, j], color=BODY, linewidth=3.0, solid_capstyle="butt", zorder=4.5)
    foot = line.main[0]
    axes.plot(foot[i], foot[j], marker="s", markersize=4.0, color=colour, markeredgecolor=PAPER, zorder=6)


def draw_machine(axes: Axes, shown: Hung, view: tuple[int, int]) -> None:
    """Outline of the duct, its axis, the fairleads."""
    i, j = view
    corners = hull(shown.outline[:, view])
    axes.add_patch(Polygon(corners, facecolor=ACCENT, edgecolor=INK, linewidth=0.6, alpha=0.85, zorder=6.5))
    axes.plot(shown.axis[:, i], shown.axis[:, j], color=PAPER, linewidth=0.8, dashes=(6, 2, 1, 2), zorder=7)
    axes.plot(
        shown.fairleads[:, i], shown.fairleads[:, j], linestyle="none", marker="o", markersize=3.0, color=PAPER,
        markeredgecolor=INK, markeredgewidth=0.8, zorder=7.5,
    )  # fmt: skip


def draw_ghost(axes: Axes, shown: Hung, view: tuple[int, int]) -> None:
    """The same layout in another state: dashed and pale, the machine without filling."""
    i, j = view
    for line in shown.lines:
        for part in (line.main, *line.legs):
            axes.plot(part[:, i], part[:, j], color=SOFT, linewidth=0.8, linestyle=DASHED, zorder=4)
    corners = hull(shown.outline[:, view])
    axes.add_patch(Polygon(corners, facecolor="none", edgecolor=SOFT, linewidth=1.0, linestyle=DASHED, zorder=6.2))
