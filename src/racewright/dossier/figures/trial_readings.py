"""CP and CT over tip-speed ratio: as measured, in the open stream, and as predicted."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch
from numpy.typing import NDArray

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    PAPER,
    SECOND,
    SOFT,
    grid,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title

Floats = NDArray[np.float64]
_MARKERS = ("o", "s", "^", "D", "v", "P")
"""By blockage, least first; from the seventh on they begin again."""


_LEAST = 0.1
"""Least span of CP and CT in a drawing, so that a single reading is not blown up."""


@dataclass(frozen=True)
class Cloud:
    """Readings of one kind at one blockage.

    Attributes
    ----------
    kind : str
        'channel', 'open' or 'fouled'.
    marker : int
        Index of the blockage, least first [-].
    blockage : float
        Duct's circle over the channel's area [-].
    ratio, power, power_half, thrust, thrust_half : ndarray, shape (n,)
        Tip-speed ratio, CP and CT with half of their 95 % intervals [-].
    """

    kind: str
    marker: int
    blockage: float
    ratio: Floats
    power: Floats
    power_half: Floats
    thrust: Floats
    thrust_half: Floats


@dataclass(frozen=True)
class Predicted:
    """The prediction at the readings' own tip-speed ratios, rising; the band is on power alone.

    Attributes
    ----------
    ratio, power, low, high, thrust : ndarray, shape (n,)
        [-]
    """

    ratio: Floats
    power: Floats
    low: Floats
    high: Floats
    thrust: Floats


@in_house_style
def draw(clouds: Sequence[Cloud], predicted: Predicted | None, width: float, *, invented: bool) -> Figure:
    """Two panels over tip-speed ratio.

    Parameters
    ----------
    clouds : sequence of Cloud
        Not empty.
    predicted : Predicted or None
        None where nothing could be compared.
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    figure = sheet(width, 5.9 if narrow else 3.9, invented_title(_title(clouds), invented=invented))
    panels = figure.subplots(2, 1, sharex=True) if narrow else figure.subplots(1, 2)
    for axes, name in zip(panels, ("power", "thrust"), strict=True):
        _panel(axes, name, clouds, predicted)
    panels[-1].set_xlabel("tip-speed ratio, –")
    if not narrow:
        panels[0].set_xlabel("tip-speed ratio, –")
    handles = _handles(clouds, predicted)
    figure.legend(
        handles=handles,
        loc="outside lower left",
        ncols=1 if narrow else 2,
        frameon=False,
        fontsize=7.5,
        borderpad=0,
        columnspacing=1.6,
        handlelength=1.8,
    )
    return figure


def _panel(axes: Axes, name: str, clouds: Sequence[Cloud], predicted: Predicted | None) -> None:
    highest, lowest = [], []
    for cloud in clouds:
        values = cloud.power if name == "power" else cloud.thrust
        half = cloud.power_half if name == "power" else cloud.thrust_half
        axes.errorbar(cloud.ratio, values, half, fmt="none", elinewidth=0.9, ecolor=_colour(cloud), zorder=3)
        axes.plot(cloud.ratio, values, linestyle="none", zorder=4 if cloud.kind == "open" else 3.5, **_style(cloud))
        highest.append(float(np.max(values + half)))
        lowest.append(float(np.min(values - half)))
    if predicted is not None:
        line = predicted.power if name == "power" else predicted.thrust
        axes.plot(predicted.ratio, line, color=SECOND, linewidth=1.4, zorder=2)
        highest.append(float(np.max(line)))
        lowest.append(float(np.min(line)))
        if name == "power":
            axes.fill_between(
                predicted.ratio, predicted.low, predicted.high, color=SECOND, alpha=0.16, linewidth=0, zorder=1
            )
            highest.append(float(np.max(predicted.high)))
            lowest.append(float(np.min(predicted.low)))
    low, high = min(lowest), max(highest)
    room = max(0.06 * (high - low), 0.5 * (_LEAST - (high - low)))
    axes.set_ylim(low - room, high + room)
    axes.set_ylabel("power coefficient CP, –" if name == "power" else "thrust coefficient CT, –")
    grid(axes)


def _colour(cloud: Cloud) -> str:
    return SOFT if cloud.kind == "fouled" else ACCENT


def _style(cloud: Cloud) -> dict[str, Any]:
    if cloud.kind == "fouled":
        return {"marker": "x", "markersize": 3.6, "color": SOFT, "markeredgewidth": 0.8}
    face = ACCENT if cloud.kind == "open" else PAPER
    marker = _MARKERS[cloud.marker % len(_MARKERS)]
    return {
        "marker": marker,
        "markersize": 4.6,
        "color": face,
        "markeredgecolor": ACCENT,
        "markeredgewidth": 1.0,
    }


def _handles(clouds: Sequence[Cloud], predicted: Predicted | None) -> list[Any]:
    found: list[Any] = []
    for cloud in clouds:
        blocked = f"{fmt.quantity(cloud.blockage, fmt.SHARE, 2)} blocked"
        name = {
            "channel": f"in the channel, {blocked}",
            "open": f"in the open stream, from {blocked}",
            "fouled": "fouled, in the channel",
        }[cloud.kind]
        if name not in [h.get_label() for h in found]:
            found.append(Line2D([], [], linestyle="none", label=name, **_style(cloud)))
    if predicted is not None:
        found.append(Line2D([], [], color=SECOND, linewidth=1.4, label="predicted, as built"))
        found.append(Patch(facecolor=SECOND, alpha=0.16, label="band of the prediction (CP)"))
    return found


def _title(clouds: Sequence[Cloud]) -> str:
    best = max(
        ((float(c.power[k]), float(c.ratio[k]), c.kind) for c in clouds for k in range(c.power.size)),
        key=lambda b: (b[2] == "open", b[0]),
    )
    where = "in the open stream" if best[2] == "open" else "in the channel"
    return f"The largest CP {where} is {fmt.number(best[0], 2)}, at tip-speed ratio {fmt.number(best[1], 2)}"
