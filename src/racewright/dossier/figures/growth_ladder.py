"""The sizes of a machine: all to one scale, and each large enough to be seen."""

from __future__ import annotations

import math
from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.dimension import scale_bar
from racewright.dossier.figures.house import INK, SOFT, in_house_style, is_narrow, sheet
from racewright.dossier.figures.label import label
from racewright.dossier.figures.section import draw_section, extent, outer_radius
from racewright.growth.step import SolvedStep

_STRIP = 1.75
"""Height of the drawing to one scale [in]."""
_LETTER = 0.066
"""Width of a letter n in the names [in]."""


@in_house_style
def draw(steps: Sequence[SolvedStep], width: float) -> Figure:
    """Machines side by side, flow from the left.

    Parameters
    ----------
    steps : sequence of SolvedStep
        Two to five, in order.
    width : float
        Width of the figure [in].
    """
    count = len(steps)
    stacked = is_narrow(width) or count > 3
    row = 1.15
    panels = row * count if stacked else 2.15
    figure = sheet(width, 0.5 + _STRIP + panels, _title(steps))
    parts = figure.subfigures(2, 1, height_ratios=(_STRIP, panels), squeeze=False)
    top, bottom = parts[0, 0], parts[1, 0]
    _one_scale(top.add_subplot(), steps, width)
    if stacked:
        cells = bottom.subplots(count, 2, width_ratios=(1.0, 1.25), squeeze=False)
        for solved, (drawn, told) in zip(steps, cells, strict=True):
            _alone(drawn, solved)
            told.set_axis_off()
            _facts(told, solved, 0.0, 0.5, "left", "center")
    else:
        cells = bottom.subplots(2, count, height_ratios=(1.2, 0.8), squeeze=False)
        for i, solved in enumerate(steps):
            _alone(cells[0, i], solved)
            cells[1, i].set_axis_off()
            _facts(cells[1, i], solved, 0.5, 1.0, "center", "top")
    return figure


def _one_scale(axes: Axes, steps: Sequence[SolvedStep], width: float) -> None:
    """Every machine at the same scale, on one axis line, evenly spaced."""
    tallest = max(2.0 * outer_radius(one.step) for one in steps)
    span = tallest * 1.3 * (width - 0.2) / _STRIP
    longest = [extent(one.step)[1] - extent(one.step)[0] for one in steps]
    free = span - sum(longest)
    if free < 0.2 * span:
        span = sum(longest) / 0.75
        free = 0.25 * span
    gap, place = free / (len(steps) + 1), 0.0
    most = int(min(max(1.9 * gap / span * width / _LETTER, 8.0), 22.0))
    for i, (one, long) in enumerate(zip(steps, longest, strict=True)):
        place += gap
        draw_section(axes, one.step, shift=place - extent(one.step)[0])
        high = outer_radius(one.step)
        side = -1.0 if i % 2 and high < 0.15 * tallest else 1.0  # small ones take turns, so that names keep apart
        axes.text(
            place + 0.5 * long,
            side * (high + 0.06 * tallest),
            label(one.step.name, most),
            ha="center",
            va="bottom" if side > 0.0 else "top",
            fontsize=7.5,
        )
        place += long
    axes.set(xlim=(0.0, span), ylim=(-0.58 * tallest, 0.74 * tallest), aspect="equal")
    axes.set_axis_off()
    scale_bar(
        axes, 0.34 * gap + 0.2 * min(span, 1.4 * tallest), -0.5 * tallest, min(span, 1.4 * tallest), 0.02 * tallest
    )


def _alone(axes: Axes, solved: SolvedStep) -> None:
    """One machine, as large as its panel lets it be."""
    step = solved.step
    draw_section(axes, step)
    start, end = extent(step)
    high, margin = outer_radius(step), 0.14 * (end - start)
    axes.set(xlim=(start - margin, end + margin), ylim=(-1.45 * high, 1.06 * high), aspect="equal")
    axes.set_axis_off()
    scale_bar(axes, end, -1.38 * high, 2.0 * (end - start), 0.04 * high)


def _facts(axes: Axes, solved: SolvedStep, x: float, y: float, side: str, hold: str) -> None:
    step, point = solved.step, solved.point
    lines = (
        f"throat {fmt.quantity(step.throat_diameter, fmt.LENGTH)}, stream "
        f"{fmt.quantity(point.stream_speed, fmt.SPEED)}",
        f"shaft {fmt.quantity(point.shaft_power, fmt.POWER)} at {fmt.quantity(point.rotor_speed, fmt.ROTATION)}",
        f"torque {fmt.quantity(point.torque, fmt.TORQUE)}",
        f"thrust {fmt.quantity(point.thrust, fmt.FORCE)}",
    )
    axes.text(
        x, y, "\n".join(lines), transform=axes.transAxes, ha=side, va=hold, fontsize=7.5, color=INK, linespacing=1.4
    )
    name = label(step.name, 22)
    axes.text(
        x,
        y + (0.42 if hold == "center" else 0.2),
        name,
        transform=axes.transAxes,
        ha=side,
        va=hold,
        fontsize=8.0,
        fontweight="bold",
        color=SOFT,
    )


def _title(steps: Sequence[SolvedStep]) -> str:
    first, last = steps[0], steps[-1]
    size = last.step.throat_diameter / first.step.throat_diameter
    torque = last.point.torque / first.point.torque
    return (
        f"From {label(first.step.name, 13)} to {label(last.step.name, 13)}: {_times(size)} the size, "
        f"{_times(torque)} the torque"
    )


def _times(ratio: float) -> str:
    places = 1 - math.floor(math.log10(ratio))
    return f"{fmt.number(ratio, min(places, 2))} times"
