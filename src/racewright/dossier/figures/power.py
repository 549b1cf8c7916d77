"""Electrical power over stream speed with its band, cut-in, and the part held at rated power."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    SOFT,
    grid,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.machine.drive import Drive
from racewright.stage.result import PowerCurve

Floats = NDArray[np.float64]


@in_house_style
def draw(curve: PowerCurve, drive: Drive, width: float, *, holds: bool = True) -> Figure:
    """Power at the generator's terminals.

    Parameters
    ----------
    curve : PowerCurve
    drive : Drive
        Gives cut-in speed and rated power.
    width : float
        Width of the figure [in].
    holds : bool
        False where the drive does not hold rated power at every speed.
    """
    narrow = is_narrow(width)
    scale = fmt.pick(fmt.POWER, drive.rated_power)
    speed, power, low, high, held = _with_jump(curve, drive.cut_in_speed)
    power, low, high = power / scale.factor, low / scale.factor, high / scale.factor
    figure = sheet(width, 3.2 if narrow else 3.0, _title(curve, drive, holds=holds))
    axes = figure.add_subplot()
    axes.fill_between(speed, low, high, color=ACCENT, alpha=0.2, linewidth=0)
    axes.plot(speed, power, color=ACCENT)
    top = 1.22 * max(drive.rated_power / scale.factor, float(np.max(power, initial=0.0)))
    axes.set_ylim(0, top)
    axes.set_xlim(0, float(speed[-1]) if speed.size else None)
    if np.any(held):
        first = float(speed[int(np.argmax(held))])
        axes.plot(speed[held], power[held], color=ACCENT, linewidth=3.0)
        axes.text(
            float(speed[-1]),
            drive.rated_power / scale.factor + 0.025 * top,
            "held at rated power" if holds else "rated power, not held at every speed",
            color=ACCENT,
            ha="right",
            va="bottom",
            fontsize=7.5,
        )
        _mark(axes, first, "rated", top, drive.rated_power / scale.factor)
    _mark(axes, drive.cut_in_speed, "cut-in", top, 0.45 * top)
    axes.set_xlabel("stream speed at the machine, m/s")
    axes.set_ylabel(f"electrical power, {scale.unit}")
    grid(axes)
    return figure


def _with_jump(curve: PowerCurve, cut_in: float) -> tuple[Floats, Floats, Floats, Floats, NDArray[np.bool_]]:
    """Speed, power, low, high and limited, with a point of no power at cut-in so that power jumps there."""
    on = int(np.searchsorted(curve.stream_speed, cut_in * (1.0 - 1e-9)))
    values = (curve.electrical_power, curve.band_low, curve.band_high)
    speed = np.insert(curve.stream_speed, on, cut_in)
    power, low, high = (np.insert(v, on, 0.0) for v in values)
    return speed, power, low, high, np.insert(curve.limited, on, False)


def _mark(axes: Axes, x: float, word: str, top: float, height: float) -> None:
    axes.plot([x, x], [0, height], color=SOFT, linewidth=0.8, dashes=(2, 2))
    axes.text(
        x,
        0.06 * top,
        f"{word}\n{fmt.fixed(x, fmt.SPEED, 2)}",
        ha="center",
        va="bottom",
        fontsize=7.5,
        color=INK,
        bbox=halo(),
    )


def _title(curve: PowerCurve, drive: Drive, *, holds: bool) -> str:
    rated = fmt.quantity(drive.rated_power, fmt.POWER, 2)
    if np.any(curve.limited):
        first = float(curve.stream_speed[int(np.argmax(curve.limited))])
        speed = fmt.fixed(first, fmt.SPEED, 2)
        return f"Electrical power reaches the rated {rated} at {speed} and is {'held there' if holds else 'not held'}"
    return f"Electrical power over stream speed: the rated {rated} are not reached"
