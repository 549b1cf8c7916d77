"""How far the test lies from the prediction, over tip-speed ratio and by region."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    INK,
    PAPER,
    SECOND,
    SOFT,
    grid,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title
from racewright.ledger.trials_check import NEAR
from racewright.ledger.trials_findings import Compared, Region

_INSIDE: dict[str, Any] = {"marker": "o", "markersize": 4.4, "color": ACCENT, "markeredgecolor": ACCENT}
_OUTSIDE: dict[str, Any] = {
    "marker": "X",
    "markersize": 7.5,
    "color": ACCENT,
    "markeredgecolor": PAPER,
    "markeredgewidth": 0.5,
}
_THRUST: dict[str, Any] = {
    "marker": "^",
    "markersize": 4.2,
    "color": PAPER,
    "markeredgecolor": INK,
    "markeredgewidth": 0.9,
}


@in_house_style
def draw(
    rows: Sequence[Compared],
    regions: Sequence[Region],
    design: float,
    width: float,
    *,
    coverage: float,
    invented: bool,
) -> Figure:
    """Measured less predicted over predicted.

    Parameters
    ----------
    rows : sequence of Compared
        At least one with a prediction; the rest are left out.
    regions : sequence of Region
    design : float
        Tip-speed ratio of the design [-].
    width : float
        Width of the figure [in].
    coverage : float
        Half of a bar over the standard uncertainty [-].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    figure = sheet(width, 3.5 if narrow else 3.1, invented_title(_title(regions), invented=invented))
    axes = figure.add_subplot()
    told = sorted((r for r in rows if r.power_residual is not None), key=lambda r: r.tip_speed_ratio)
    ratio = np.array([r.tip_speed_ratio for r in told])
    _band(axes, told, ratio)
    axes.axhline(0.0, color=SECOND, linewidth=1.2, zorder=2)
    kinds = _points(axes, told, coverage)
    span = _limits(axes, ratio, design)
    _regions(axes, regions, design, span)
    axes.set_xlabel("tip-speed ratio in the open stream, –")
    axes.set_ylabel("measured off predicted, %")
    grid(axes)
    figure.legend(
        handles=kinds,
        loc="outside lower left",
        ncols=1 if narrow else 3,
        frameon=False,
        fontsize=7.5,
        borderpad=0,
        columnspacing=1.4,
        handlelength=1.6,
    )
    return figure


def _band(axes: Axes, told: Sequence[Compared], ratio: Any) -> None:
    """The predicted band of CP as a share of the prediction."""
    low, high = (
        [100.0 * ((end or 0.0) / r.predicted_power - 1.0) if r.predicted_power else 0.0 for r, end in pairs]
        for pairs in ([(r, r.predicted_low) for r in told], [(r, r.predicted_high) for r in told])
    )
    axes.fill_between(ratio, low, high, color=SECOND, alpha=0.14, linewidth=0, zorder=1)


def _points(axes: Axes, told: Sequence[Compared], coverage: float) -> list[Any]:
    handles: list[Any] = []
    for name, style, own in (
        ("CP, interval reaches the band", _INSIDE, [r for r in told if r.inside]),
        ("CP, interval does not reach it", _OUTSIDE, [r for r in told if not r.inside]),
    ):
        if own:
            x, y = [r.tip_speed_ratio for r in own], [100.0 * (r.power_residual or 0.0) for r in own]
            wide = 100.0 * coverage
            half = [wide * r.power_uncertainty / r.predicted_power if r.predicted_power else 0.0 for r in own]
            axes.errorbar(x, y, half, fmt="none", elinewidth=0.9, ecolor=ACCENT, zorder=4)
            axes.plot(x, y, linestyle="none", zorder=5, **style)
            handles.append(Line2D([], [], linestyle="none", label=name, **style))
    force = [r for r in told if r.thrust_residual is not None]
    if force:
        axes.plot(
            [r.tip_speed_ratio for r in force],
            [100.0 * (r.thrust_residual or 0.0) for r in force],
            linestyle="none",
            zorder=4,
            **_THRUST,
        )
        handles.append(Line2D([], [], linestyle="none", label="CT", **_THRUST))
    handles.append(Patch(facecolor=SECOND, alpha=0.14, label="band of the prediction (CP)"))
    handles.append(Line2D([], [], color=INK, linewidth=1.8, label="mean of a region (CP)"))
    return handles


def _limits(axes: Axes, ratio: Any, design: float) -> tuple[float, float]:
    edge = 0.06 * max(float(np.ptp(ratio)), 0.2 * design)
    span = float(ratio.min()) - edge, float(ratio.max()) + edge
    axes.set_xlim(span)
    low, high = axes.get_ylim()
    axes.set_ylim(low, high + 0.16 * (high - low))
    return span


def _regions(axes: Axes, regions: Sequence[Region], design: float, span: tuple[float, float]) -> None:
    edges = {
        "below": (span[0], (1.0 - NEAR) * design),
        "near": ((1.0 - NEAR) * design, (1.0 + NEAR) * design),
        "above": ((1.0 + NEAR) * design, span[1]),
    }
    for place in edges["near"]:
        if span[0] < place < span[1]:
            axes.axvline(place, color=SOFT, linewidth=0.8, dashes=(2, 2), zorder=0)
    for one in regions:
        left, right = max(edges[one.region][0], span[0]), min(edges[one.region][1], span[1])
        mean = 100.0 * one.power_residual
        inset = 0.04 * (right - left)
        axes.plot([left + inset, right - inset], [mean, mean], color=INK, linewidth=1.8, zorder=3)
        axes.text(
            0.5 * (left + right),
            0.985,
            one.region,
            transform=axes.get_xaxis_transform(),
            ha="center",
            va="top",
            fontsize=7.5,
            bbox=halo(),
        )


def _title(regions: Sequence[Region]) -> str:
    worst = max(regions, key=lambda r: abs(r.power_residual))
    word = "below" if worst.power_residual < 0.0 else "above"
    off = fmt.quantity(abs(worst.power_residual), fmt.SHARE, 2)
    where = worst.region[0].upper() + worst.region[1:]
    more = ", more than elsewhere" if len(regions) > 1 else ""
    return f"{where} the design's tip-speed ratio CP lies {off} {word} the prediction on average{more}"
