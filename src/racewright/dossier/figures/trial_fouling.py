"""One run at one load: the torque less what the flow explains, and what fouling took."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, SECOND, SOFT, grid, halo, in_house_style, is_narrow, sheet
from racewright.dossier.figures.label import invented_title
from racewright.trials.fouling import Fouling

Floats = NDArray[np.float64]
_MEANS = 60
"""Points of the heavy line."""


@dataclass(frozen=True)
class Trace:
    """What is drawn of a run.

    Attributes
    ----------
    time : ndarray, shape (n,)
        After the record's start [s].
    share : ndarray, shape (n,)
        Torque over what the flow explains, 1 at the start [-].
    cleaned : float or None
        When the machine was cleaned [s].
    """

    time: Floats
    share: Floats
    cleaned: float | None


@in_house_style
def draw(trace: Trace, found: Fouling, width: float, *, invented: bool) -> Figure:
    """Block means, their running mean, and where loss, alarm and cleaning lie.

    Parameters
    ----------
    trace : Trace
        Not empty.
    found : Fouling
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    figure = sheet(width, 3.1 if narrow else 2.9, invented_title(_title(found), invented=invented))
    axes = figure.add_subplot()
    minutes, percent = trace.time / 60.0, 100.0 * trace.share
    axes.plot(minutes, percent, linestyle="none", marker=".", markersize=2.2, color=SOFT, alpha=0.7, zorder=2)
    for x, y in _means(trace, minutes, percent):
        axes.plot(x, y, color=ACCENT, linewidth=1.5, zorder=3)
    low, high = np.percentile(percent, [0.5, 99.5])
    room = max(high - low, 1.0)
    axes.set_ylim(low - 0.12 * room, high + 0.7 * room)
    axes.set_xlim(float(minutes[0]), float(minutes[-1]))
    if found.found:
        _loss(axes, trace, found)
    marks = [(found.onset, "onset", 0)] if found.found else []
    if found.alarm_time is not None:
        marks.append((found.alarm_time, "alarm", 1))
    if trace.cleaned is not None:
        marks.append((trace.cleaned, "cleaned", 2))
    for time, word, line in marks:
        _mark(axes, time / 60.0, word, line)
    axes.set_xlabel("time after the record's start, min")
    axes.set_ylabel("torque over what the\nflow explains, %")
    grid(axes)
    return figure


def _means(trace: Trace, minutes: Floats, percent: Floats) -> list[tuple[list[float], list[float]]]:
    """Means over stretches, a line before the cleaning and one after it."""
    if trace.cleaned is None:
        parts = [np.ones(minutes.size, np.bool_)]
    else:
        parts = [trace.time < trace.cleaned, trace.time >= trace.cleaned]
    lines = []
    for part in parts:
        count = int(part.sum())
        if not count:
            continue
        stretches = max(1, round(_MEANS * count / minutes.size))
        groups = [own for own in np.array_split(np.flatnonzero(part), stretches) if own.size]
        lines.append(([float(minutes[own].mean()) for own in groups], [float(percent[own].mean()) for own in groups]))
    return lines


def _loss(axes: Axes, trace: Trace, found: Fouling) -> None:
    """The fitted loss as straight lines, with its interval at the end."""
    end = float(trace.time[-1]) if trace.cleaned is None else trace.cleaned
    before = trace.share[trace.time <= found.onset]
    level = float(before.mean()) if before.size else 1.0
    x = np.array([float(trace.time[0]), max(found.onset, float(trace.time[0])), end]) / 60.0
    y = 100.0 * level * np.array([1.0, 1.0, 1.0 - found.loss])
    axes.plot(x, y, color=SECOND, linewidth=1.4, dashes=(5, 2), zorder=4)
    ends = [100.0 * level * (1.0 - found.loss_high), 100.0 * level * (1.0 - found.loss_low)]
    axes.plot([x[-1], x[-1]], ends, color=SECOND, linewidth=3.0, solid_capstyle="butt", zorder=5)


def _mark(axes: Axes, minute: float, word: str, line: int) -> None:
    left, right = axes.get_xlim()
    axes.axvline(minute, color=INK, linewidth=0.8, dashes=(2, 2), zorder=1)
    first = minute < left + 0.75 * (right - left)
    axes.annotate(
        f"{word}, {fmt.number(minute, 0)}{fmt.THIN}min",
        (minute, 1.0),
        (3 if first else -3, -2 - 12 * line),
        xycoords=axes.get_xaxis_transform(),
        textcoords="offset points",
        ha="left" if first else "right",
        va="top",
        fontsize=7.5,
        color=INK,
        bbox=halo(),
    )


def _title(found: Fouling) -> str:
    loss, low, high = (fmt.fixed(v, fmt.SHARE, 1) for v in (found.loss, found.loss_low, found.loss_high))
    if not found.found:
        return f"No fouling found: {loss} of the torque, {low} to {high} (95{fmt.THIN}%)"
    said = f"Fouling took {loss} of the torque, {low} to {high} (95{fmt.THIN}%)"
    if found.recovered is not None:
        said += f"; cleaning gave back {fmt.fixed(found.recovered, fmt.SHARE, 1)}"
    return said
