"""Rotor speed, torque and strike speed over stream speed, from standing water to the fastest."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from numpy.typing import NDArray

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, SECOND, SOFT, grid, halo, in_house_style, is_narrow, sheet
from racewright.ledger.drive_findings import DriveControl
from racewright.stage.control import ControlCurve

Floats = NDArray[np.float64]

_SMOOTH = 0.02
"""Largest jump of rotor speed at rated power over which the curve is drawn through [-]."""
_VERBS = {"slow": "slows the rotor", "speed up": "lets the rotor speed up", "dump": "dumps the rest"}


@in_house_style
def draw(control: DriveControl, cut_in: float, width: float) -> Figure:
    """Three panels over one stream speed, of the way of control that is taken.

    Parameters
    ----------
    control : DriveControl
    cut_in : float
        Stream speed [m/s].
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    curve = control.way.curve
    figure = sheet(width, 5.6 if narrow else 5.0, _title(control))
    top, middle, bottom = figure.subplots(3, 1, sharex=True)
    torque = fmt.pick(fmt.TORQUE, float(np.max(curve.torque)))
    rotation = fmt.ROTATION[0]
    parts = _parts(curve, joined=control.way.jump <= _SMOOTH)
    for axes, values, label in (
        (top, curve.rotor_speed / rotation.factor, f"rotor speed,\n{rotation.unit}"),
        (middle, curve.torque / torque.factor, f"rotor torque,\n{torque.unit}"),
        (bottom, curve.strike_speed, "strike speed,\nm/s"),
    ):
        _panel(axes, curve.stream_speed, values, parts, label)
    _limit(top, control.rotor_speed_limit, rotation.factor, "limit")
    _limit(middle, control.torque_limit, torque.factor, "limit")
    bottom.set_xlabel("stream speed at the machine, m/s")
    bottom.set_xlim(0.0, float(curve.stream_speed[-1]))
    rated = control.summary.rated_speed
    for axes in (top, middle, bottom):
        for speed in (cut_in, rated):
            if speed is not None:
                axes.axvline(speed, color=SOFT, linewidth=0.8, dashes=(2, 2), zorder=0)
    _name(top, cut_in, f"cut-in {fmt.fixed(cut_in, fmt.SPEED, 2)}", top=True)
    if rated is not None:
        _name(bottom, rated, f"rated {fmt.fixed(rated, fmt.SPEED, 2)}", top=False)
    shown = [part for part in parts if part.there.any()]
    top.legend(
        [Line2D([], [], **part.style) for part in shown],
        [part.name for part in shown],
        loc="lower left",
        bbox_to_anchor=(0.0, 1.0),
        ncols=3,
        frameon=False,
        fontsize=7.5,
        borderpad=0,
        columnspacing=1.2,
        handlelength=1.8,
    )
    figure.align_ylabels()
    return figure


@dataclass(frozen=True)
class _Part:
    """A stretch of the curve: its name, where it is drawn, and how."""

    name: str
    there: NDArray[np.bool_]
    style: dict[str, Any]


def _parts(curve: ControlCurve, *, joined: bool) -> tuple[_Part, ...]:
    """Free, on the law, above rated; where the rotor's speed jumps between the last two they are not joined."""
    status = np.array(curve.status)
    law, above = status == "on law", (status == "held") | (status == "not held")
    if joined:
        law |= above & np.insert(law[:-1], 0, False)
    held = {"linewidth": 1.6, "dashes": (5, 2)} if "not held" in curve.status else {"linewidth": 2.4}
    return (
        _Part("turns free", status == "below cut-in", {"color": SOFT, "dashes": (1, 1.5)}),
        _Part("on its law", law, {"color": ACCENT}),
        _Part("above rated", above, {"color": SECOND, **held}),
    )


def _panel(axes: Axes, speed: Floats, values: Floats, parts: tuple[_Part, ...], label: str) -> None:
    for part in parts:
        axes.plot(speed, np.where(part.there, values, np.nan), **part.style)
    axes.set_ylim(0.0, 1.18 * max(float(np.max(values)), 1e-9))
    axes.set_ylabel(label)
    grid(axes)


def _limit(axes: Axes, limit: float | None, factor: float, word: str) -> None:
    if limit is None:
        return
    low, high = axes.get_ylim()
    value = limit / factor
    if value > 1.6 * high:
        return
    axes.set_ylim(low, max(high, 1.2 * value))
    axes.axhline(value, color=INK, linewidth=0.8, dashes=(6, 2, 1, 2))
    axes.text(0.012, value, word, transform=axes.get_yaxis_transform(), ha="left", va="bottom", fontsize=7.5)


def _name(axes: Axes, speed: float, text: str, *, top: bool) -> None:
    """A word beside an upright line, at the panel's top or foot, on the side that has more room."""
    right = speed < 0.5 * axes.get_xlim()[1]
    axes.annotate(
        text,
        (speed, 1.0 if top else 0.0),
        (3 if right else -3, -1 if top else 3),
        xycoords=axes.get_xaxis_transform(),
        textcoords="offset points",
        ha="left" if right else "right",
        va="top" if top else "bottom",
        fontsize=7.5,
        color=INK,
        bbox=halo(),
    )


def _title(control: DriveControl) -> str:
    rated, way = control.summary.rated_speed, control.way
    strike = fmt.fixed(way.strike_speed, fmt.SPEED, 1)
    if rated is None:
        return f"Rated power is not reached; the blade tips strike with up to {strike}"
    if not way.holds:
        return f"Above {fmt.fixed(rated, fmt.SPEED, 2)} nothing shown here holds rated power within the limits"
    return (
        f"Above {fmt.fixed(rated, fmt.SPEED, 2)} the drive {_VERBS[control.how]}; "
        f"the blade tips strike with up to {strike}"
    )
