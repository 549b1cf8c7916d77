"""Velocity triangles at hub, mid and tip, before and behind the rotor, to one scale."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, SECOND, SOFT, halo, in_house_style, is_narrow, sheet
from racewright.stage.result import Triangles

PLACES = ("hub", "mid", "tip")


@dataclass(frozen=True)
class Triangle:
    """One triangle: axial, swirl and blade speed [m/s]; relative flow = flow - blade speed."""

    axial: float
    swirl: float
    blade: float

    @property
    def speed(self) -> float:
        """Flow speed [m/s]."""
        return float(np.hypot(self.axial, self.swirl))

    @property
    def relative(self) -> float:
        """Relative speed [m/s]."""
        return float(np.hypot(self.axial, self.swirl - self.blade))

    @property
    def flow_angle(self) -> float:
        """Flow angle from axial [rad]."""
        return float(np.arctan2(self.swirl, self.axial))

    @property
    def relative_angle(self) -> float:
        """Relative flow angle from axial [rad]."""
        return float(np.arctan2(self.swirl - self.blade, self.axial))


def stations(triangles: Triangles) -> tuple[int, int, int]:
    """Indices of hub, mid and tip; mid is the radius nearest to half-way."""
    r = triangles.radius
    return 0, int(np.argmin(np.abs(r - (r[0] + r[-1]) / 2))), len(r) - 1


def at(triangles: Triangles, index: int, *, behind: bool) -> Triangle:
    """The triangle before or behind the rotor at one radius."""
    swirl = triangles.swirl_out if behind else triangles.swirl_in
    return Triangle(float(triangles.axial_speed[index]), float(swirl[index]), float(triangles.blade_speed[index]))


@in_house_style
def draw(triangles: Triangles, width: float) -> Figure:
    """Six triangles on one scale; axial flow to the right, rotation upwards.

    Parameters
    ----------
    triangles : Triangles
        At the design point.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    picked = stations(triangles)
    all_of = [[at(triangles, i, behind=b) for i in picked] for b in (False, True)]
    grid = [list(pair) for pair in zip(*all_of, strict=True)] if narrow else all_of
    right = max(t.axial for row in grid for t in row)
    span = (-0.16 * right, (1.82 if narrow else 1.66) * right)
    boxes = [_box(row, right) for row in grid]
    tall = [high - low for low, high in boxes]
    rows, columns = len(grid), len(grid[0])
    per_inch = (span[1] - span[0]) / ((width - 0.1) / columns)
    figure = sheet(
        width,
        sum(tall) / per_inch + (0.4 if narrow else 0.27) * rows + (0.6 if narrow else 0.45),
        _title(all_of),
    )
    axes = figure.subplots(rows, columns, squeeze=False, gridspec_kw={"height_ratios": tall})
    for i, row in enumerate(grid):
        for j, triangle in enumerate(row):
            k, behind = (i, j) if narrow else (j, i)
            _draw_one(axes[i][j], triangle, (*span, *boxes[i]))
            radius = fmt.fixed(float(triangles.radius[picked[k]]), fmt.LENGTH, 2)
            joint = "\n" if narrow else ", "
            side = "behind the rotor" if behind else "before the rotor"
            axes[i][j].set_title(f"{PLACES[k]} ({radius}){joint}{side}", fontsize=8, loc="left", x=0.02)
    return figure


def _box(row: list[Triangle], right: float) -> tuple[float, float]:
    """Lowest and highest speed to show in one line of triangles, room for three labels at least [m/s]."""
    low = min(0.0, *(t.swirl - t.blade for t in row)) - 0.14 * right
    high = max(0.0, *(t.swirl for t in row)) + 0.14 * right
    return low, high


def _title(all_of: list[list[Triangle]]) -> str:
    hub, tip = all_of[0][0].swirl, all_of[0][-1].swirl
    swirl = f"{fmt.fixed(hub, fmt.SPEED, 2)} at the hub and {fmt.fixed(tip, fmt.SPEED, 2)} at the tip"
    return f"Velocity triangles to one scale, m/s and degrees from axial: swirl of {swirl}"


def _draw_one(axes: Axes, t: Triangle, box: tuple[float, float, float, float]) -> None:
    axes.set(xlim=box[:2], ylim=box[2:], aspect="equal")
    axes.set_axis_off()
    axes.plot([box[0] * 0.6, t.axial * 1.12], [0, 0], color=SOFT, linewidth=0.5, dashes=(8, 3, 2, 3))
    _vector(axes, (0, 0), (t.axial, t.swirl - t.blade), SECOND)
    _vector(axes, (t.axial, t.swirl - t.blade), (t.axial, t.swirl), INK)
    _vector(axes, (0, 0), (t.axial, t.swirl), ACCENT)
    gap = 0.04 * (box[1] - box[0])
    relative_y = t.swirl - t.blade
    label_y = [t.swirl, (t.swirl + relative_y) / 2, relative_y]
    need = 0.17 * (box[1] - box[0]) / 1.8
    if label_y[0] - label_y[1] < need:
        label_y[0], label_y[2] = label_y[1] + need, label_y[1] - need
    names = (
        ("flow", t.speed, t.flow_angle, ACCENT),
        ("blade", t.blade, None, INK),
        ("relative", t.relative, t.relative_angle, SECOND),
    )
    for y, (name, speed, angle, colour) in zip(label_y, names, strict=True):
        turned = "" if angle is None else f", {fmt.number(float(np.degrees(angle)), 0)}°"
        axes.text(
            t.axial + gap,
            y,
            f"{name} {fmt.number(speed, 2)}{turned}",
            ha="left",
            va="center",
            fontsize=7.2,
            color=colour,
            bbox=halo(),
        )


def _vector(axes: Axes, tail: tuple[float, float], head: tuple[float, float], colour: str) -> None:
    axes.annotate(
        "",
        head,
        tail,
        arrowprops={
            "arrowstyle": "-|>,head_width=0.16,head_length=0.4",
            "color": colour,
            "linewidth": 1.3,
            "shrinkA": 0,
            "shrinkB": 0,
        },
    )
