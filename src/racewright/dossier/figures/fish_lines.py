"""Absolute pressure along the streamlines through the rotor, and strain rates beside what fish bear."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
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
from racewright.dossier.figures.label import label

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Felt:
    """What fish feel at the design point.

    Attributes
    ----------
    x : ndarray, shape (s,)
        From the duct's leading edge [m].
    pressure : ndarray, shape (k, s)
        Absolute, at the depth of each line above the axis [Pa].
    nadir : float
        Worst of all, suction of the sections taken off [Pa].
    rows : tuple of (float, float, str)
        From, to [m] and name of vanes and rotor.
    strain : tuple of (str, float)
        Largest strain rate by place [1/s].
    borne : tuple of (str, float)
        Fish (untrusted) and the strain rate without notable injury [1/s].
    """

    x: Floats
    pressure: Floats
    nadir: float
    rows: tuple[tuple[float, float, str], ...]
    strain: tuple[tuple[str, float], ...]
    borne: tuple[tuple[str, float], ...]


@in_house_style
def draw(felt: Felt, width: float) -> Figure:
    """Pressure above, strain rates below.

    Parameters
    ----------
    felt : Felt
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    fall = fmt.quantity(float(felt.pressure[:, 0].max()) - felt.nadir, fmt.PRESSURE, 2)
    figure = sheet(width, 5.4 if narrow else 4.6, f"On the way through the pressure falls by {fall} at most")
    above, below = figure.subplots(2, 1, height_ratios=(1.5, 1.0))
    _pressure(above, felt)
    _strain(below, felt.strain, felt.borne, narrow=narrow)
    return figure


def _pressure(axes: Axes, felt: Felt) -> None:
    kilo = felt.pressure / 1e3
    low, high = min(float(kilo.min()), felt.nadir / 1e3), float(kilo.max())
    room = 0.16 * (high - low)
    for (start, end, name), side in zip(felt.rows, ("right", "left"), strict=True):
        axes.axvspan(start, end, color=WATER, linewidth=0.0)
        at = end if side == "right" else start
        axes.text(at, high + 0.75 * room, f" {name} ", ha=side, va="center", fontsize=7.5, color=SOFT)
    for line in kilo:
        axes.plot(felt.x, line, color=ACCENT, linewidth=1.0)
    axes.axhline(felt.nadir / 1e3, color=SECOND, linewidth=1.2, dashes=(4, 2))
    axes.text(
        felt.x[0], felt.nadir / 1e3, "worst: sections' mean suction taken off", va="bottom", ha="left", fontsize=7.5,
        color=SECOND, bbox=halo(),
    )  # fmt: skip
    axes.set_xlim(float(felt.x[0]), float(felt.x[-1]))
    axes.set_ylim(low - 0.5 * room, high + 1.5 * room)
    axes.set_xlabel("from the duct's leading edge, m")
    axes.set_ylabel("absolute\npressure, kPa")
    grid(axes)


def _strain(
    axes: Axes, strain: Sequence[tuple[str, float]], borne: Sequence[tuple[str, float]], *, narrow: bool
) -> None:
    most = max(*(rate for _place, rate in strain), *(rate for _fish, rate in borne), 1.0)
    for y, (_place, rate) in enumerate(strain):
        axes.barh(y, rate, height=0.6, color=BODY)
        axes.text(rate + 0.01 * most, y, fmt.number(rate, 0), va="center", ha="left", fontsize=7.5, color=INK)
    for k, (fish, rate) in enumerate(borne):
        axes.axvline(rate, color=SECOND, linewidth=1.2, dashes=(4, 2))
        axes.text(
            rate, len(strain) - 0.55 - 1.0 * (k % 2), f" {label(fish, 18)}", color=SECOND, fontsize=7.5, va="bottom",
            ha="left", bbox=halo(),
        )  # fmt: skip
    axes.set_yticks(range(len(strain)), [place for place, _rate in strain])
    axes.set_ylim(len(strain) - 0.4, -0.6)
    axes.set_xlim(0.0, 1.25 * most)
    axes.tick_params(axis="y", length=0)
    axes.spines["left"].set_visible(False)
    marked = "; dashed: no notable injury up to here" if borne and not narrow else ""
    axes.set_xlabel(f"largest strain rate over 1.8 cm, 1/s{marked}")
    grid(axes, "x")
