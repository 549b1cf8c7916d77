"""The machine in three dimensions, its duct cut open on the axis, water from the left."""

from __future__ import annotations

import math

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import PolyCollection
from matplotlib.colors import to_rgb
from matplotlib.figure import Figure
from numpy.typing import NDArray

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
    INK,
    SECOND,
    WIDE,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.machine.hub import Hub
from racewright.machine.hub_contour import hub_contour
from racewright.machine.row import Row
from racewright.machine.row_ends import standing
from racewright.machine.row_mesh import row_grid

Floats = NDArray[np.float64]

_TURN, _RAISE = math.radians(30.0), math.radians(20.0)
"""The eye stands this far upstream of abeam, and this far above the axis."""
_LIGHT = np.array([-0.35, 0.75, 0.56])
_VANES = "#9fabb2"
_CUT = "#0a4351"
_AROUND = 192
_TALLEST = 0.8
"""Height over width on a page."""
_DPI = 220.0
"""Of the shaded faces, which are too many for lines in a page."""


@in_house_style
def draw(duct: Duct, hub: Hub, vanes: Row, blades: Row, width: float = WIDE) -> Figure:
    """A shaded view to scale: the far half of the duct with its cut faces, hub, vanes and rotor whole.

    Parameters
    ----------
    duct, hub, vanes, blades
        The machine [m].
    width : float
        Width of the figure [in].
    """
    faces, colours = _scene(duct, hub, vanes, blades)
    seen = _seen(faces)
    order = np.argsort(seen[..., 2].mean(axis=1), kind="stable")
    flat = seen[order][..., :2]
    low, high = flat.min(axis=(0, 1)), flat.max(axis=(0, 1))
    tall = 1.3 * (high[1] - low[1])
    wide = max(1.45 * (high[0] - low[0]), tall / (0.95 if is_narrow(width) else _TALLEST))
    title = f"{vanes.count} vanes ahead of {blades.count} blades, the duct cut open on the axis"
    figure = sheet(width, width * tall / wide + 0.3, title)
    figure.set_dpi(_DPI)
    axes = figure.add_subplot()
    axes.set_axis_off()
    middle, off = 0.5 * (low + high), np.array([0.04 * (high[0] - low[0]), 0.0])
    axes.set(
        xlim=(middle[0] - off[0] - 0.5 * wide, middle[0] - off[0] + 0.5 * wide),
        ylim=(middle[1] - 0.5 * tall, middle[1] + 0.5 * tall),
        aspect="equal",
    )
    colour = colours[order]
    axes.add_collection(
        PolyCollection(list(flat), facecolors=colour, edgecolors=colour, linewidths=0.4, rasterized=True)
    )
    size = 7.0 if is_narrow(width) else 8.0
    _water(axes, low, high, size)
    _name(axes, _labels(duct, hub, vanes, blades), low, high, size)
    _bar(axes, duct, low, high, size)
    return figure


