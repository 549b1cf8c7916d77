"""One strike on its two time scales: force at the place struck in milliseconds, line tension in seconds."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, SECOND, SOFT, grid, halo, in_house_style, is_narrow, sheet
from racewright.dossier.figures.label import invented_title
from racewright.holding.strike_blow import Blow, FirstBlow
from racewright.holding.strike_two_phase import TwoPhase

_ON = 0.5 * np.pi


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
    title = invented_title(_title(found), invented=invented)
    figure = sheet(width, 5.6 if narrow else 3.3, title)
    views = figure.subplots(2, 1) if narrow else figure.subplots(1, 2)
    _milliseconds(views[0], found.first)
    _seconds(views[1], found, capacity)
    return figure


def pulse(blow: Blow, time: np.ndarray, compression: float) -> np.ndarray:
    """Force of one blow over time: a quarter sine up, then down over what the restitution leaves [N].

    Parameters
    ----------
    blow : Blow
    time : ndarray
        Since the touch [s].
    compression : float
        Time until the greatest force, half the half-period [s].
    """
    down = max(blow.duration - compression, 1e-12)
    rise = np.sin(_ON * np.clip(time / compression, 0.0, 1.0))
    fall = np.cos(_ON * np.clip((time - compression) / down, 0.0, 1.0))
    inside = (time >= 0.0) & (time <= blow.duration)
    return np.where(inside, blow.force * np.where(time < compression, rise, fall), 0.0)


def _milliseconds(axes: Axes, first: FirstBlow) -> None:
    soft, stiff = first.blows[0], first.blows[-1]
    time = np.linspace(0.0, 1.12 * soft.duration, 600)
    scale = fmt.pick(fmt.FORCE, stiff.force)
    every = np.stack([pulse(b, time, 0.5 * b.half_period) for b in first.blows]) / scale.factor
    axes.fill_between(1e3 * time, every.min(axis=0), every.max(axis=0), color=SECOND, alpha=0.16, linewidth=0)
    for blow, force in zip(first.blows, every, strict=True):
        ends = blow in (soft, stiff)
        axes.plot(1e3 * time, force, color=SECOND, linewidth=1.6 if ends else 0.7, alpha=1.0 if ends else 0.6)
    for blow, word, side in ((soft, "softest", 0.62), (stiff, "stiffest", 0.5)):
        at = side * blow.duration
        y = float(pulse(blow, np.array([at]), 0.5 * blow.half_period)[0]) / scale.factor
        peak = fmt.quantity(blow.force, fmt.FORCE, 2)
        stiffness = fmt.number(blow.stiffness.value / 1e6, fmt.decimals_for(blow.stiffness.value / 1e6, 2))
        axes.annotate(
            f"{word} contact {stiffness}{fmt.THIN}MN/m: {peak}", (1e3 * at, y), (8, 4), textcoords="offset points",
            fontsize=7.5, color=INK, bbox=halo(), ha="left", va="bottom",
        )  # fmt: skip
    axes.set_xlim(0.0, 1e3 * float(time[-1]))
    axes.set_ylim(0.0, 1.2 * stiff.force / scale.factor)
    axes.set_xlabel("milliseconds since the touch")
    axes.set_ylabel(f"force at the place struck, {scale.unit}")
    axes.set_title(f"first blow on the {first.place}", fontsize=8, loc="left", color=SECOND)
    grid(axes)


def _seconds(axes: Axes, found: TwoPhase, capacity: float | None) -> None:
    run = found.run
    time, tension = run.trace_time, run.trace_tension
    most = max(found.slow_tension.high, 0.0 if capacity is None else min(capacity, 3.0 * found.slow_tension.high))
    scale = fmt.pick(fmt.FORCE, max(most, 1.0))
    axes.axhspan(
        found.slow_tension.low / scale.factor,
        found.slow_tension.high / scale.factor,
        color=ACCENT,
        alpha=0.18,
        linewidth=0,
    )
    axes.plot(time, tension / scale.factor, color=ACCENT, linewidth=1.4)
    peak = int(np.argmax(tension))
    said = (
        f"greatest {fmt.quantity(float(tension[peak]), fmt.FORCE)} after {fmt.fixed(float(time[peak]), _SECONDS, 1)}"
    )
    late = time[peak] > 0.55 * time[-1]
    axes.annotate(
        said, (float(time[peak]), float(tension[peak]) / scale.factor), (-6 if late else 6, 5), textcoords="offset points",
        ha="right" if late else "left", va="bottom", fontsize=7.5, color=INK, bbox=halo(),
    )  # fmt: skip
    if capacity is not None and np.isfinite(capacity):
        _capacity(axes, capacity / scale.factor, most / scale.factor, scale.unit)
    axes.set_xlim(0.0, float(time[-1]))
    axes.set_ylim(min(0.0, 1.1 * float(tension.min()) / scale.factor), 1.25 * most / scale.factor)
    axes.set_xlabel("seconds since the touch")
    axes.set_ylabel(f"slow line tension, {scale.unit}")
    axes.set_title("the lines, afterwards", fontsize=8, loc="left", color=ACCENT)
    grid(axes)


_SECONDS = (fmt.Scale("s", 1.0),)


def _capacity(axes: Axes, capacity: float, most: float, unit: str) -> None:
    if capacity <= most:
        axes.axhline(capacity, color=INK, linewidth=1.0, dashes=(3, 2))
        said, y, va = "first link parts", capacity, "top"
    else:
        number = fmt.number(capacity, fmt.decimals_for(capacity, 3))
        said, y, va = f"first link parts at {number}{fmt.THIN}{unit}, above this", 1.25 * most, "top"
    axes.annotate(
        said, (1.0, y), (-2, -2), xycoords=("axes fraction", "data"), textcoords="offset points", ha="right", va=va,
        fontsize=7.5, color=SOFT, bbox=halo(),
    )  # fmt: skip


def _title(found: TwoPhase) -> str:
    low, high = (fmt.quantity(v, fmt.FORCE, 2) for v in (found.first.force.low, found.first.force.high))
    slow = fmt.quantity(found.slow_tension.high, fmt.FORCE, 2)
    when = fmt.fixed(found.slow_time, _SECONDS, 1)
    return f"The blow itself: {low} to {high} for milliseconds; the lines feel {slow} only after {when}"
