"""Shaft power over stream speed and rotor speed, with the line on which the machine is run."""

from __future__ import annotations

import math

import numpy as np
from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator
from numpy.typing import NDArray

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    PAPER,
    RULE,
    SECOND,
    halo,
    in_house_style,
    is_narrow,
    shades,
    sheet,
)
from racewright.stage.performance_map import PerformanceMap
from racewright.stage.result import PowerCurve

Floats = NDArray[np.float64]


@in_house_style
def draw(
    stream_speed: Floats,
    rotor_speed: Floats,
    power: Floats,
    answered: NDArray[np.bool_],
    line: tuple[Floats, Floats],
    width: float,
) -> Figure:
    """Filled steps of power; where there is no answer the sheet stays bare.

    Parameters
    ----------
    stream_speed, rotor_speed, power : ndarray, shape (p, q)
        [m/s], [rad/s], [W].
    answered : ndarray of bool, shape (p, q)
    line : (stream speed, rotor speed)
        How the machine is run, shape (n,) each [m/s], [rad/s].
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    scale = fmt.pick(fmt.POWER, float(np.max(np.where(answered, power, 0.0), initial=1.0)))
    rpm = rotor_speed * 30.0 / math.pi
    shown = np.ma.masked_where(~answered | (power < 0.0), power / scale.factor)
    figure = sheet(width, 3.6 if narrow else 3.5, "Shaft power over stream speed and rotor speed")
    axes = figure.add_subplot()
    top = float(shown.max()) if shown.count() else 1.0
    levels = _levels(top)
    axes.contourf(stream_speed, rpm, shown, levels=levels, cmap=shades(ACCENT, len(levels) - 1))
    lines = axes.contour(stream_speed, rpm, shown, levels=levels[1:-1], colors=PAPER, linewidths=0.7)
    digits = fmt.decimals_for(float(levels[1]), 2)
    labels = axes.clabel(lines, fontsize=7, fmt=lambda v: f"{fmt.number(v, digits)}", colors=INK, inline=False)
    for label in labels:
        label.set_bbox({**halo(), "alpha": 0.75, "pad": 0.8})
    speed, turning = line
    axes.plot(speed, turning * 30.0 / math.pi, color=SECOND, linewidth=1.8)
    if speed.size:
        at = int(0.3 * (speed.size - 1))
        axes.annotate(
            "as run",
            (float(speed[at]), float(turning[at]) * 30.0 / math.pi),
            (-6, 8),
            textcoords="offset points",
            color=SECOND,
            ha="right",
            fontsize=7.5,
            bbox=halo(),
        )
    axes.set_facecolor("none")
    axes.set_xlabel("stream speed at the machine, m/s")
    axes.set_ylabel("rotor speed, rpm")
    axes.text(
        0.015,
        0.98,
        f"shaft power in {scale.unit};\nbare: driven, or no answer",
        transform=axes.transAxes,
        va="top",
        fontsize=7.5,
        color=INK,
    )
    axes.grid(color=RULE, linewidth=0.4, alpha=0.6)
    return figure


def of(found: PerformanceMap, run: PowerCurve, width: float) -> Figure:
    """The map of a machine, the line being its power curve's."""
    speeds = np.broadcast_to(found.stream_speed[:, None], found.shaft_power.shape)
    ratios = np.broadcast_to(found.tip_speed_ratio, found.shaft_power.shape)
    turns = found.answered & (found.rotor_speed > 0.0)
    radius = float(np.max((ratios * speeds)[turns] / found.rotor_speed[turns], initial=0.0)) or 1.0
    turning = ratios * speeds / radius
    inside = (run.stream_speed >= found.stream_speed[0]) & (run.stream_speed <= found.stream_speed[-1])
    inside &= run.electrical_power > 0.0
    line = run.stream_speed[inside], run.rotor_speed[inside]
    return draw(speeds, turning, found.shaft_power, found.answered, line, width)


def _levels(top: float) -> Floats:
    """Round steps of power, finer near nought, where power grows slowly."""
    even = np.asarray(MaxNLocator(7).tick_values(0.0, top), dtype=np.float64)
    even = even[even > 0.0]
    return np.concatenate([[0.0, 0.25 * even[0], 0.5 * even[0]], even])
