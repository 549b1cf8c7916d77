"""What makes the band on yearly energy wide: one bar a cause, all together beneath."""

from __future__ import annotations

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, BODY, INK, bare_names, grid, in_house_style, is_narrow, sheet
from racewright.supply.speed_band import EnergyBand


@in_house_style
def draw(band: EnergyBand, width: float) -> Figure:
    """Bars about the computed energy, the widest first.

    Parameters
    ----------
    band : EnergyBand
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    total = band.total
    rows = [*((row.cause, row.low, row.high) for row in band.rows), ("all together", total.low, total.high)]
    scale = fmt.pick(fmt.ENERGY, max(total.value, total.high / 2))
    figure = sheet(width, 0.95 + 0.3 * len(rows), _title(band))
    axes = figure.add_subplot()
    digits = fmt.decimals_for(total.high / scale.factor, 3)
    reach = max(row[2] for row in rows) / scale.factor
    for y, (_name, low, high) in enumerate(rows):
        last = y == len(rows) - 1
        a, b = low / scale.factor, high / scale.factor
        axes.barh(y, b - a, left=a, height=0.5, color=ACCENT if last else BODY, alpha=0.9 if last else 0.75)
        if narrow and not last:
            continue
        for x, text, side in ((a, fmt.number(a, digits), "right"), (b, fmt.number(b, digits), "left")):
            gap = 0.012 * reach if side == "left" else -0.012 * reach
            axes.text(x + gap, y, text, ha=side, va="center", fontsize=7.5, color=INK)
    axes.axvline(total.value / scale.factor, color=INK, linewidth=1.0)
    axes.set_yticks(range(len(rows)), [row[0] for row in rows])
    axes.set_ylim(len(rows) - 0.5, -0.6)
    axes.set_xlim(min(0.0, total.low / scale.factor - 0.14 * reach), 1.14 * reach if reach > 0 else 1.0)
    bare_names(axes)
    axes.set_xlabel(f"yearly energy, {scale.unit}" + ("" if narrow else "; line: computed"))
    grid(axes, "x")
    return figure


def _title(band: EnergyBand) -> str:
    if band.total.value <= 0.0 or not band.rows:
        return "Yearly energy and its band"
    widest = max(band.rows, key=lambda row: row.high - row.low)
    name = f"{widest.cause[0].upper()}{widest.cause[1:]}"
    return f"{name} makes the band on the yearly energy widest"
