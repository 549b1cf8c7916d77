"""One strike on its two time scales: force at the place struck in milliseconds, line tension in seconds."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.holding_shape import Floats
from racewright.dossier.figures.house import ACCENT, INK, SECOND, SOFT, grid, halo, in_house_style, is_narrow, sheet
from racewright.dossier.figures.label import invented_title
from racewright.holding.strike_blow import Blow, FirstBlow
from racewright.holding.strike_two_phase import TwoPhase

_SECONDS = (fmt.Scale("s", 1.0),)


@in_house_style
def draw(found: TwoPhase, width: float, *, capacity: float | None = None, invented: bool = False) -> Figure:
    """Force at the place struck over milliseconds, beside (above, on a phone) line tension over seconds.

    Parameters
    ----------
    found : TwoPhase
    width : float
        Width of the figure [in].
    capacity : float, optional
        Tension along the stream at which the first link parts [N].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    figure = sheet(width, 5.8 if narrow else 3.3, invented_title(_title(found), invented=invented))
    views = figure.subplots(2, 1) if narrow else figure.subplots(1, 2)
    _milliseconds(views[0], found.first)
    _seconds(views[1], found, capacity)
    return figure


def pulse(blow: Blow, time: Floats) -> Floats:
    """Force of one blow over time: a quarter sine up, then down over what the restitution leaves [N].

    Parameters
    ----------
    blow : Blow
    time : ndarray
        Since the touch [s].
    """
    up = 0.5 * blow.half_period
    down = max(blow.duration - up, 1e-12)
    rise = np.sin(0.5 * np.pi * np.clip(time / up, 0.0, 1.0))
    fall = np.cos(0.5 * np.pi * np.clip((time - up) / down, 0.0, 1.0))
    inside = (time >= 0.0) & (time <= blow.duration)
    return np.where(inside, blow.force * np.where(time < up, rise, fall), 0.0)


def _milliseconds(axes: Axes, first: FirstBlow) -> None:
    soft, stiff = first.blows[0], first.blows[-1]
    time = np.linspace(0.0, soft.duration, 600)
    scale = fmt.pick(fmt.FORCE, stiff.force)
    every = np.stack([pulse(blow, time) for blow in first.blows]) / scale.factor
    axes.fill_between(1e3 * time, every.min(axis=0), every.max(axis=0), color=SECOND, alpha=0.16, linewidth=0)
    for blow, force in zip(first.blows, every, strict=True):
        lasts = time <= blow.duration
        axes.plot(1e3 * time[lasts], force[lasts], color=SECOND, linewidth=1.6 if blow in (soft, stiff) else 0.7)
    _peak(axes, stiff, "stiffest", (0.5 * stiff.duration, 1.02 * stiff.force / scale.factor), scale)
    _peak(axes, soft, "softest", (0.32 * soft.duration, 1.05 * soft.force / scale.factor), scale)
    axes.set_xlim(0.0, 1e3 * float(time[-1]) * 1.05)
    axes.set_ylim(0.0, 1.2 * stiff.force / scale.factor)
    axes.set_xlabel("milliseconds since the touch")
    axes.set_ylabel(f"force at the place struck, {scale.unit}")
    axes.set_title(f"first blow on the {first.place}, by contact", fontsize=8, loc="left", color=SECOND)
    grid(axes)


def _peak(axes: Axes, blow: Blow, word: str, at: tuple[float, float], scale: fmt.Scale) -> None:
    """A contact's name, stiffness and greatest force."""
    stiffness = blow.stiffness.value / 1e6
    told = f"{fmt.number(stiffness, fmt.decimals_for(stiffness, 2))}{fmt.THIN}MN/m"
    force = fmt.join(fmt.number(blow.force / scale.factor, fmt.decimals_for(blow.force / scale.factor, 2)), scale)
    axes.annotate(
        f"{word}, {told}: {force}",
        (1e3 * at[0], at[1]),
        (8, 0),
        textcoords="offset points",
        fontsize=7.5,
        color=INK,
        bbox=halo(),
        ha="left",
        va="bottom",
    )


def _seconds(axes: Axes, found: TwoPhase, capacity: float | None) -> None:
    time, tension = found.run.trace_time, found.run.trace_tension
    most = max(found.slow_tension.high, 1.0)
    limit = capacity is not None and np.isfinite(capacity)
    if limit and capacity is not None and capacity < 3.0 * most:
        most = max(most, capacity)
    scale = fmt.pick(fmt.FORCE, most)
    low, high = found.slow_tension.low / scale.factor, found.slow_tension.high / scale.factor
    axes.axhspan(low, high, color=ACCENT, alpha=0.18, linewidth=0)
    axes.plot(time, tension / scale.factor, color=ACCENT, linewidth=1.4)
    peak = int(np.argmax(tension))
    _greatest(axes, float(time[peak]), float(tension[peak]), scale, late=time[peak] > 0.4 * time[-1])
    top = 1.25 * most / scale.factor
    if limit and capacity is not None:
        _capacity(axes, capacity / scale.factor, top, scale)
    axes.set_xlim(0.0, float(time[-1]))
    axes.set_ylim(min(0.0, 1.1 * float(tension.min()) / scale.factor), top)
    axes.set_xlabel("seconds since the touch")
    axes.set_ylabel(f"slow line tension, {scale.unit}")
    axes.set_title("the lines, afterwards", fontsize=8, loc="left", color=ACCENT)
    grid(axes)


def _greatest(axes: Axes, time: float, tension: float, scale: fmt.Scale, *, late: bool) -> None:
    axes.plot(time, tension / scale.factor, marker="o", markersize=3.5, color=ACCENT)
    axes.annotate(
        f"{fmt.quantity(tension, fmt.FORCE)} after {fmt.fixed(time, _SECONDS, 1)}",
        (time, tension / scale.factor),
        (0, 5),
        textcoords="offset points",
        ha="right" if late else "left",
        va="bottom",
        fontsize=7.5,
        color=INK,
        bbox=halo(),
    )


def _capacity(axes: Axes, capacity: float, top: float, scale: fmt.Scale) -> None:
    number = fmt.join(fmt.number(capacity, fmt.decimals_for(capacity, 3)), scale)
    said = f"first link parts at {number}"
    if capacity < top:
        axes.axhline(capacity, color=INK, linewidth=1.0, dashes=(3, 2))
    else:
        said = f"{said}, above this drawing"
    axes.annotate(
        said,
        (1.0, min(capacity, top)),
        (-2, 2 if capacity < top else -2),
        xycoords=("axes fraction", "data"),
        textcoords="offset points",
        ha="right",
        va="bottom" if capacity < top else "top",
        fontsize=7.5,
        color=SOFT,
    )


def _title(found: TwoPhase) -> str:
    low, high = (fmt.quantity(v, fmt.FORCE, 2) for v in (found.first.force.low, found.first.force.high))
    slow = fmt.quantity(found.slow_tension.high, fmt.FORCE, 2)
    when = fmt.fixed(found.slow_time, _SECONDS, 1)
    return f"The blow itself: {low} to {high} for milliseconds; the lines reach {slow} only after {when}"
