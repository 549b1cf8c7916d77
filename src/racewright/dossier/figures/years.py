"""Energy of each recorded year, with P50 and P90."""

from __future__ import annotations

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, SECOND, grid, halo, in_house_style, is_narrow, sheet
from racewright.supply.spread import Spread
from racewright.supply.years import YearlySpread


def is_drawable(years: YearlySpread | None) -> bool:
    """True where there are enough years for a spread."""
    return years is not None and years.spread is not None and years.spread.mean > 0.0


@in_house_style
def draw(years: YearlySpread, width: float) -> Figure:
    """One bar a year; lines at P50 and at P90 of a single year.

    Parameters
    ----------
    years : YearlySpread
        With a spread, see `is_drawable`.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    spread = years.spread
    assert spread is not None  # `is_drawable`
    most = float(years.energy.max())
    scale = fmt.pick(fmt.ENERGY, most)
    figure = sheet(width, 3.0 if narrow else 2.9, _title(spread))
    axes = figure.add_subplot()
    first, last = int(years.year[0]), int(years.year[-1])
    axes.bar(years.year, years.energy / scale.factor, width=0.74, color=ACCENT, alpha=0.6, linewidth=0)
    for name, value, colour in (("P50", spread.p50, INK), ("P90", spread.p90_year, SECOND)):
        y = value / scale.factor
        axes.axhline(y, color=colour, linewidth=1.1)
        axes.annotate(
            f"{name} {fmt.number(y, fmt.decimals_for(y, 3))}",
            (1.0, y),
            (4, 0),
            xycoords=("axes fraction", "data"),
            textcoords="offset points",
            va="center",
            fontsize=7.5,
            color=colour,
            bbox=halo(),
            annotation_clip=False,
        )
    axes.set_xlim(first - 0.6, last + 0.6)
    axes.set_ylim(0, 1.1 * most / scale.factor)
    step = max(1, -(-(last - first + 1) // (5 if narrow else 12)))
    axes.set_xticks(range(first, last + 1, step))
    axes.tick_params(axis="x", length=0, pad=6)
    axes.set_ylabel(f"energy, {scale.unit}")
    grid(axes)
    return figure


def _title(spread: Spread) -> str:
    p50, p90 = fmt.quantity(spread.p50, fmt.ENERGY), fmt.quantity(spread.p90_year, fmt.ENERGY)
    return f"Half of all years pass {p50}, nine in ten pass {p90}"
