"""Who carries the village's load over a day, in the month that burns least and in the month that burns most."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, PAPER, SECOND, grid, in_house_style, is_narrow, sheet
from racewright.dossier.figures.months import NAMES
from racewright.ledger.supply_things import HourDays

SEEN = 0.005
"""What stays below this part of the greatest load would not be seen [-]."""


@in_house_style
def draw(days: HourDays, width: float) -> Figure:
    """Stacked hours of the village's clock; the line is the load.

    Parameters
    ----------
    days : HourDays
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    burning = days.sets.mean(axis=1)
    months = (int(np.argmin(burning)), int(np.argmax(burning)))
    top = float(max(days.load.max(), (days.machine + days.sun + days.giving + days.sets).max()))
    scale = fmt.pick(fmt.POWER, top)
    figure = sheet(width, 4.9 if narrow else 3.1, "A mean day in the month that burns least fuel, and most")
    axes = figure.subplots(2 if narrow else 1, 1 if narrow else 2, sharey=True, squeeze=False).ravel()
    for one, month in zip(axes, months, strict=True):
        _panel(one, days, month, scale.factor)
        one.set_ylim(0.0, 1.12 * top / scale.factor if top > 0.0 else 1.0)
        one.set_title(NAMES[month], loc="left", fontsize=8.0, color=INK)
    axes[0].set_ylabel(f"mean power, {scale.unit}")
    axes[-1].set_xlabel("hour of the village's clock")
    handles, labels = axes[0].get_legend_handles_labels()
    figure.legend(handles, labels, loc="outside lower center", ncols=3 if narrow else 6, frameon=False, fontsize=7.5)
    return figure


def _panel(axes: Axes, days: HourDays, month: int, factor: float) -> None:
    hour = np.arange(25)
    rows = (
        ("machine", days.machine, {"facecolor": ACCENT, "alpha": 0.85}),
        ("sun", days.sun, {"facecolor": PAPER, "hatch": "....", "edgecolor": SECOND}),
        ("battery", days.giving, {"facecolor": PAPER, "hatch": "////", "edgecolor": ACCENT}),
        ("diesel sets", days.sets, {"facecolor": SECOND, "alpha": 0.75}),
        ("not served", days.unserved, {"facecolor": PAPER, "hatch": "xxxx", "edgecolor": INK}),
    )
    floor = np.zeros(25)
    for name, row, look in rows:
        if float(row.max()) <= SEEN * float(days.load.max()):
            continue
        value = np.append(row[month], row[month, -1]) / factor
        axes.fill_between(hour, floor, floor + value, step="post", linewidth=0.0, label=name, **look)
        floor = floor + value
    load = np.append(days.load[month], days.load[month, -1]) / factor
    axes.step(hour, load, where="post", color=INK, linewidth=1.2, label="load")
    axes.set_xlim(0, 24)
    axes.set_xticks(range(0, 25, 6))
    grid(axes)
