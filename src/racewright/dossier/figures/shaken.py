"""Natural frequencies of the parts against what shakes them, over rotor speed."""

from __future__ import annotations

import math

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    PAPER,
    SECOND,
    SOFT,
    WATER,
    grid,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title, label
from racewright.dossier.figures.place_labels import LINE, spread
from racewright.strength.resonance import Meeting, Resonance

_HERTZ = (fmt.Scale("Hz", 1.0),)
_DASHES: dict[str, tuple[float, ...] | tuple[None, None]] = {
    "rotor": (1.0, 1.6),
    "blade passing": (None, None),
    "vane passing": (5.0, 2.0),
}


@in_house_style
def draw(found: Resonance, width: float, *, invented: bool = False) -> Figure:
    """Sloping lines: what shakes, its multiple beside it. Level bands: what would answer, with the margin asked for.

    Rings stand where a line crosses a natural frequency; filled ones within the rotor's speeds or its margin.

    Parameters
    ----------
    found : Resonance
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    figure = sheet(width, 4.6 if narrow else 4.2, invented_title(_title(found), invented=invented))
    axes = figure.add_subplot()
    slowest, fastest = _speeds(found)
    top_speed = 1.12 * fastest
    parts = sorted({(m.part, m.mode, m.natural) for m in found.meetings}, key=lambda p: p[2])
    shakes = sorted({(m.shaken_by, m.multiple, m.highest / fastest) for m in found.meetings}, key=lambda s: s[2])
    fastest_shake = max(slope for _, _, slope in shakes) * top_speed
    top = _top([p[2] for p in parts], fastest_shake)
    axes.set(xlim=(0.0, _rpm(top_speed)), ylim=(0.0, top))
    axes.axvspan(_rpm(slowest), _rpm(fastest), color=WATER, linewidth=0, zorder=0)
    per_hertz = (3.2 if narrow else 3.0) / top
    _natural(axes, found, parts, top_speed, per_hertz, top)
    hidden = [part for part in parts if part[2] > top]
    if hidden:
        first = f"above this drawing, first: {_natural_name(*hidden[0])}"
        axes.set_title(first, loc="left", fontsize=7.5, color=ACCENT)
    _shaking(axes, shakes, top_speed, top, per_hertz)
    _crossings(axes, found, top_speed, top)
    said = "rotor speeds in use"
    axes.text(_rpm(0.5 * (slowest + fastest)), 0.985 * top, said, ha="center", va="top", fontsize=7.5, color=SOFT)
    axes.set_xlabel("rotor speed, rpm")
    axes.set_ylabel("frequency, Hz")
    grid(axes)
    return figure


_REACH = 2.5
"""A frequency further above the fastest shaking than this many times is told in words; own choice [-]."""


def _top(natural: list[float], shaking: float) -> float:
    """Height of the drawing: the fastest shaking, and the first frequency above it where that is near [Hz]."""
    above = [value for value in natural if shaking < value < _REACH * shaking]
    return 1.12 * max([shaking, *above[:1]])


def _rpm(speed: float) -> float:
    return speed * 30.0 / math.pi


def _speeds(found: Resonance) -> tuple[float, float]:
    """Slowest and fastest rotor speed [rad/s]: the rotor's own first harmonic is the speed itself."""
    own = next(m for m in found.meetings if m.shaken_by == "rotor" and m.multiple == 1)
    return 2.0 * math.pi * own.lowest, 2.0 * math.pi * own.highest


def _natural(
    axes: Axes, found: Resonance, parts: list[tuple[str, int, float]], right: float, per_hertz: float, top: float
) -> None:
    """Bands in which a source would come too near: natural/(1 + margin) to natural/(1 - margin)."""
    gap = LINE / per_hertz
    parts = [part for part in parts if part[2] <= top]
    heights = spread([value for _, _, value in parts], gap, (0.5 * gap, top - 0.5 * gap))
    for (part, mode, value), y in zip(parts, heights, strict=True):
        end = value / max(1.0 - found.margin, 0.05)
        axes.axhspan(value / (1.0 + found.margin), min(end, top), color=ACCENT, alpha=0.09, linewidth=0, zorder=0.5)
        axes.axhline(value, color=ACCENT, linewidth=1.3, zorder=3)
        axes.text(
            0.01 * _rpm(right),
            y + 0.1 * gap,
            _natural_name(part, mode, value),
            ha="left",
            va="bottom",
            fontsize=7.5,
            color=ACCENT,
            zorder=5,
        )


def _natural_name(part: str, mode: int, value: float) -> str:
    return f"{label(part, 20)}, mode {mode}: {fmt.quantity(value, _HERTZ)}"


def _shaking(axes: Axes, shakes: list[tuple[str, int, float]], right: float, top: float, per_hertz: float) -> None:
    """Lines through the origin, named outside the axes at their right or upper end."""
    ends = [min(slope * right, top) for _, _, slope in shakes]
    for name, _, slope in shakes:
        dashes = _DASHES.get(name, (None, None))
        axes.plot([0.0, _rpm(right)], [0.0, slope * right], color=INK, linewidth=1.0, dashes=dashes, zorder=2)
    gap = LINE / per_hertz
    heights = spread(ends, gap, (0.0, top + gap * 0.2))
    for (name, multiple, slope), y in zip(shakes, heights, strict=True):
        times = "" if multiple == 1 else f"{multiple} × "
        steep = slope * right > top
        axes.annotate(
            f"{times}{name}{' ↑' if steep else ''}",
            (1.0, y),
            (4, 0),
            xycoords=("axes fraction", "data"),
            textcoords="offset points",
            ha="left",
            va="center",
            fontsize=7.5,
            color=INK,
            annotation_clip=False,
        )


def _crossings(axes: Axes, found: Resonance, right: float, top: float) -> None:
    for m in found.meetings:
        if m.critical_speed > right or m.natural > top:
            continue
        axes.plot(
            _rpm(m.critical_speed),
            m.natural,
            marker="o",
            markersize=4.5,
            color=PAPER if m.apart else SECOND,
            markeredgecolor=SOFT if m.apart else SECOND,
            markeredgewidth=0.9,
            zorder=6,
        )


def _title(found: Resonance) -> str:
    close = [m for m in found.meetings if not m.apart]
    margin = fmt.quantity(found.margin, fmt.SHARE, 2)
    if not close:
        first = found.meetings[0]
        return f"Nothing answers within {margin} of what shakes it; nearest {_pair(first)}, {_off(first)}"
    crossed = [m for m in close if m.separation == 0.0]
    if crossed:
        speed = fmt.quantity(crossed[0].critical_speed, fmt.ROTATION)
        return f"{_upper(_pair(crossed[0]))} meet at {speed}; {len(close)} pairs in all are nearer than {margin}"
    return f"{len(close)} pairs are nearer than {margin}, first {_pair(close[0])}"


def _pair(m: Meeting) -> str:
    times = "" if m.multiple == 1 else f"{m.multiple} × "
    return f"{label(m.part, 20)}, mode {m.mode}, and {times}{m.shaken_by}"


def _off(m: Meeting) -> str:
    """How far the two stay apart."""
    if m.natural > 2.0 * m.highest:
        return f"{fmt.number(m.natural / m.highest, 1)} times as fast"
    return f"{fmt.quantity(m.separation, fmt.SHARE, 2)} off"


def _upper(text: str) -> str:
    return f"{text[:1].upper()}{text[1:]}"
