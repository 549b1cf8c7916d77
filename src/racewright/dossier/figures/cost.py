"""What a kilowatt-hour costs from the machine, what fuel it saves, and what the diesel costs, by part."""

from __future__ import annotations

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
    INK,
    PAPER,
    RULE,
    bare_names,
    grid,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.supply.result import Comparison


@in_house_style
def draw(comparison: Comparison, width: float) -> Figure:
    """Three bars per kilowatt-hour; the thin line is the machine's band.

    Parameters
    ----------
    comparison : Comparison
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    scale = fmt.per_energy(comparison.currency)[0]
    machine, diesel, band = comparison.machine, comparison.diesel, comparison.machine_cost
    figure = sheet(width, 3.5 if narrow else 3.0, _title(comparison))
    axes = figure.add_subplot()
    most = max(band.high, machine.cost, diesel.cost, comparison.fuel_worth_set_on) / scale.factor
    bars = (
        (2.0, (("capital", machine.capital_part, ACCENT), ("running", machine.running_part, RULE))),
        (1.0, (("fuel", comparison.fuel_worth_set_on, BODY),)),
        (
            0.0,
            (
                ("fuel", diesel.fuel_part, BODY),
                ("running", diesel.running_part, RULE),
                ("capital", diesel.capital_part, ACCENT),
            ),
        ),
    )
    for y, parts in bars:
        left = 0.0
        for _, part, colour in parts:
            size = part / scale.factor
            axes.barh(y, size, left=left, height=0.5, color=colour, edgecolor=PAPER, linewidth=0.8)
            left += size
        words = " + ".join(f"{name} {fmt.number(part / scale.factor, 2)}" for name, part, _ in parts)
        axes.text(0.0, y - 0.29, words, ha="left", va="top", fontsize=7.5)
    low, high = band.low / scale.factor, band.high / scale.factor
    axes.plot([low, high], [2.36, 2.36], color=INK, linewidth=1.0)
    for x in (low, high):
        axes.plot([x, x], [2.30, 2.42], color=INK, linewidth=1.0)
    axes.text(
        (low + high) / 2,
        2.44,
        f"band {fmt.band(band, (scale,)).range}",
        ha="center",
        va="bottom",
        fontsize=7.5,
    )
    axes.set_ylim(-0.62, 2.8)
    axes.set_xlim(0, 1.08 * most)
    axes.set_yticks([2.0, 1.0, 0.0])
    axes.set_yticklabels(["machine", "saves,\nset on", "diesel,\nwhole"])
    bare_names(axes)
    axes.set_xlabel(f"cost of energy, {scale.unit}")
    axes.set_axisbelow(True)
    grid(axes, "x")
    axes.grid(color=RULE, axis="x")
    return figure


def _title(comparison: Comparison) -> str:
    unit = fmt.per_energy(comparison.currency)
    ours = fmt.band(comparison.machine_cost, unit).value
    worth = fmt.quantity(comparison.fuel_worth_set_on, unit, 2)
    return f"A kilowatt-hour costs {ours} from the machine and saves {worth} of fuel while the diesel set stays on"
