"""The machine in its stream: water column, section, computed streamlines, all to one scale."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter, MaxNLocator

from racewright.dossier import format as fmt
from racewright.dossier.figures import dimension
from racewright.dossier.figures.column import column_of, draw_water
from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    SOFT,
    WATER,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.section import draw_section, extent, outer_radius
from racewright.ledger.findings import MachineFindings, PlaceFindings

_FAR = 2.6
"""Surface or bed further from the axis than so many duct diameters is left out of the drawing."""


@in_house_style
def draw(machine: MachineFindings, place: PlaceFindings | None, width: float) -> Figure:
    """Side view with the flow from left to right.

    Parameters
    ----------
    machine : MachineFindings
    place : PlaceFindings or None
        Gives surface and bed at median flow; without it the machine hangs in open water.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    outer = outer_radius(machine)
    start, end = extent(machine)
    column = column_of(place)
    span = 2 * outer
    left = start - (1.0 if narrow else 1.25) * span
    right = end + (0.8 if narrow else 1.5) * span
    top, bottom = 1.25 * span, -1.25 * span
    if column.surface is not None and column.surface < _FAR * span:
        top = max(column.surface + 0.22 * span, 0.75 * span)
    if column.bed is not None and -column.bed < _FAR * span:
        bottom = min(column.bed - 0.22 * span, -0.75 * span)
    height = (width - 0.65) * (top - bottom) / (right - left) + 0.85 + (0.2 if narrow else 0.0)
    figure = sheet(width, height, _title(machine, place))
    axes = figure.add_subplot()
    axes.set(xlim=(left, right), ylim=(bottom, top), aspect="equal", facecolor=WATER)
    draw_water(axes, column, (left, right), (bottom, top))
    _draw_lines(axes, machine, left, outer)
    draw_section(axes, machine)
    _draw_dimensions(axes, machine, narrow)
    mark = -0.04 * span
    dimension.scale_bar(
        axes, right - 0.08 * span, max(bottom, column.bed or bottom) - 2.4 * mark, right - left, -mark / 2
    )
    _draw_flow(axes, machine, left, span, narrow)
    axes.set_xlabel("distance from the duct's leading edge, m")
    zero = column.surface or 0.0
    axes.yaxis.set_major_locator(_Shifted(zero))
    axes.yaxis.set_major_formatter(FuncFormatter(lambda y, _: f"{abs(round(zero - y, 6)):g}"))
    axes.set_ylabel("distance from the axis, m" if column.surface is None else "depth at median flow, m")
    return figure


class _Shifted(MaxNLocator):
    """Round ticks counted from a zero that is not the data's."""

    def __init__(self, zero: float) -> None:
        super().__init__(nbins=6, steps=[1, 2, 5, 10])
        self._zero = zero

    def tick_values(self, vmin: float, vmax: float) -> list[float]:
        ticks = [t + self._zero for t in super().tick_values(vmin - self._zero, vmax - self._zero)]
        return ticks if self._zero == 0.0 else [t for t in ticks if t <= self._zero + 1e-9]


def _title(machine: MachineFindings, place: PlaceFindings | None) -> str:
    faster = fmt.number(machine.design_point.speed_ratio, 2)
    where = "in open water" if place is None else "in its stream"
    return f"The machine {where}, to scale: the water passes the rotor at {faster} times the stream speed"


def _draw_lines(axes: Axes, machine: MachineFindings, left: float, outer: float) -> None:
    lines = machine.streamlines
    for x, r, captured in zip(lines.x, lines.r, lines.captured, strict=True):
        for side in (1.0, -1.0):
            axes.plot(
                x,
                side * r,
                color=ACCENT if captured else SOFT,
                linewidth=1.0 if captured else 0.6,
                dashes=(None, None) if captured else (3, 2.2),
                zorder=3,
            )
    for wanted, label in ((True, "passes the rotor"), (False, "passes outside")):
        at = [
            float(np.interp(left, x, r))
            for x, r, c in zip(lines.x, lines.r, lines.captured, strict=True)
            if bool(c) == wanted
        ]
        if at:
            axes.text(
                left + 0.02 * outer,
                max(at) if wanted else -min(at),
                label,
                ha="left",
                va="center",
                fontsize=7.5,
                color=ACCENT if wanted else SOFT,
                bbox=halo(WATER),
                zorder=8,
            )


def _draw_dimensions(axes: Axes, machine: MachineFindings, narrow: bool) -> None:
    unit = machine.unit
    outer = outer_radius(machine)
    span = 2 * outer
    throat = unit.duct.throat_radius
    end = float(np.max(machine.flow.duct_x))
    start = float(np.min(machine.flow.duct_x))
    inner = machine.flow.duct_x[int(np.argmin(machine.flow.duct_r))]
    place = extent(machine)[0] - 0.1 * span
    for y in (throat, -throat):
        dimension.witness(axes, (place, float(inner)), (y, y))
    dimension.upright(axes, place, -throat, throat, fmt.fixed(2 * throat, fmt.LENGTH, 2), WATER)
    widest = machine.flow.duct_x[int(np.argmax(machine.flow.duct_r))]
    far = max(end, extent(machine)[1]) + (0.16 if narrow else 0.25) * span
    for y in (outer, -outer):
        dimension.witness(axes, (float(widest), far), (y, y))
    dimension.upright(axes, far, -outer, outer, fmt.fixed(2 * outer, fmt.LENGTH, 2), WATER)
    under = -outer - 0.14 * span
    for x, r in ((start, _radius_at(machine, start)), (end, _radius_at(machine, end))):
        dimension.witness(axes, (x, x), (-r, under))
    dimension.level(axes, under, start, end, fmt.fixed(end - start, fmt.LENGTH, 2), WATER)
    above = outer + 0.14 * span
    middle = (unit.hub.radius + throat) / 2
    apart = 0.16 * span if narrow else 0.1 * span
    dimension.leader(axes, (machine.vanes.place_x, middle), (machine.vanes.place_x - apart, above), "vanes", WATER)
    dimension.leader(axes, (machine.blades.place_x, middle), (machine.blades.place_x + apart, above), "rotor", WATER)


def _radius_at(machine: MachineFindings, x: float) -> float:
    """Radius of the contour point nearest to an axial place [m]."""
    return float(machine.flow.duct_r[int(np.argmin(np.abs(machine.flow.duct_x - x)))])


def _draw_flow(axes: Axes, machine: MachineFindings, left: float, span: float, narrow: bool) -> None:
    length = (0.26 if narrow else 0.34) * span
    begin = left + 0.05 * span
    axes.annotate(
        "",
        (begin + length, 0.0),
        (begin, 0.0),
        arrowprops={"arrowstyle": "-|>", "color": INK, "linewidth": 1.2, "shrinkA": 0, "shrinkB": 0},
        zorder=8,
    )
    axes.text(
        left + 0.01 * span,
        0.06 * span,
        f"design {fmt.fixed(machine.design_point.stream_speed, fmt.SPEED, 2)}",
        ha="left",
        va="bottom",
        fontsize=7.5,
        bbox=halo(WATER),
        zorder=8,
    )
