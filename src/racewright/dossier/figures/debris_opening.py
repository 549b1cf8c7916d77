"""Free opening of vanes and blades from hub to tip, and the longest stick by its angle."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, SECOND, SOFT, grid, halo, in_house_style, is_narrow, sheet
from racewright.passage.opening import Opening

_COLOURS = {"vanes": ACCENT, "blades": SECOND}


@in_house_style
def draw(free: Opening, width: float) -> Figure:
    """Opening over radius, stick over angle.

    Parameters
    ----------
    free : Opening
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    least, ball = (fmt.quantity(v, fmt.SMALL_LENGTH) for v in (free.smallest, free.sphere))
    title = f"The narrowest opening is {least}; a ball of {ball} passes both rows"
    figure = sheet(width, 5.2 if narrow else 2.9, title)
    radii, angles = figure.subplots(2, 1) if narrow else figure.subplots(1, 2)
    _radii(radii, free)
    _angles(angles, free)
    return figure


def _radii(axes: Axes, free: Opening) -> None:
    for row in (free.vanes, free.blades):
        colour = _COLOURS[row.name]
        axes.plot(row.radius, 1e3 * row.opening, color=colour)
        axes.text(row.radius[-1], 1e3 * row.opening[-1], f" {row.name}", color=colour, fontsize=8.0, va="center")
        axes.plot(row.sphere_radius, 1e3 * row.sphere, "o", color=colour, markersize=6.0, fillstyle="none")
    row = free.vanes
    axes.text(
        row.sphere_radius, 1e3 * row.sphere * 0.93, "largest ball (rings)", fontsize=7.5, color=INK, va="top",
        ha="left", bbox=halo(),
    )  # fmt: skip
    span = float(free.blades.radius[-1] - free.blades.radius[0])
    axes.set_xlim(float(free.blades.radius[0]) - 0.03 * span, float(free.blades.radius[-1]) + 0.22 * span)
    axes.set_ylim(0.0, 1.12e3 * max(float(free.vanes.opening.max()), float(free.blades.opening.max())))
    axes.set_xlabel("radius, m")
    axes.set_ylabel("between neighbours, mm")
    grid(axes)


def _angles(axes: Axes, free: Opening) -> None:
    angle = np.degrees(free.angle)
    most = max(3.0 * float(np.median(free.stick)), 2.0 * free.stick_anywhere)
    top = min(most, free.longest)
    axes.plot(angle, np.minimum(free.stick, top), color=ACCENT)
    bridging = free.bridging < top
    axes.plot(angle[bridging], free.bridging[bridging], color=SOFT, linewidth=1.1, dashes=(4, 2))
    axes.set_ylim(0.0, 1.08 * top)
    axes.set_xlim(-90.0, 90.0)
    axes.set_xticks((-90, -45, 0, 45, 90))
    axes.set_xlabel("angle of the stick from axial, °")
    axes.set_ylabel("longest stick, m")
    thick = fmt.quantity(free.stick_diameter, fmt.SMALL_LENGTH, 2)
    axes.set_title(
        f"{thick} thick, cut at {top:.2g} m;\ndashed: reaches from vane to blade",
        fontsize=7.5,
        loc="left",
        color=INK,
    )
    grid(axes)
