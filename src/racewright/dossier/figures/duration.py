"""How much of the year the water gives what, and at which speeds the energy is made."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from numpy.typing import NDArray

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    PAPER,
    grid,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.place.result import Site
from racewright.supply.result import YearlyEnergy


@in_house_style
def draw(site: Site, energy: YearlyEnergy | None, width: float) -> Figure:
    """Duration curve and, where energy is known, its share by speed.

    Parameters
    ----------
    site : Site
        Its discharge curve is drawn, else its speed curve, else the one its speed climate gives.
    energy : YearlyEnergy or None
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    panels = 1 if energy is None else 2
    rows, columns = (panels, 1) if narrow else (1, panels)
    height = 0.5 + 2.6 * rows if narrow else 3.3
    figure = sheet(width, height, _title(site, energy))
    axes = figure.subplots(rows, columns, squeeze=False)
    flat = list(axes.flat)
    _draw_duration(flat[0], site)
    if energy is not None:
        _draw_energy(flat[1], energy)
    return figure


def curve_of(site: Site) -> tuple[str, NDArray[np.float64], NDArray[np.float64]]:
    """Kind ('discharge' or 'speed'), values in falling order, share of time each is reached or passed."""
    if site.discharge_curve is not None:
        return "discharge", site.discharge_curve.value, site.discharge_curve.exceedance
    if site.speed_curve is not None:
        return "speed", site.speed_curve.value, site.speed_curve.exceedance
    passed = 1.0 - np.concatenate([[0.0], np.cumsum(site.climate.share)])
    return "speed", site.climate.edge[::-1], np.clip(passed[::-1], 0.0, 1.0)


def _draw_duration(axes: Axes, site: Site) -> None:
    kind, value, passed = curve_of(site)
    axes.plot(100 * passed, value, color=ACCENT)
    if kind == "discharge" and value.size and value[-1] > 0 and value[0] / value[-1] > 20:
        axes.set_yscale("log")
        axes.yaxis.set_major_formatter(lambda v, _: f"{v:g}")
    else:
        axes.set_ylim(bottom=0)
    unit = fmt.DISCHARGE if kind == "discharge" else fmt.SPEED
    for share, name, offset, side in (
        (0.05, "Q5", (5, 0), "left"),
        (0.5, "Q50", (4, 7), "left"),
        (0.95, "Q95", (-6, -7) if axes.get_yscale() == "log" else (4, 15), "right"),
    ):
        y = float(np.interp(share, passed, value))
        axes.plot(
            [100 * share],
            [y],
            marker="o",
            markersize=4.5,
            color=PAPER,
            markeredgecolor=INK,
            markeredgewidth=1.1,
        )
        axes.annotate(
            f"{name} {fmt.quantity(y, unit)}",
            (100 * share, y),
            offset,
            textcoords="offset points",
            ha=side,
            va="center",
            fontsize=7.5,
            bbox=halo(),
            annotation_clip=False,
        )
    axes.set_xlim(0, 100)
    axes.set_xlabel("share of the year reached or passed, %")
    axes.set_ylabel(f"{kind}, {unit[0].unit}")
    grid(axes)


def _draw_energy(axes: Axes, energy: YearlyEnergy) -> None:
    total = float(np.sum(energy.energy))
    share = 100 * energy.energy / total if total > 0 else np.zeros_like(energy.energy)
    step = float(np.median(np.diff(energy.speed))) if energy.speed.size > 1 else 0.1
    bars = axes.bar(energy.speed, share, width=0.84 * step, color=ACCENT, alpha=0.5, linewidth=0)
    edges = np.concatenate([energy.speed - step / 2, [energy.speed[-1] + step / 2]])
    axes.stairs(100 * energy.share, edges, color=INK, linewidth=1.3)
    axes.set_ylim(0, 1.25 * max(float(np.max(share)), float(np.max(100 * energy.share))))
    axes.legend(
        (bars, Line2D([], [], color=INK, linewidth=1.3)),
        ("energy", "time"),
        loc="lower left",
        bbox_to_anchor=(0.0, 1.0),
        ncols=2,
        frameon=False,
        fontsize=8,
        borderpad=0,
        handlelength=1.4,
    )
    axes.set_xlabel("stream speed at the machine, m/s")
    axes.set_ylabel("share of the year's total, %")
    grid(axes)


def _title(site: Site, energy: YearlyEnergy | None) -> str:
    kind, value, passed = curve_of(site)
    unit = fmt.DISCHARGE if kind == "discharge" else fmt.SPEED
    half = fmt.quantity(float(np.interp(0.5, passed, value)), unit)
    first = f"Half the year the {kind} is {half} or more"
    if energy is None or float(np.sum(energy.energy)) <= 0:
        return first
    low, high = middle_speeds(energy)
    return f"{first}; half the energy is made between {fmt.number(low, 1)} and {fmt.fixed(high, fmt.SPEED, 1)}"


def middle_speeds(energy: YearlyEnergy) -> tuple[float, float]:
    """Speeds between which the middle half of the year's energy is made [m/s]."""
    step = float(np.median(np.diff(energy.speed))) if energy.speed.size > 1 else 0.0
    grown = np.concatenate([[0.0], np.cumsum(energy.energy)]) / float(np.sum(energy.energy))
    edges = np.concatenate([energy.speed - step / 2, [energy.speed[-1] + step / 2]])
    return float(np.interp(0.25, grown, edges)), float(np.interp(0.75, grown, edges))
