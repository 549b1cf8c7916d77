"""The small drawing of page one: the machine's section alone, with its throat diameter."""

from __future__ import annotations

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import INK, SOFT, in_house_style
from racewright.dossier.figures.section import draw_section, extent, outer_radius
from racewright.ledger.findings import MachineFindings


@in_house_style
def draw(machine: MachineFindings, width: float = 2.1) -> Figure:
    """Side view to scale, flow from the left.

    Parameters
    ----------
    machine : MachineFindings
    width : float
        Width of the figure [in].
    """
    outer = outer_radius(machine)
    start, end = extent(machine)
    margin = 0.16 * (end - start)
    left, right = start - 3.6 * margin, end + margin
    top = 1.12 * outer
    figure = Figure(figsize=(width, width * 2 * top / (right - left)))
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set(xlim=(left, right), ylim=(-top, top), aspect="equal")
    axes.set_axis_off()
    draw_section(axes, machine)
    place = start - 1.6 * margin
    throat = machine.unit.duct.throat_radius
    arrow = {"arrowstyle": "<->", "color": INK, "linewidth": 0.6, "shrinkA": 0, "shrinkB": 0}
    axes.annotate("", (place, throat), (place, -throat), arrowprops=arrow)
    inner = start + machine.unit.duct.length * 0.3
    for y in (throat, -throat):
        axes.plot([place, inner], [y, y], color=SOFT, linewidth=0.4)
    axes.text(
        place - 0.25 * margin,
        0.0,
        fmt.quantity(2 * throat, fmt.LENGTH),
        rotation=90,
        ha="right",
        va="center",
        fontsize=7.5,
    )
    return figure
