"""Energy by month: what is made, and what the season takes away."""

from __future__ import annotations

import numpy as np
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, PAPER, SECOND, grid, in_house_style, is_narrow, sheet
from racewright.supply.months import MonthlyEnergy

NAMES = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


@in_house_style
def draw(months: MonthlyEnergy, width: float) -> Figure:
    """One bar a month; hatched on top what would be made with the machine in all year.

    Parameters
    ----------
    months : MonthlyEnergy
        With one row or more.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    made = np.array([row.energy for row in months.rows])
    whole = np.array([row.open_energy for row in months.rows])
    month = np.array([row.month for row in months.rows])
    scale = fmt.pick(fmt.ENERGY, float(whole.max()))
    figure = sheet(width, 3.0 if narrow else 2.9, _title(months))
    axes = figure.add_subplot()
    axes.bar(month, made / scale.factor, width=0.74, color=ACCENT, alpha=0.75, linewidth=0)
    out = whole - made > 1e-6 * whole.max()
    if out.any():
        axes.bar(
            month[out],
            (whole - made)[out] / scale.factor,
            bottom=made[out] / scale.factor,
            width=0.74,
            facecolor=PAPER,
            edgecolor=SECOND,
            hatch="////",
            linewidth=0.8,
            label="kept back by the season",
        )
        axes.legend(loc="upper right", frameon=False, fontsize=7.5)
    axes.set_xlim(0.4, 12.6)
    axes.set_ylim(0, 1.14 * float(whole.max()) / scale.factor if whole.max() > 0 else 1.0)
    axes.set_xticks(range(1, 13), [name[0] if narrow else name for name in NAMES])
    axes.tick_params(axis="x", length=0)
    axes.set_ylabel(f"energy, {scale.unit}")
    grid(axes)
    return figure


def _title(months: MonthlyEnergy) -> str:
    best = max(months.rows, key=lambda row: row.energy)
    if best.energy <= 0.0:
        return "No month gives energy"
    least = min(months.rows, key=lambda row: row.energy)
    if least.energy <= 0.0:
        return f"{_LONG[best.month - 1]} gives most; {_none(months)}"
    times = best.energy / least.energy
    more = fmt.number(times, 0 if times >= 10 else 1)
    return f"{_LONG[best.month - 1]} gives {more} times as much as {_LONG[least.month - 1]}"


def _none(months: MonthlyEnergy) -> str:
    none = [_LONG[row.month - 1] for row in months.rows if row.energy <= 0.0]
    return f"{none[0]} gives nothing" if len(none) == 1 else f"{len(none)} months give nothing"


_LONG = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
