"""The torque's ripple by order of the rotor's turns."""

from __future__ import annotations

from matplotlib.figure import Figure
from matplotlib.ticker import MaxNLocator

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
from racewright.dossier.figures.label import invented_title
from racewright.trials.ripple import Ripple


@in_house_style
def draw(ripple: Ripple, torque: float, rows: tuple[int, int], width: float, *, invented: bool) -> Figure:
    """Amplitude over the mean torque at each half-order; what stands out is named.

    Parameters
    ----------
    ripple : Ripple
        With at least one order.
    torque : float
        Mean, not 0 [N m].
    rows : (blades, vanes)
        Numbers, marked where the orders reach them [-].
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    figure = sheet(width, 2.9 if narrow else 2.7, invented_title(_title(ripple), invented=invented))
    axes = figure.add_subplot()
    size = 100.0 * ripple.amplitude / abs(torque)
    named = {p.order for p in ripple.peaks}
    for order, value in zip(ripple.order, size, strict=True):
        stands = float(order) in named
        axes.bar(order, value, width=0.34, color=SECOND if stands else ACCENT if order % 1.0 == 0.0 else BODY)
    most = max(float(size.max()), 1e-9)
    last = float(ripple.order[-1])
    axes.set_ylim(0.0, 1.45 * most)
    axes.set_xlim(0.0, last + 0.5)
    axes.xaxis.set_major_locator(MaxNLocator(integer=True))
    for count, word in zip(rows, ("blades", "vanes"), strict=True):
        if 1 < count <= last:
            axes.axvline(count, color=SOFT, linewidth=0.7, dashes=(2, 2), zorder=0)
            axes.text(
                count,
                0.99,
                word,
                transform=axes.get_xaxis_transform(),
                ha="center",
                va="top",
                fontsize=7.5,
                bbox=halo(),
            )
    for peak in sorted(ripple.peaks, key=lambda p: -p.amplitude)[: 3 if narrow else 5]:
        axes.text(
            peak.order,
            100.0 * peak.amplitude / abs(torque) + 0.03 * most,
            f"{fmt.number(100.0 * peak.amplitude / abs(torque), 2)}{fmt.THIN}%",
            ha="center",
            va="bottom",
            fontsize=7.5,
            color=INK,
            bbox=halo(),
        )
    axes.set_xlabel("multiple of the rotor's frequency, –")
    axes.set_ylabel("amplitude over\nmean torque, %")
    grid(axes)
    return figure


def _title(ripple: Ripple) -> str:
    if not ripple.peaks:
        last = fmt.number(float(ripple.order[-1]), 0)
        return f"No order of the torque stands out up to {last} times the rotor's turns"
    first = max(ripple.peaks, key=lambda p: p.amplitude)
    share = fmt.quantity(first.share, fmt.SHARE, 2)
    return f"The torque swings most at order {first.order} ({first.name}): {share} either side of its mean"
