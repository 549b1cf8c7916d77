"""The model in its water channel, to scale: seen along the stream and from the side."""

from __future__ import annotations

import math
from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Rectangle

from racewright.dossier import format as fmt
from racewright.dossier.figures import dimension
from racewright.dossier.figures.house import (
    ACCENT,
    BED,
    BODY,
    INK,
    PAPER,
    SECOND,
    SOFT,
    WATER,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title
from racewright.dossier.figures.section import draw_section, extent
from racewright.dossier.trials_view import ChannelShape
from racewright.ledger.findings import MachineFindings

_EDGE = 0.46
"""Room about the water for dimension lines [in]."""
_WALL = 0.09
"""Drawn thickness of walls and floor [in]; what they are made of is not known."""
_TALLEST = 2.6
"""Most of the water's depth in a drawing [in]."""
_FLAT = 0.9
"""Least depth of water in a drawing before the views get scales of their own [in]."""
_LEAST = 0.9
"""Least length of the side view over the depth."""


@in_house_style
def draw(channel: ChannelShape, machine: MachineFindings, surface: str, width: float, *, invented: bool) -> Figure:
    """Two views on one scale; the water comes from the left in the second.

    Parameters
    ----------
    channel : ChannelShape
    machine : MachineFindings
        Its duct, hub and rows.
    surface : str
        'free' or 'lid'.
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the data are invented.
    """
    ends = _ends(channel, machine, narrow=is_narrow(width))
    plan = _plan(channel, ends[1] - ends[0], width)
    high = [channel.depth * scale + 2.0 * _EDGE for scale in plan.scales]
    title = _title(channel, machine, surface, invented=invented)
    if plan.stacked:
        figure = sheet(width, sum(high) + 1.25, title)
        views = figure.subplots(2, 1, height_ratios=high)
    else:
        figure = sheet(width, high[0] + 0.75, title)
        views = figure.subplots(
            1, 2, width_ratios=[channel.width + 2.0 * plan.edge(0), ends[1] - ends[0] + 2.0 * plan.edge(1)]
        )
    half = 0.5 * channel.width
    larger = ", on a larger scale" if plan.scales[1] > plan.scales[0] else ""
    for k, (left, right, name) in enumerate(
        ((-half, half, "seen along the stream"), (*ends, f"seen from the side{larger}"))
    ):
        edge, more = plan.edge(k), 0.0
        if plan.stacked:
            more = 0.5 * max(0.0, (width - 0.3) / plan.scales[k] - (right - left) - 2.0 * edge)
        views[k].set(
            xlim=(left - edge - more, right + edge + more), ylim=(-edge, channel.depth + edge), aspect="equal"
        )
        views[k].set_axis_off()
        views[k].set_title(name, fontsize=8, loc="left")
    _along(views[0], channel, machine, surface, plan.scales[0])
    _side(views[1], channel, machine, surface, ends, plan.scales[1])
    return figure


@dataclass(frozen=True)
class _Plan:
    """Scales of the two views [in/m], and whether one stands below the other."""

    scales: tuple[float, float]
    stacked: bool

    def edge(self, view: int) -> float:
        """Room about the water for dimension lines [m]."""
        return _EDGE / self.scales[view]


def _plan(channel: ChannelShape, long: float, width: float) -> _Plan:
    """One scale for both, unless the channel is so wide that the model could not be seen."""
    tallest = _TALLEST / channel.depth
    beside = min((width - 0.3 - 4.0 * _EDGE) / (channel.width + long), tallest)
    if not is_narrow(width) and beside * channel.depth >= _FLAT:
        return _Plan((beside, beside), stacked=False)
    room = width - 0.3 - 2.0 * _EDGE
    along, side = min(room / channel.width, tallest), min(room / long, tallest)
    if along * channel.depth >= _FLAT:
        along = side = min(along, side)
    return _Plan((along, side), stacked=True)


def _ends(channel: ChannelShape, machine: MachineFindings, *, narrow: bool) -> tuple[float, float]:
    """Where the side view begins and ends, from the duct's leading edge [m]."""
    start, end = extent(machine)
    span = 2.0 * channel.duct_radius
    ends = (start - 1.3 * span, end + (1.0 if narrow else 1.6) * span)
    short = max(0.0, _LEAST * channel.depth - (ends[1] - ends[0]))
    return ends[0] - 0.4 * short, ends[1] + 0.6 * short


def _title(channel: ChannelShape, machine: MachineFindings, surface: str, *, invented: bool) -> str:
    area = channel.width * channel.depth
    said = (
        f"In water {fmt.quantity(channel.width, fmt.LENGTH)} wide and {fmt.quantity(channel.depth, fmt.LENGTH)} deep "
        f"the duct's circle blocks {fmt.quantity(channel.blockage, fmt.SHARE, 2)}, the rotor annulus "
        f"{fmt.quantity(machine.flow.annulus_area / area, fmt.SHARE, 2)}"
    )
    if surface != "free":
        said += "; under a lid"
    elif channel.froude is not None:
        said += f"; Froude number {fmt.number(0.5 * sum(channel.froude), 2)}"
    return invented_title(said, invented=invented)


def _water(axes: Axes, channel: ChannelShape, across: tuple[float, float], wall: float, surface: str) -> None:
    """Water above its floor, the surface or a lid."""
    left, right = across
    axes.add_patch(Rectangle((left, -wall), right - left, wall, color=BED, linewidth=0))
    axes.add_patch(Rectangle((left, 0.0), right - left, channel.depth, color=WATER, linewidth=0))
    axes.plot(across, (0.0, 0.0), color=INK, linewidth=0.8, zorder=3)
    if surface == "free":
        axes.plot(across, (channel.depth, channel.depth), color=ACCENT, linewidth=1.2, zorder=3)
    else:
        axes.add_patch(Rectangle((left, channel.depth), right - left, wall, color=BODY, linewidth=0, zorder=3))


def _along(axes: Axes, channel: ChannelShape, machine: MachineFindings, surface: str, per_metre: float) -> None:
    half, depth, axis = 0.5 * channel.width, channel.depth, channel.axis_height
    wall = _WALL / per_metre
    for left in (-half - wall, half):
        axes.add_patch(Rectangle((left, -wall), wall, depth + 2.0 * wall, color=BED, linewidth=0))
    _water(axes, channel, (-half, half), wall, surface)
    _front(axes, channel, machine)
    out = 0.3 / per_metre
    dimension.upright(axes, -half - out, 0.0, depth, fmt.quantity(depth, fmt.LENGTH), PAPER)
    _level(axes, -out, (-half, half), fmt.quantity(channel.width, fmt.LENGTH), per_metre)
    dimension.witness(axes, (0.0, half + out), (axis, axis))
    axes_word = f"axis {fmt.quantity(axis, fmt.LENGTH)}"
    dimension.upright(axes, half + out, 0.0, axis, axes_word, PAPER)
    for x in (-channel.duct_radius, channel.duct_radius):
        dimension.witness(axes, (x, x), (axis, depth + out))
    _level(
        axes,
        depth + out,
        (-channel.duct_radius, channel.duct_radius),
        fmt.quantity(2.0 * channel.duct_radius, fmt.LENGTH),
        per_metre,
    )


def _front(axes: Axes, channel: ChannelShape, machine: MachineFindings) -> None:
    """Duct, blades and hub from upstream."""
    axis, throat = (0.0, channel.axis_height), machine.unit.duct.throat_radius
    tip, hub = float(machine.blades.radius[-1]), machine.unit.hub.radius
    axes.add_patch(Circle(axis, channel.duct_radius, facecolor=ACCENT, linewidth=0, zorder=4))
    axes.add_patch(Circle(axis, throat, facecolor=WATER, linewidth=0, zorder=5))
    for k in range(machine.blades.count):
        turn = 0.5 * math.pi + 2.0 * math.pi * k / machine.blades.count
        reach = min(tip, throat)
        axes.plot(
            [hub * math.cos(turn), reach * math.cos(turn)],
            [axis[1] + hub * math.sin(turn), axis[1] + reach * math.sin(turn)],
            color=SECOND,
            linewidth=1.6,
            solid_capstyle="butt",
            zorder=6,
        )
    axes.add_patch(Circle(axis, hub, facecolor=BODY, linewidth=0, zorder=7))


def _side(
    axes: Axes,
    channel: ChannelShape,
    machine: MachineFindings,
    surface: str,
    ends: tuple[float, float],
    per_metre: float,
) -> None:
    depth, axis = channel.depth, channel.axis_height
    _water(axes, channel, ends, _WALL / per_metre, surface)
    draw_section(axes, machine, axis)
    out = 0.3 / per_metre
    start, end = (float(f(machine.flow.duct_x)) for f in (min, max))
    for x in (start, end):
        dimension.witness(axes, (x, x), (axis - channel.duct_radius, -out))
    _level(axes, -out, (start, end), fmt.quantity(end - start, fmt.LENGTH), per_metre)
    dimension.witness(axes, (extent(machine)[1], ends[1] + 0.5 * out), (axis, axis))
    under = fmt.quantity(depth - axis, fmt.LENGTH)
    dimension.upright(axes, ends[1] + 0.5 * out, axis, depth, under, PAPER)
    begin = ends[0] + 0.08 / per_metre
    axes.annotate(
        "",
        (begin + 0.38 / per_metre, axis),
        (begin, axis),
        arrowprops={"arrowstyle": "-|>", "color": INK, "linewidth": 1.2, "shrinkA": 0, "shrinkB": 0},
        zorder=8,
    )
    if channel.speed is not None:
        speed = fmt.fixed(channel.speed, fmt.SPEED, 2)
        axes.text(begin, axis + 0.07 / per_metre, speed, ha="left", va="bottom", fontsize=7.5, zorder=8)
    word, above = ("water surface", 0.03) if surface == "free" else ("lid", _WALL + 0.03)
    axes.text(ends[0], depth + above / per_metre, word, ha="left", va="bottom", fontsize=7.5, zorder=8)


def _level(axes: Axes, y: float, across: tuple[float, float], label: str, per_metre: float) -> None:
    """A horizontal dimension line; where it is shorter than its label the label stands beside it."""
    if (across[1] - across[0]) * per_metre > 0.062 * len(label) + 0.35:
        dimension.level(axes, y, *across, label, PAPER)
        return
    for x, side in ((across[0], -1.0), (across[1], 1.0)):
        axes.annotate(
            "",
            (x, y),
            (x + side * 0.16 / per_metre, y),
            arrowprops={
                "arrowstyle": "-|>,head_width=0.12,head_length=0.28",
                "color": INK,
                "linewidth": 0.6,
                "shrinkA": 0,
                "shrinkB": 0,
            },
            zorder=8,
        )
    axes.plot(across, (y, y), color=SOFT, linewidth=0.4, zorder=7)
    axes.text(across[1] + 0.2 / per_metre, y, label, ha="left", va="center", fontsize=7.5, bbox=halo(PAPER), zorder=9)
