"""A layout at rest in its stream, from the side and to scale: surface, bed, lines, machine, cover and clearance."""

from __future__ import annotations

import math

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures import dimension
from racewright.dossier.figures.holding_lines import draw_ghost, draw_line, draw_machine
from racewright.dossier.figures.holding_shape import Floats, Hung, LinePoints, hung
from racewright.dossier.figures.house import (
    ACCENT,
    BED,
    INK,
    PAPER,
    SOFT,
    WATER,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title, label
from racewright.dossier.figures.place_labels import LINE, SIZE, in_rows, spread
from racewright.holding.layout import Layout
from racewright.holding.statics_result import Equilibrium

_SIDE = (0, 2)
_ROOM = 0.75
"""Width of the sheet that the axes do not have [in]."""
_SMALL = 0.5
"""A machine drawn smaller than this is drawn again, larger, beneath [in]."""
_TALLEST = 4.2
_ARROWS = {"arrowstyle": "<|-|>,head_width=0.12,head_length=0.28", "shrinkA": 0, "shrinkB": 0, "linewidth": 0.6}
_MEASURES = 1.65
"""Room behind the machine for the measures of cover and clearance [in]."""


@in_house_style
def draw(
    layout: Layout, found: Equilibrium, width: float, *, ghost: Equilibrium | None = None, invented: bool = False
) -> Figure:
    """Side view, water from left to right; lines on the far side of each other fall into one.

    Parameters
    ----------
    layout : Layout
    found : Equilibrium
        Of that layout, settled.
    width : float
        Width of the figure [in].
    ghost : Equilibrium, optional
        Of the same layout in another state, such as with a held tree, drawn pale.
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    shown, other = hung(layout, found), None if ghost is None else hung(layout, ghost)
    ends = _ends(shown, other, width - _ROOM)
    per_metre = min((width - _ROOM) / (ends[1] - ends[0]), _TALLEST / max(found.depth, 0.1))
    groups = _groups(shown)
    names = [label(_names(group), 24 if narrow else 44) for group in groups]
    rows = in_rows([float(g[0].main[0, 0]) for g in groups], names, per_metre, ends)
    low, high = _heights(shown, per_metre, 1 + max((row for _, row in rows), default=0))
    size = float(np.ptp(shown.outline[:, [0, 2]], axis=0).max())
    close = size * per_metre < _SMALL
    tall = (high - low) * per_metre
    title = invented_title(_title(found, ghost), invented=invented)
    figure = sheet(width, tall + 1.0 + ((width - 0.2) / 2.6 + 0.25 if close else 0.0), title)
    if close:
        axes, near = figure.subplots(2, 1, height_ratios=[tall, (width - 0.2) / 2.6])
        _near(near, shown, other, size)
    else:
        axes = figure.add_subplot()
    axes.set(xlim=ends, ylim=(low, high), aspect="equal", facecolor=PAPER)
    _water(axes, shown, ends, low)
    _all(axes, shown, other)
    _named(axes, groups, names, rows, per_metre)
    _measures(axes, shown, per_metre)
    if other is not None:
        _ghost_name(axes, shown, other, per_metre)
    _stream(axes, found, ends, per_metre)
    axes.set_xlabel("along the stream, m" if narrow else "along the stream from the intended place, m")
    axes.set_ylabel("over the bed, m")
    return figure


def _title(found: Equilibrium, ghost: Equilibrium | None) -> str:
    speed = fmt.fixed(found.stream_speed, fmt.SPEED, 2)
    cover, clear = (fmt.fixed(v, fmt.LENGTH, 2) for v in (found.cover, found.bed_clearance))
    pitch = fmt.fixed(found.pitch, fmt.ANGLE, 1)
    said = f"{label(found.state, 22)}, {speed}: {cover} of cover, {clear} over the bed, pitch {pitch}; to scale"
    said = f"{said[0].upper()}{said[1:]}"
    if not found.settled:
        said = f"No rest found. {said}"
    elif not found.feasible and found.reason is not None:
        said = f"Does not hold ({found.reason.code}). {said}"
    return said if ghost is None else f"{said}; dashed: {label(ghost.state, 22)}"


def _ends(shown: Hung, other: Hung | None, wide: float) -> tuple[float, float]:
    """Ends of the drawing, `wide` inches apart, with room for the measures behind the machine [m]."""
    points = shown.every_point if other is None else np.concatenate([shown.every_point, other.every_point])
    left, right = float(points[:, 0].min()), float(points[:, 0].max())
    margin = 0.07 * max(right - left, 1.0)
    left, right = left - margin, right + margin
    behind = float(shown.outline[:, 0].max())
    return left, max(right, behind + _MEASURES * (behind - left) / (wide - _MEASURES))


def _heights(shown: Hung, per_metre: float, rows: int) -> tuple[float, float]:
    """Bed with room for the names of its anchors, to what stands highest [m]."""
    points = shown.every_point[:, 2]
    low = min(0.0, float(points.min())) - (rows * LINE + 0.12) / per_metre
    return low, max(shown.found.depth, float(points.max())) + 0.32 / per_metre


def _groups(shown: Hung) -> list[list[LinePoints]]:
    """Lines that start at one place in this view, or behind each other."""
    span = float(np.ptp(shown.every_point[:, 0]))
    groups: list[list[LinePoints]] = []
    for line in shown.lines:
        for group in groups:
            if math.dist(group[0].main[0, [0, 2]], line.main[0, [0, 2]]) < 0.01 * span:
                group.append(line)
                break
        else:
            groups.append([line])
    return groups


def _names(group: list[LinePoints]) -> str:
    return ", ".join(f"{g.load.name} (slack)" if g.load.form == "slack" else g.load.name for g in group)


def _water(axes: Axes, shown: Hung, ends: tuple[float, float], low: float) -> None:
    depth = shown.found.depth
    axes.fill_between(ends, 0.0, depth, color=WATER, linewidth=0, zorder=1)
    axes.fill_between(ends, low, 0.0, color=BED, linewidth=0, zorder=1.5)
    axes.plot(ends, [0.0, 0.0], color=INK, linewidth=0.8, zorder=3)
    axes.plot(ends, [depth, depth], color=ACCENT, linewidth=1.1, zorder=3)


def _all(axes: Axes, shown: Hung, other: Hung | None) -> None:
    if other is not None:
        draw_ghost(axes, other, _SIDE)
    for line in shown.lines:
        draw_line(axes, line, _SIDE)
    draw_machine(axes, shown, _SIDE)


def _named(
    axes: Axes, groups: list[list[LinePoints]], names: list[str], rows: list[tuple[float, int]], per_metre: float
) -> None:
    for group, name, (middle, row) in zip(groups, names, rows, strict=True):
        x, z = (float(v) for v in group[0].main[0, [0, 2]])
        y = -((row + 0.5) * LINE + 0.08) / per_metre
        axes.plot([x, middle], [z, y], color=SOFT, linewidth=0.5, zorder=6)
        axes.text(middle, y, name, ha="center", va="center", fontsize=SIZE, bbox=halo(BED), zorder=9)


def _measures(axes: Axes, shown: Hung, per_metre: float) -> None:
    """Cover and bed clearance just behind the machine."""
    found, outline = shown.found, shown.outline
    high, low = float(outline[:, 2].max()), float(outline[:, 2].min())
    edge = float(outline[:, 0].max())
    x = edge + 0.14 / per_metre
    rows = (
        (high, high, found.depth, f"cover {fmt.fixed(found.cover, fmt.LENGTH, 2)}"),
        (low, 0.0, low, f"off the bed {fmt.fixed(found.bed_clearance, fmt.LENGTH, 2)}"),
    )
    heights = spread([0.5 * (a + b) for _, a, b, _ in rows], LINE / per_metre, (-math.inf, math.inf))
    for (at, bottom, top, said), y in zip(rows, heights, strict=True):
        dimension.witness(axes, (edge, x), (at, at))
        axes.annotate("", (x, top), (x, bottom), arrowprops={**_ARROWS, "color": INK}, zorder=8)
        axes.text(x + 0.08 / per_metre, y, said, ha="left", va="center", fontsize=SIZE, bbox=halo(WATER), zorder=9)


def _ghost_name(axes: Axes, shown: Hung, other: Hung, per_metre: float) -> None:
    x, z = (float(v) for v in other.outline[:, [0, 2]].min(axis=0))
    at = min(z, float(shown.outline[:, 2].min())) - 0.16 / per_metre
    name = label(other.found.state, 30)
    axes.text(x, at, name, ha="right", va="center", fontsize=SIZE, color=SOFT, bbox=halo(WATER), zorder=9)


def _stream(axes: Axes, found: Equilibrium, ends: tuple[float, float], per_metre: float) -> None:
    """The stream's arrow and speed, above the surface."""
    x, y = ends[0] + 0.08 / per_metre, found.depth + 0.16 / per_metre
    arrow = {"arrowstyle": "-|>", "color": INK, "linewidth": 1.1}
    axes.annotate("", (x + 0.42 / per_metre, y), (x, y), arrowprops=arrow, zorder=8)
    speed = fmt.fixed(found.stream_speed, fmt.SPEED, 2)
    axes.text(x + 0.5 / per_metre, y, f"stream {speed}", ha="left", va="center", fontsize=SIZE, zorder=8)


def _near(axes: Axes, shown: Hung, other: Hung | None, size: float) -> None:
    """The machine again, larger."""
    x, z = _middle(shown.outline)
    up = 0.85 * size
    axes.set(xlim=(x - 2.6 * up, x + 2.6 * up), ylim=(z - up, z + up), aspect="equal")
    axes.fill_between((x - 2.6 * up, x + 2.6 * up), z - up, min(z + up, shown.found.depth), color=WATER, linewidth=0)
    if shown.found.depth < z + up:
        axes.axhline(shown.found.depth, color=ACCENT, linewidth=1.1)
    _all(axes, shown, other)
    dimension.scale_bar(axes, x + 2.5 * up, z - 0.9 * up, 5.0 * up, 0.03 * up)
    axes.set_axis_off()
    axes.set_title("the machine, larger, to its own scale", fontsize=8, loc="left")


def _middle(outline: Floats) -> tuple[float, float]:
    low, high = outline[:, [0, 2]].min(axis=0), outline[:, [0, 2]].max(axis=0)
    return float(0.5 * (low[0] + high[0])), float(0.5 * (low[1] + high[1]))