def _scene(duct: Duct, hub: Hub, vanes: Row, blades: Row) -> tuple[Floats, Floats]:
    """Four-cornered faces that look at the eye, shape (n, 4, 3), and their colours, shape (n, 3)."""
    x, r = duct_contour(duct, 60)
    back = np.linspace(math.pi, 2.0 * math.pi, _AROUND // 2 + 1)
    hub_x, hub_r = (one[::-1] for one in hub_contour(hub, 110))
    parts = [
        (_revolved(x[::-1], r[::-1], back), ACCENT),
        (_revolved(hub_x, hub_r, np.linspace(0.0, 2.0 * math.pi, _AROUND + 1)), BODY),
    ]
    for row, colour in ((vanes, _VANES), (blades, SECOND)):
        one = row_grid(standing(row, duct, hub, rooted=False), 24, 24)
        tip = np.stack([one[one.shape[0] // 2 :: -1, -1], one[one.shape[0] // 2 :, -1]])
        for k in range(row.count):
            turn = _turn(2.0 * math.pi * k / row.count)
            parts += [(one @ turn.T, colour), (tip @ turn.T, colour)]
    found = [(_quads(grid), colour) for grid, colour in parts]
    half = x.size // 2
    for angle in (0.0, math.pi):
        sides = [
            np.stack([a, math.cos(angle) * b, 0.0 * b], axis=-1)
            for a, b in ((x[half::-1], r[half::-1]), (x[half:], r[half:]))
        ]
        cut = np.stack(sides if angle else sides[::-1])
        found.append((_quads(cut), _CUT))
    faces = np.concatenate([quads for quads, _colour in found])
    plain = np.concatenate([np.tile(to_rgb(colour), (len(quads), 1)) for quads, colour in found])
    normals = np.cross(faces[:, 2] - faces[:, 0], faces[:, 3] - faces[:, 1])
    length = np.linalg.norm(normals, axis=1)
    normals /= np.where(length > 0.0, length, 1.0)[:, None]
    towards = (length > 0.0) & (_seen(normals)[:, 2] > 0.0)
    lit = 0.5 + 0.5 * np.clip(normals @ _LIGHT, -0.6, 1.0)
    shade = np.where(
        lit[:, None] < 0.75, plain * (0.45 + 0.73 * lit[:, None]), plain + (1.0 - plain) * (lit[:, None] - 0.75)
    )
    flat = np.all(plain == to_rgb(_CUT), axis=1)
    shade[flat] = plain[flat]
    return faces[towards], np.round(np.clip(shade[towards], 0.0, 1.0) * 48.0) / 48.0


def _revolved(x: Floats, r: Floats, angle: Floats) -> Floats:
    even = np.ones_like(angle)
    return np.stack([np.outer(x, even), np.outer(r, np.cos(angle)), np.outer(r, np.sin(angle))], axis=-1)


def _quads(grid: Floats) -> Floats:
    """Cells of a grid as corners in order; the normal is (along rows) x (along columns)."""
    corners = grid[:-1, :-1], grid[1:, :-1], grid[1:, 1:], grid[:-1, 1:]
    return np.stack(corners, axis=2).reshape(-1, 4, 3)


def _turn(angle: float) -> Floats:
    cosine, sine = math.cos(angle), math.sin(angle)
    return np.array([[1.0, 0.0, 0.0], [0.0, cosine, -sine], [0.0, sine, cosine]])


def _seen(points: Floats) -> Floats:
    """To the right, upwards, towards the eye."""
    x, y, z = np.moveaxis(points, -1, 0)
    right, near = x * math.cos(_TURN) + z * math.sin(_TURN), z * math.cos(_TURN) - x * math.sin(_TURN)
    return np.stack(
        [right, y * math.cos(_RAISE) - near * math.sin(_RAISE), y * math.sin(_RAISE) + near * math.cos(_RAISE)],
        axis=-1,
    )


def _labels(duct: Duct, hub: Hub, vanes: Row, blades: Row) -> list[tuple[str, Floats, int]]:
    """What is named, where it is seen, and whether its name stands above (1) or below (-1)."""
    x, r = duct_contour(duct, 28)
    nose, step = x.size // 2, x.size // 5
    cut = 0.5 * np.array([x[nose - step] + x[nose + step], r[nose - step] + r[nose + step], 0.0])
    tip = np.array([hub.nose_x + 0.05 * hub.nose_length, 0.0, 0.0])
    found = [("duct", _seen(cut), 1), ("hub", _seen(tip), -1)]
    for row in (vanes, blades):
        surface = standing(row, duct, hub, rooted=False).surface
        point = surface.point(np.array(-0.7), np.array(0.7 * row.radius[-1] + 0.3 * row.radius[0]))
        copies = [_seen(_turn(2.0 * math.pi * k / row.count) @ point) for k in range(row.count)]
        lowest = min(copies, key=lambda one: (one[2] <= 0.0, float(one[1])))
        found.append((f"{row.count} {row.kind}", lowest, -1))
    return found


def _name(axes: Axes, names: list[tuple[str, Floats, int]], low: Floats, high: Floats, size: float) -> None:
    """Names above and below the machine, each with a line to its place; those below keep apart."""
    room = 0.26 * (high[0] - low[0]) if size < 8.0 else 0.17 * (high[0] - low[0])
    last = -math.inf
    for text, (x, y, _near), side in sorted(names, key=lambda one: float(one[1][0])):
        end = high[1] + 0.05 * (high[1] - low[1]) if side > 0 else low[1] - 0.05 * (high[1] - low[1])
        at = float(x) if side > 0 else max(float(x), last + room)
        last = last if side > 0 else at
        axes.plot([x, at], [y, end], color=INK, linewidth=0.5)
        axes.plot([x], [y], marker="o", markersize=2.0, color=INK)
        axes.text(at, end, text, fontsize=size, ha="center", va="bottom" if side > 0 else "top", bbox=halo())


def _water(axes: Axes, low: Floats, high: Floats, size: float) -> None:
    span = high - low
    start, end = low[0] - 0.24 * span[0], low[0] - 0.05 * span[0]
    arrow = {"arrowstyle": "-|>", "color": ACCENT, "linewidth": 1.4, "shrinkA": 0, "shrinkB": 0}
    for share in (0.35, 0.65):
        y = low[1] + share * span[1]
        axes.annotate("", (end, y), (start, y), arrowprops=arrow)
    axes.text(start, low[1] + 0.5 * span[1], "water", fontsize=size, color=ACCENT, va="center")


def _bar(axes: Axes, duct: Duct, low: Floats, high: Floats, size: float) -> None:
    """A bar of a round length for what stands upright; lengths along the axis are seen shortened."""
    most = duct.throat_radius
    tens = 10.0 ** math.floor(math.log10(most))
    length = max(k * tens for k in (1.0, 2.0, 5.0) if k * tens <= most)
    x, y = high[0] + 0.09 * (high[0] - low[0]), low[1]
    axes.plot([x, x], [y, y + length * math.cos(_RAISE)], color=INK, linewidth=1.4)
    text = f"{length:g}{fmt.THIN}m upright"
    axes.text(x + 0.02 * (high[0] - low[0]), y, text, fontsize=size, rotation=90, ha="left", va="bottom")
