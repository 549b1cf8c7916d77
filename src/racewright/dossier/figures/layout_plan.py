"""A layout at rest in its stream, from above and to scale: lines, anchors, watch circle, banks."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle

from racewright.dossier import format as fmt
from racewright.dossier.figures.holding_lines import DASHED, draw_ghost, draw_line, draw_machine
from racewright.dossier.figures.holding_shape import Floats, Hung, hung
from racewright.dossier.figures.house import (
    ACCENT,
    BED,
    INK,
    SECOND,
    SOFT,
    WATER,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title, label
from racewright.dossier.figures.place_labels import LINE, SIZE, Placed, around
from racewright.holding.layout import Layout
from racewright.holding.statics_result import Equilibrium
from racewright.holding.statics_watch import WatchCircle

_PLAN = (0, 1)
_ROOM = 0.75
_TALLEST = 5.0
_SHORTEST = 1.6


@in_house_style
def draw(
    layout: Layout,
    found: Equilibrium,
    width: float,
    *,
    ghost: Equilibrium | None = None,
    watch: WatchCircle | None = None,
    banks: tuple[float, float] | None = None,
    invented: bool = False,
) -> Figure:
    """Plan view, water from left to right, the left bank above.

    Parameters
    ----------
    layout : Layout
    found : Equilibrium
        Of that layout, settled.
    width : float
        Width of the figure [in].
    ghost : Equilibrium, optional
        Of the same layout in another state, drawn pale.
    watch : WatchCircle, optional
        Of the same layout.
    banks : tuple of float, optional
        Water's edge to the right and to the left of the intended place, looking downstream, < 0 and > 0 [m].
    invented : bool
        Whether the title says that the data are invented.
    """
    shown, other = hung(layout, found), None if ghost is None else hung(layout, ghost)
    left, right, low, high = _box(shown, other, watch, banks)
    per_metre = min((width - _ROOM) / (right - left), _TALLEST / (high - low))
    more = max(0.0, 0.5 * (_SHORTEST / per_metre - (high - low)))
    low, high = low - more, high + more
    said = _title(found, watch, ghost)
    narrow = is_narrow(width)
    figure = sheet(
        width, (high - low) * per_metre + (1.35 if narrow else 1.0), invented_title(said, invented=invented)
    )
    axes = figure.add_subplot()
    axes.set(xlim=(left, right), ylim=(low, high), aspect="equal", facecolor=WATER)
    taken = _banks(axes, banks, (left, right, low, high), per_metre)
    if other is not None:
        draw_ghost(axes, other, _PLAN)
    for line in shown.lines:
        draw_line(axes, line, _PLAN)
    draw_machine(axes, shown, _PLAN)
    if watch is not None:
        _watch(axes, watch, found.heading)
    foot = low if banks is None else max(low, banks[0])
    taken += _stream(axes, found, (left, foot), per_metre)
    _names(axes, _labels(shown, other, watch), shown, (left, right, low, high), per_metre, taken, banks)
    axes.set_xlabel("along the stream, m" if narrow else "along the stream from the intended place, m")
    axes.set_ylabel("across, m" if narrow else "across the stream, left bank up, m")
    return figure


def _title(found: Equilibrium, watch: WatchCircle | None, ghost: Equilibrium | None) -> str:
    speed = fmt.fixed(found.stream_speed, fmt.SPEED, 2)
    said = f"{label(found.state, 22)}, {speed}: {fmt.fixed(found.offset, fmt.LENGTH, 2)} off the intended place"
    said = f"From above, to scale. {said[0].upper()}{said[1:]}"
    if watch is not None and np.isfinite(watch.radius):
        said += f"; watch circle {fmt.fixed(watch.radius, fmt.LENGTH, 2)}"
    return said if ghost is None else f"{said}; dashed: {label(ghost.state, 22)}"


def _box(
    shown: Hung, other: Hung | None, watch: WatchCircle | None, banks: tuple[float, float] | None
) -> tuple[float, float, float, float]:
    points = [shown.every_point[:, :2]]
    if other is not None:
        points.append(other.every_point[:, :2])
    if watch is not None and np.isfinite(watch.swept_radius):
        reach = watch.swept_radius
        points.append(np.array([[-reach, -reach], [reach, reach]]))
    every = np.concatenate(points)
    (left, low), (right, high) = every.min(axis=0), every.max(axis=0)
    if banks is not None:
        near = 1.5 * max(right - left, high - low)
        low, high = (
            (min(low, banks[0]) if -banks[0] < near else low),
            (max(high, banks[1]) if banks[1] < near else high),
        )
    margin = 0.09 * max(right - left, 1.0)
    return float(left - margin), float(right + margin), float(low - margin), float(high + margin)


def _banks(
    axes: Axes, banks: tuple[float, float] | None, box: tuple[float, float, float, float], per_metre: float
) -> list[Placed]:
    if banks is None:
        return []
    left, right, low, high = box
    taken = []
    for y, edge, name in ((banks[0], low, "right bank"), (banks[1], high, "left bank")):
        if not low < y < high:
            continue
        axes.fill_between([left, right], y, edge, color=BED, linewidth=0, zorder=2)
        axes.plot([left, right], [y, y], color=INK, linewidth=0.8, zorder=3)
        at = Placed(0.5 * (left + right), 0.5 * (y + edge), 0.4 / per_metre, 0.5 * LINE / per_metre)
        axes.text(at.x, at.y, name, ha="center", va="center", fontsize=SIZE, zorder=9)
        taken.append(at)
    return taken


def _watch(axes: Axes, watch: WatchCircle, heading: float) -> None:
    """Circles about the intended place, and where the machine was found."""
    for radius, style in ((watch.radius, "-"), (watch.swept_radius, DASHED)):
        if np.isfinite(radius):
            axes.add_patch(
                Circle((0.0, 0.0), radius, fill=False, edgecolor=SECOND, linewidth=1.0, linestyle=style, zorder=7.8)
            )
    c, s = np.cos(heading), np.sin(heading)
    x, y = c * watch.x + s * watch.y, c * watch.y - s * watch.x
    holds = watch.feasible & watch.settled
    axes.plot(x[holds], y[holds], linestyle="none", marker=".", markersize=2.5, color=SECOND, zorder=7.7)
    fails = watch.settled & ~watch.feasible
    axes.plot(x[fails], y[fails], linestyle="none", marker="x", markersize=4.0, color=SECOND, zorder=7.7)


_Label = tuple[tuple[float, float], str, str]
"""Place [m], text, colour."""


def _labels(shown: Hung, other: Hung | None, watch: WatchCircle | None) -> list[_Label]:
    found: list[_Label] = []
    for line in shown.lines:
        name = label(line.load.name, 22)
        name = f"{name} (slack)" if line.load.form == "slack" else name
        found.append(((float(line.main[0, 0]), float(line.main[0, 1])), name, INK))
    if watch is not None and np.isfinite(watch.radius):
        for radius, side, what in (
            (watch.radius, -0.7, "watch circle"),
            (watch.swept_radius, 0.7, "outermost point"),
        ):
            place = (0.7 * radius, side * radius)
            found.append((place, f"{what} {fmt.fixed(radius, fmt.LENGTH, 2)}", SECOND))
    if other is not None:
        x, y = (float(v) for v in other.outline[:, :2].max(axis=0))
        found.append(((x, y), label(other.found.state, 26), SOFT))
    return found


def _names(
    axes: Axes,
    labels: list[_Label],
    shown: Hung,
    box: tuple[float, float, float, float],
    per_metre: float,
    taken: list[Placed],
    banks: tuple[float, float] | None,
) -> None:
    low, high = shown.outline[:, :2].min(axis=0), shown.outline[:, :2].max(axis=0)
    body = Placed(*(0.5 * (low + high)), *(0.5 * (high - low)))
    thin = 0.03 / per_metre
    lines = [
        Placed(float(x), float(y), thin, thin) for line in shown.lines for x, y, _ in _fine(line.main, per_metre)
    ]
    places = around([p for p, _, _ in labels], [t for _, t, _ in labels], per_metre, box, [*taken, body], lines)
    for (point, text, colour), at in zip(labels, places, strict=True):
        dry = banks is not None and not banks[0] < at.y < banks[1]
        axes.plot([point[0], at.x], [point[1], at.y], color=SOFT, linewidth=0.4, zorder=7.9)
        ground = halo(BED if dry else WATER)
        axes.text(at.x, at.y, text, ha="center", va="center", fontsize=SIZE, color=colour, bbox=ground, zorder=9)


def _fine(points: Floats, per_metre: float) -> Floats:
    """Points along a line, about a tenth of an inch apart."""
    way = np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(points[:, :2], axis=0), axis=1))])
    at = np.linspace(0.0, way[-1], max(2, int(10.0 * way[-1] * per_metre)))
    return np.stack([np.interp(at, way, column) for column in points.T], axis=1)


def _stream(axes: Axes, found: Equilibrium, corner: tuple[float, float], per_metre: float) -> list[Placed]:
    x, y = corner[0] + 0.1 / per_metre, corner[1] + 0.14 / per_metre
    arrow = {"arrowstyle": "-|>", "color": ACCENT, "linewidth": 1.2}
    axes.annotate("", (x + 0.42 / per_metre, y), (x, y), arrowprops=arrow, zorder=8)
    speed = f"stream {fmt.fixed(found.stream_speed, fmt.SPEED, 2)}"
    axes.text(x + 0.5 / per_metre, y, speed, ha="left", va="center", fontsize=SIZE, zorder=8)
    return [Placed(x + 0.75 / per_metre, y, 0.85 / per_metre, 0.1 / per_metre)]
