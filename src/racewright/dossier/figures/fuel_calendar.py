"""Fuel day by day over the year, months beneath each other, with the months' sums."""

from __future__ import annotations

import numpy as np
from matplotlib.colors import BoundaryNorm
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import INK, PAPER, SECOND, SOFT, in_house_style, is_narrow, shades, sheet
from racewright.dossier.figures.months import NAMES
from racewright.ledger.supply_things import SupplyYear


@in_house_style
def draw(year: SupplyYear, width: float) -> Figure:
    """One square a day; the numbers beside are what the month burns, and what the sets alone burn.

    Parameters
    ----------
    year : SupplyYear
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    day = (year.first_day + np.arange(year.fuel_by_day.shape[1])).astype("datetime64[D]")
    inside = day.astype("datetime64[Y]").astype(int) + 1970 == year.year
    month = day.astype("datetime64[M]").astype(int) % 12
    date = (day - day.astype("datetime64[M]")).astype(int)
    square = np.full((12, 31), np.nan)
    square[month[inside], date[inside]] = 1e3 * year.fuel_by_day[1, inside]
    sums = [np.bincount(month, weights=1e3 * row, minlength=12) for row in year.fuel_by_day]
    figure = sheet(width, 3.4 if narrow else 3.3, _title(year))
    axes = figure.add_subplot()
    levels = MaxNLocator(7).tick_values(0.0, max(float(np.nanmax(square)), 1e-9))
    seen = axes.pcolormesh(
        np.arange(32) + 0.5,
        np.arange(13) - 0.5,
        square,
        cmap=shades(SECOND, len(levels) - 1),
        norm=BoundaryNorm(levels, len(levels) - 1),
        edgecolors=PAPER,
        linewidth=0.6,
    )
    axes.set_xlim(0.5, 32.0 + (10.5 if narrow else 8.5))
    axes.set_ylim(11.6, -1.4)
    axes.set_yticks(range(12), [name[0] if narrow else name for name in NAMES])
    axes.set_xticks((1, 10, 20, 30) if narrow else (1, 5, 10, 15, 20, 25, 30))
    axes.tick_params(length=0)
    for side in axes.spines.values():
        side.set_visible(False)
    axes.set_xlabel("day of the month", loc="left")
    far = 32.0 + (10.0 if narrow else 8.0)
    middle = 32.0 + (4.6 if narrow else 3.7)
    for place, text in ((middle, "L here" if narrow else "here, L"), (far, "alone" if narrow else "alone, L")):
        axes.text(place, -1.0, text, ha="right", va="center", fontsize=7.0, color=SOFT)
    for i in range(12):
        axes.text(middle, i, fmt.number(float(sums[1][i]), 0), ha="right", va="center", fontsize=7.5, color=INK)
        axes.text(far, i, fmt.number(float(sums[0][i]), 0), ha="right", va="center", fontsize=7.5, color=SOFT)
    bar = figure.colorbar(
        seen, ax=axes, orientation="horizontal", shrink=0.45, aspect=28, pad=0.02, anchor=(0.0, 1.0), drawedges=True
    )
    bar.set_label("fuel of a day, L", fontsize=7.5)
    bar.outline.set_visible(False)
    bar.dividers.set_color(PAPER)
    return figure


def _title(year: SupplyYear) -> str:
    alone, here = (float(row.sum()) for row in year.fuel_by_day)
    if alone <= 0.0:
        return "No fuel is burned"
    return f"The year {year.year} burns {fmt.number(100.0 * (1.0 - here / alone), 1)} % less fuel than the sets alone"
