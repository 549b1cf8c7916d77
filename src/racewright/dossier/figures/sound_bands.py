"""Third-octave levels received near and far, with their uncertainty, and the ambient without the machine."""

from __future__ import annotations

from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
    INK,
    SECOND,
    SOFT,
    grid,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.sound.level_result import SoundLevel

_FLOOR = 30.0
"""What lies this far below the lowest ambient level is not drawn [dB]."""


@in_house_style
def draw(one: SoundLevel, point: str, width: float) -> Figure:
    """Levels over frequency.

    Parameters
    ----------
    one : SoundLevel
    point : str
        Name of the operating point.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    figure = sheet(width, 3.3, _title(one, point))
    axes = figure.add_subplot()
    shown = [0] if one.distance.size == 1 else [0, one.distance.size - 1]
    floor = float(one.ambient.min()) - _FLOOR
    top = max(float(one.received[0].max()), float(one.ambient.max())) + one.uncertainty
    axes.plot(one.frequency, one.ambient, color=SOFT, linewidth=1.4, dashes=(4, 2))
    for colour, i in zip((ACCENT, SECOND), shown, strict=False):
        level = one.received[i]
        axes.plot(one.frequency, level, color=colour)
        axes.fill_between(
            one.frequency, level - one.uncertainty, level + one.uncertainty, color=colour, alpha=0.16, linewidth=0.0
        )
        k = int(level.argmax())
        far = fmt.quantity(float(one.distance[i]), (fmt.Scale("m", 1.0), fmt.Scale("km", 1e3)), 2)
        axes.annotate(
            f"at {far}", (one.frequency[k], level[k]), xytext=(6, 4), textcoords="offset points", color=colour,
            fontsize=8.0, bbox=halo(),
        )  # fmt: skip
    k = int(0.72 * one.frequency.size)
    axes.annotate(
        "ambient", (one.frequency[k], one.ambient[k]), xytext=(0, 5), textcoords="offset points", color=INK,
        fontsize=8.0, bbox=halo(),
    )  # fmt: skip
    for tone in one.tones:
        if one.frequency[0] <= tone.frequency <= one.frequency[-1]:
            axes.axvline(tone.frequency, ymax=0.05, color=BODY, linewidth=1.2)
    axes.set_xscale("log")
    axes.xaxis.set_major_formatter(FuncFormatter(lambda value, _place: fmt.number(value, 0)))
    axes.set_xlim(float(one.frequency[0]), float(one.frequency[-1]))
    axes.set_ylim(floor, top + 4.0)
    ticks = "" if narrow or not one.tones else "; short lines: tones of rotor and vanes"
    axes.set_xlabel(f"middle frequency of the band, Hz{ticks}")
    axes.set_ylabel("third-octave level,\ndB re 1 µPa")
    grid(axes)
    return figure


def _title(one: SoundLevel, point: str) -> str:
    i = 0
    k = int(one.excess[i].argmax())
    excess = float(one.excess[i, k])
    near = fmt.quantity(float(one.distance[i]), fmt.LENGTH, 2)
    word = "above" if excess > 0.0 else "below"
    band = fmt.number(float(one.frequency[k]), 0)
    return f"{point}: at {near} the band of {band} Hz stands {abs(excess):.0f} dB {word} the ambient"
