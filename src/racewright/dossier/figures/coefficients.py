"""Power and thrust coefficient over tip-speed ratio, the band on power, the design point."""

from __future__ import annotations

import numpy as np
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
    INK,
    PAPER,
    grid,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.stage.result import OperatingPoint, SpeedRatioCurve


@in_house_style
def draw(curve: SpeedRatioCurve, point: OperatingPoint, width: float) -> Figure:
    """Both coefficients on the rotor annulus area at one stream speed.

    Parameters
    ----------
    curve : SpeedRatioCurve
    point : OperatingPoint
        The design point; the ratio of its band to its value is carried along the curve.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    ratio, power, thrust = curve.tip_speed_ratio, curve.power_coefficient, curve.thrust_coefficient
    figure = sheet(width, 3.3 if narrow else 3.1, _title(curve))
    axes = figure.add_subplot()
    low, high = _factors(point)
    axes.fill_between(ratio, power * low, power * high, color=ACCENT, alpha=0.2, linewidth=0)
    axes.plot(ratio, power, color=ACCENT)
    axes.plot(ratio, thrust, color=BODY, dashes=(5, 2))
    room = 0.24 if narrow else 0.14
    if ratio.size:
        span = float(ratio[-1] - ratio[0])
        axes.set_xlim(float(ratio[0]), float(ratio[-1]) + room * span)
        for values, label, colour in ((power, "power, CP", ACCENT), (thrust, "thrust, CT", BODY)):
            axes.text(
                float(ratio[-1]) + 0.015 * span,
                float(values[-1]),
                label.replace(", ", "\n") if narrow else label,
                color=colour,
                ha="left",
                va="center",
                fontsize=8,
            )
        top = max(float(np.max(thrust)), float(np.max(power)) * high, point.thrust_coefficient)
        axes.set_ylim(0.0 if min(power.min() * low, thrust.min()) >= 0 else None, 1.12 * top)
    x, y = point.tip_speed_ratio, point.power_coefficient
    axes.plot([x], [y], marker="o", markersize=6, color=PAPER, markeredgecolor=INK, markeredgewidth=1.3)
    axes.annotate(
        f"design point\nCP {fmt.number(y, 2)} at {fmt.number(x, 2)}",
        (x, y),
        (0, -13),
        textcoords="offset points",
        ha="center",
        va="top",
        fontsize=7.5,
        bbox=halo(),
    )
    axes.set_xlabel("tip-speed ratio, –")
    axes.set_ylabel("coefficient on the rotor annulus, –")
    grid(axes)
    return figure


def _factors(point: OperatingPoint) -> tuple[float, float]:
    """Low and high over value of the shaft power's band."""
    if point.band.value <= 0.0:
        return 1.0, 1.0
    return point.band.low / point.band.value, point.band.high / point.band.value


def _title(curve: SpeedRatioCurve) -> str:
    if not curve.power_coefficient.size:
        return "Power and thrust over tip-speed ratio"
    best = int(np.argmax(curve.power_coefficient))
    peak, where = float(curve.power_coefficient[best]), float(curve.tip_speed_ratio[best])
    return f"Power peaks at tip-speed ratio {fmt.number(where, 1)} with CP {fmt.number(peak, 2)}"
