"""Efficiency inside the stage over Reynolds number: solved at each size, and what the forms of step-up say."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter, LogLocator, NullFormatter

from racewright.dossier.figures.house import ACCENT, INK, SECOND, SOFT, grid, halo, in_house_style, is_narrow, sheet
from racewright.dossier.figures.label import label
from racewright.growth.step_comparison import StepComparison
from racewright.growth.step_up_forms import SizePair, step_up_forms


@in_house_style
def draw(comparisons: Sequence[StepComparison], width: float) -> Figure:
    """From each step the spread of the forms to the next size; dots where the stage was solved.

    Parameters
    ----------
    comparisons : sequence of StepComparison
        One or more, in order.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    figure = sheet(width, 2.9 if narrow else 2.6, _title(comparisons))
    axes = figure.add_subplot()
    axes.set_xscale("log")
    for one in comparisons:
        _forms(axes, one)
        axes.plot(
            one.like.rotor_reynolds, 100.0 * one.like.point.hydraulic_efficiency, "o", color=ACCENT, markersize=5
        )
    seen = [comparisons[0].first, *(one.second for one in comparisons)]
    for solved in seen:
        axes.plot(
            solved.rotor_reynolds,
            100.0 * solved.point.hydraulic_efficiency,
            "o",
            markersize=8,
            markerfacecolor="none",
            markeredgecolor=INK,
            markeredgewidth=1.0,
        )
    _frame(axes, comparisons, narrow)
    above = [False, *(one.shape_gain > 1e-4 for one in comparisons)]
    for solved, over in zip(seen, above, strict=True):
        axes.annotate(
            label(solved.step.name, 18),
            (solved.rotor_reynolds, 100.0 * solved.point.hydraulic_efficiency),
            (0.0, 9.0 if over else -9.0),
            textcoords="offset points",
            ha="center",
            va="bottom" if over else "top",
            fontsize=7.5,
            bbox=halo(),
            zorder=6,
        )
    _key(axes, narrow)
    return figure


def _forms(axes: Axes, one: StepComparison) -> None:
    """The spread of the forms that go by Reynolds number, from the first step to the next size."""
    start, end = one.first.rotor_reynolds, one.like.rotor_reynolds
    known = one.first.point.hydraulic_efficiency
    places = np.geomspace(start, end, 40)
    lines = np.array(
        [
            [
                f.hydraulic_efficiency
                for f in step_up_forms(SizePair(known, start, float(x), 1.0))
                if f.by != "diameter"
            ]
            for x in places
        ]
    )
    axes.fill_between(
        places, 100.0 * lines.min(axis=1), 100.0 * lines.max(axis=1), color=SECOND, alpha=0.35, linewidth=0.8
    )


def _frame(axes: Axes, comparisons: Sequence[StepComparison], narrow: bool) -> None:
    reynolds = [solved.rotor_reynolds for one in comparisons for solved in (one.first, one.second)]
    shares = [s.point.hydraulic_efficiency for one in comparisons for s in (one.first, one.second, one.like)]
    shares += [end for one in comparisons for end in (one.forms_low, one.forms_high)]
    low, high = 100.0 * min(shares), 100.0 * max(shares)
    room = max(high - low, 1.0)
    axes.set_ylim(low - 0.3 * room, high + 0.45 * room)
    spread = max(max(reynolds) / min(reynolds), 2.0)
    axes.set_xlim(min(reynolds) / spread**0.12, max(reynolds) * spread**0.12)
    axes.xaxis.set_major_locator(LogLocator(10.0, subs=(1.0, 2.0, 5.0) if spread < 100.0 else (1.0, 3.0)))
    axes.xaxis.set_major_formatter(FuncFormatter(lambda value, _at: _millions(value)))
    axes.xaxis.set_minor_formatter(NullFormatter())
    axes.tick_params(axis="x", which="minor", length=0)
    axes.set_xlabel(
        "Reynolds number, millions" if narrow else "Reynolds number on throat diameter and tip speed, millions"
    )
    axes.set_ylabel("hydraulic efficiency, %")
    grid(axes)


def _key(axes: Axes, narrow: bool) -> None:
    """Words for the two kinds of mark and the spread, in the free corner."""
    size = 7.0 if narrow else 7.5
    entries = (
        ("o", ACCENT, ACCENT, 5, "first shape solved at the next size"),
        ("o", "none", INK, 8, "each step as it is"),
        ("s", SECOND, SECOND, 7, "forms of step-up, lowest to highest"),
    )
    for i, (sign, face, edge, big, words) in enumerate(entries):
        y = 0.95 - 0.095 * i
        axes.plot(
            0.03,
            y,
            sign,
            transform=axes.transAxes,
            markersize=big,
            markerfacecolor=face,
            markeredgecolor=edge,
            alpha=0.45 if sign == "s" else 1.0,
            zorder=7,
        )
        axes.text(
            0.06, y, words, transform=axes.transAxes, va="center", fontsize=size, color=SOFT, bbox=halo(), zorder=7
        )


def _millions(value: float) -> str:
    return f"{value / 1e6:.3g}"


def _title(comparisons: Sequence[StepComparison]) -> str:
    worst = max(comparisons, key=lambda one: abs(one.outside))
    if all(one.agrees for one in comparisons):
        if worst.outside == 0.0:
            return "The stage solved at each size lies within the forms of step-up"
        points = math.ceil(1000.0 * abs(worst.outside)) / 10.0
        return f"The stage solved at each size lies within {points:.1f} points of efficiency of the forms of step-up"
    side = "above" if worst.outside > 0.0 else "below"
    return (
        f"At the size of {label(worst.second.step.name, 13)} the solved stage is {100.0 * abs(worst.outside):.1f} "
        f"points {side} the forms of step-up"
    )
