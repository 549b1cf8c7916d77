"""A tidal record beside its tide: every day's extremes, and a week at springs."""

from __future__ import annotations

import textwrap
from itertools import pairwise
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.dates import AutoDateLocator, ConciseDateFormatter
from matplotlib.figure import Figure
from numpy.typing import NDArray

from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    SECOND,
    SOFT,
    WATER,
    grid,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.place.tide_trace import TideTrace

_DAY = 86400


@in_house_style
def draw(trace: TideTrace, width: float, *, level: bool = False, slack_speed: float | None = None) -> Figure:
    """Two panels, one under the other.

    Parameters
    ----------
    trace : TideTrace
        With one day or more.
    width : float
        Width of the figure [in].
    level : bool
        True for a record of level.
    slack_speed : float or None
        Band of slack in the week [m/s].
    """
    narrow = is_narrow(width)
    figure = sheet(width, 5.6 if narrow else 5.0, _title(trace, level=level))
    above, below = figure.subplots(2, 1)
    _draw_days(above, trace, level=level, narrow=narrow)
    _draw_week(below, trace, None if level else slack_speed, level=level, narrow=narrow)
    return figure


def _draw_days(axes: Axes, trace: TideTrace, *, level: bool, narrow: bool) -> None:
    first = True
    for part in _unbroken(trace.day):
        day = _dates(trace.day[part] + _DAY // 2)
        axes.fill_between(
            day,
            trace.tide_low[part],
            trace.tide_high[part],
            color=WATER,
            linewidth=0,
            label="tide" if first else None,
        )
        axes.plot(
            day, trace.left_over[part], color=SECOND, linewidth=1.3, label="left over, daily mean" if first else None
        )
        first = False
    every = _dates(trace.day + _DAY // 2)
    style: dict[str, Any] = {
        "linestyle": "none",
        "marker": "o",
        "markersize": 2.2 if narrow else 2.8,
        "markeredgewidth": 0,
    }
    axes.plot(every, trace.recorded_high, color=ACCENT, label="recorded extremes", **style)
    axes.plot(every, trace.recorded_low, color=ACCENT, **style)
    axes.legend(
        loc="lower left",
        bbox_to_anchor=(0.0, 1.0),
        ncols=2 if narrow else 3,
        frameon=False,
        fontsize=7.5,
        borderpad=0,
        handlelength=1.4,
    )
    _finish(axes, level=level)
    if not level:
        _ways(axes)


def _draw_week(axes: Axes, trace: TideTrace, slack_speed: float | None, *, level: bool, narrow: bool) -> None:
    for part in _unbroken(trace.week_time):
        axes.plot(_dates(trace.week_time[part]), trace.week_tide[part], color=ACCENT, linewidth=1.2)
    axes.plot(
        _dates(trace.week_time),
        trace.week_recorded,
        color=INK,
        linestyle="none",
        marker=".",
        markersize=1.8,
        markeredgewidth=0,
    )
    if slack_speed is not None:
        axes.axhspan(-slack_speed, slack_speed, color=WATER, linewidth=0, zorder=0)
    _finish(axes, level=level)
    told = "the week about the strongest springs: tide (line), recorded (dots)"
    if slack_speed is not None:
        told += f"; band: slack, below {slack_speed:g} m/s"
    axes.set_title("\n".join(textwrap.wrap(told, 58 if narrow else 120)), fontsize=8.0, loc="left")


def _finish(axes: Axes, *, level: bool) -> None:
    locator = AutoDateLocator(minticks=3, maxticks=7)  # type: ignore[no-untyped-call]
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(ConciseDateFormatter(locator))  # type: ignore[no-untyped-call]
    axes.margins(x=0.01)
    if not level:
        axes.axhline(0.0, color=SOFT, linewidth=0.6)
    axes.set_ylabel("level, m" if level else "speed along, m/s")
    axes.set_xlabel("UTC")
    grid(axes)


def _ways(axes: Axes) -> None:
    """Which sign is flood."""
    for y, va, text in ((0.985, "top", "flood"), (0.015, "bottom", "ebb")):
        axes.text(0.995, y, text, transform=axes.transAxes, ha="right", va=va, fontsize=7.5, color=SOFT, bbox=halo())


def _unbroken(time: NDArray[np.int64]) -> list[slice]:
    """Stretches without a gap."""
    if time.size < 2:
        return [slice(0, time.size)]
    step = np.diff(time)
    cut = np.flatnonzero(step > 1.5 * np.median(step)) + 1
    edge = [0, *(int(c) for c in cut), time.size]
    return [slice(a, b) for a, b in pairwise(edge)]


def _dates(time: NDArray[np.int64]) -> NDArray[np.datetime64]:
    return time.astype("datetime64[s]")


def _title(trace: TideTrace, *, level: bool) -> str:
    size = np.abs(trace.left_over)
    worst = int(np.argmax(size))
    date = np.datetime_as_string(_dates(trace.day[worst : worst + 1]), unit="D")[0]
    what = f"{size[worst]:.2f} {'m' if level else 'm/s'}"
    return f"What the tide does not explain is largest on {date}: {what} in that day's mean"
