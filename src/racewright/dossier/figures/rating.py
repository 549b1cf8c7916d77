"""The rating curve with its gaugings: level over discharge, and how well the gaugings fix it."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, PAPER, SECOND, SOFT, grid, in_house_style, is_narrow, sheet
from racewright.place.rating_band import RatingBand
from racewright.place.rating_fit import RatingFit


@in_house_style
def draw(fit: RatingFit, band: RatingBand, width: float) -> Figure:
    """Solid where gauged, dashed beyond; the band is that of the mean relation, 95 %.

    Parameters
    ----------
    fit : RatingFit
    band : RatingBand
        At growing levels that hold all gaugings.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    figure = sheet(width, 3.4 if narrow else 3.3, _title(fit))
    axes = figure.add_subplot()
    for inside in (True, False):
        for part in _runs(band.extrapolated != inside):
            _stretch(axes, band, part, gauged=inside)
    for when, colour in ((~fit.outlier, INK), (fit.outlier, SECOND)):
        axes.plot(
            fit.discharge[when],
            fit.level[when],
            linestyle="none",
            marker="o",
            markersize=4.5,
            color=PAPER,
            markeredgecolor=colour,
            markeredgewidth=1.2,
        )
    for i in np.flatnonzero(fit.outlier)[:4]:
        axes.annotate(
            "outlier",
            (fit.discharge[i], fit.level[i]),
            (6, -8),
            textcoords="offset points",
            fontsize=7.5,
            color=SECOND,
        )
    axes.set_xlim(0, 1.04 * float(band.high.max()))
    low, high = float(band.level[0]), float(band.level[-1])
    axes.set_ylim(low - 0.04 * (high - low), high + 0.02 * (high - low))
    axes.set_xlabel("discharge, m³/s")
    axes.set_ylabel("level above the datum, m")
    grid(axes)
    handles = [
        axes.plot([], [], linestyle="none", marker="o", markersize=4.5, color=PAPER, markeredgecolor=INK)[0],
        axes.plot([], [], color=ACCENT)[0],
        *([axes.plot([], [], color=ACCENT, linestyle=(0, (4, 2.5)))[0]] if band.extrapolated.any() else []),
        axes.fill_between([], [], [], color=ACCENT, alpha=0.18, linewidth=0),
    ]
    names = ["gauging", "rating", *(["beyond the gaugings"] if band.extrapolated.any() else []), "95 % band"]
    axes.legend(handles, names, loc="lower right", frameon=False, fontsize=7.5, handlelength=1.8)
    return figure


def _stretch(axes: Axes, band: RatingBand, part: NDArray[np.int64], *, gauged: bool) -> None:
    """One stretch of the curve; beyond the gaugings its band is hatched."""
    level, flow, low, high = (v[part] for v in (band.level, band.discharge, band.low, band.high))
    axes.fill_betweenx(level, low, high, color=ACCENT, alpha=0.18, linewidth=0)
    if not gauged:
        axes.fill_betweenx(level, low, high, facecolor="none", edgecolor=SOFT, hatch="////", linewidth=0)
    axes.plot(flow, level, color=ACCENT, linestyle="-" if gauged else (0, (4, 2.5)), linewidth=1.5)


def _runs(when: NDArray[np.bool_]) -> list[NDArray[np.int64]]:
    """Stretches of neighbours where true, each reaching one further at its upper end so that they join."""
    index = np.flatnonzero(when)
    parts = np.split(index, np.flatnonzero(np.diff(index) > 1) + 1) if index.size else []
    return [np.unique(np.minimum(np.append(part, part[-1] + 1), when.size - 1)) for part in parts]


def _title(fit: RatingFit) -> str:
    low, high = (
        fmt.number(float(v), fmt.decimals_for(float(v), 3)) for v in (fit.discharge.min(), fit.discharge.max())
    )
    scatter = fmt.quantity(fit.standard_error, fmt.SHARE, 2)
    return f"{fit.discharge.size} gaugings from {low} to {high}{fmt.THIN}m³/s scatter {scatter} about the rating"
