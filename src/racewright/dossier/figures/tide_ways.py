"""Flood and ebb: where they run to, and how much of the time each passes which speed."""

from __future__ import annotations

import math

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    RULE,
    SECOND,
    SOFT,
    grid,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.place.tide_site import TidalSite
from racewright.place.tide_ways import TideWay

_COLOUR = {"flood": ACCENT, "ebb": SECOND}


@in_house_style
def draw(site: TidalSite, width: float, *, cut_in_speed: float | None = None) -> Figure:
    """Duration curves of flood and ebb; beside them their directions where these are known.

    Parameters
    ----------
    site : TidalSite
    width : float
        Width of the figure [in].
    cut_in_speed : float or None
        Marked where given [m/s].
    """
    narrow = is_narrow(width)
    known = [way for way in site.ways if way.direction is not None]
    figure = sheet(width, 5.4 if narrow and known else 3.3, _title(site))
    if not known:
        _draw_curves(figure.add_subplot(), site, cut_in_speed)
        return figure
    ratios = {"height_ratios": [1.0, 1.0]} if narrow else {"width_ratios": [1.45, 1.0]}
    spec = figure.add_gridspec(2, 1, **ratios) if narrow else figure.add_gridspec(1, 2, **ratios)
    _draw_curves(figure.add_subplot(spec[0]), site, cut_in_speed)
    _draw_compass(figure.add_subplot(spec[1]), known)
    return figure


def _draw_curves(axes: Axes, site: TidalSite, cut_in_speed: float | None) -> None:
    for way in site.ways:
        axes.plot(
            100.0 * way.curve.exceedance,
            way.curve.value,
            color=_COLOUR[way.name],
            linestyle="-" if way.name == "flood" else (0, (5, 1.5)),
            label=f"{way.name}, {100.0 * way.time_share:.0f} % of the time",
        )
    if cut_in_speed is not None:
        axes.axhline(cut_in_speed, color=INK, linewidth=0.8, linestyle=(0, (2, 2)))
        axes.annotate(
            f"cut-in {cut_in_speed:g} m/s",
            (1.0, cut_in_speed),
            (-2, 4),
            xycoords=("axes fraction", "data"),
            textcoords="offset points",
            ha="right",
            va="bottom",
            fontsize=7.5,
        )
    axes.legend(loc="upper right", frameon=False, fontsize=7.5)
    axes.set_xlim(0.0, 1.08 * max(100.0 * way.time_share for way in site.ways))
    axes.set_ylim(bottom=0.0)
    axes.set_xlabel("share of all time reached or passed, %")
    axes.set_ylabel("stream speed, m/s")
    grid(axes)


def _draw_compass(axes: Axes, known: list[TideWay]) -> None:
    """Arrows as long as the cube-mean speed, on a card with north up; the wedge is one standard deviation."""
    longest = max(way.cube_speed for way in known)
    turn = np.linspace(0.0, 2.0 * math.pi, 181)
    axes.plot(1.12 * np.sin(turn), 1.12 * np.cos(turn), color=RULE, linewidth=0.8)
    for name, angle in (("N", 0.0), ("E", 90.0), ("S", 180.0), ("W", 270.0)):
        x, y = math.sin(math.radians(angle)), math.cos(math.radians(angle))
        axes.text(1.25 * x, 1.25 * y, name, ha="center", va="center", fontsize=7.5, color=SOFT)
    for place, way in enumerate(known):
        heading, spread = way.direction or 0.0, way.spread or 0.0
        reach, colour = way.cube_speed / longest, _COLOUR[way.name]
        fan = heading + np.linspace(-spread, spread, 15)
        axes.fill(
            np.concatenate(([0.0], reach * np.sin(fan))),
            np.concatenate(([0.0], reach * np.cos(fan))),
            color=colour,
            alpha=0.25,
            linewidth=0,
        )
        x, y = reach * math.sin(heading), reach * math.cos(heading)
        axes.annotate("", (x, y), (0.0, 0.0), arrowprops={"arrowstyle": "-|>", "color": colour, "linewidth": 1.6})
        degrees = math.degrees(heading) % 360.0
        told = f"{way.name} to {degrees:.0f}\u00b0, {way.cube_speed:.2f} m/s"
        axes.text(0.0, -1.6 - 0.26 * place, told, ha="center", va="center", fontsize=7.5, color=colour)
    axes.set(xlim=(-1.4, 1.4), ylim=(-2.05, 1.4), aspect="equal")
    axes.set_axis_off()
    axes.set_title("directions, cube-mean speeds", fontsize=8.0)


def _title(site: TidalSite) -> str:
    first = max(site.ways, key=lambda way: way.cube_share)
    told = f"The {first.name} holds {100.0 * first.cube_share:.0f} % of the water's energy"
    if site.way == "fixed":
        other = "nothing of the other direction is counted"
        return f"{told}; the machine faces the {site.faces}, and {other}"
    if site.misalignment is None:
        return told
    return f"{told}; flood and ebb are {abs(math.degrees(site.misalignment)):.0f}\u00b0 out of line"
