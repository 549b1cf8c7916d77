"""Water surface and bed around the machine, as heights above its axis."""

from __future__ import annotations

from dataclasses import dataclass

from matplotlib.axes import Axes

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, BED, INK, PAPER, WATER, halo
from racewright.ledger.findings import PlaceFindings


@dataclass(frozen=True)
class Column:
    """Heights above the machine's axis [m]; None where the place does not tell."""

    surface: float | None
    bed: float | None


def column_of(place: PlaceFindings | None) -> Column:
    """Surface and bed at median flow."""
    if place is None:
        return Column(None, None)
    median = next((s for s in place.site.standings if "median" in s.label), None)
    bed = place.hub_depth - median.depth if median else None
    return Column(place.hub_depth, bed)


def draw_water(axes: Axes, column: Column, across: tuple[float, float], up: tuple[float, float]) -> None:
    """Air above the surface and bed below the water, each only where it lies inside the drawing.

    Parameters
    ----------
    axes : Axes
        Already the colour of water.
    column : Column
    across, up : tuple of float
        Limits of the axes [m].
    """
    left, right = across
    inset = 0.015 * (right - left)
    if column.surface is not None and column.surface < up[1]:
        axes.fill_between(across, column.surface, up[1], color=PAPER, linewidth=0, zorder=3.5)
        axes.plot(across, [column.surface] * 2, color=ACCENT, linewidth=1.0, zorder=7)
        axes.text(
            right - inset,
            column.surface,
            "water surface, median flow",
            ha="right",
            va="bottom",
            fontsize=7.5,
            zorder=8,
        )
    elif column.surface is not None:
        away = f"surface {fmt.fixed(column.surface, fmt.LENGTH, 1)} above the axis"
        axes.text(right - inset, up[1] - inset, away, ha="right", va="top", fontsize=7.5, bbox=halo(WATER), zorder=8)
    if column.bed is not None and column.bed > up[0]:
        axes.fill_between(across, up[0], column.bed, color=BED, linewidth=0, zorder=3.5)
        axes.plot(across, [column.bed] * 2, color=INK, linewidth=0.8, zorder=7)
        axes.text(left + inset, (up[0] + column.bed) / 2, "bed", ha="left", va="center", fontsize=7.5, zorder=8)
