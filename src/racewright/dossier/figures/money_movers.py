"""What moves the net present value: each number in doubt from end to end, and the band of all together."""

from __future__ import annotations

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, INK, RULE, SECOND, SOFT, in_house_style, is_narrow, sheet
from racewright.ledger.money_things import PlanMoney

WORDS = {
    "capital": "capital",
    "yearly_cost": "yearly cost",
    "fuel_saved": "fuel saved",
    "fuel_price": "fuel price",
    "other_saved": "upkeep of sets saved",
    "used_energy": "energy used",
    "rate": "interest",
    "cost_growth": "growth of cost",
    "fuel_growth": "growth of fuel price",
}
"""Numbers of a plan in words."""


@in_house_style
def draw(plan: PlanMoney, currency: str, width: float) -> Figure:
    """Bars from the value at a number's low end to that at its high end; the lowest bar is P10 to P90 of all.

    Parameters
    ----------
    plan : PlanMoney
        With one number in doubt or more.
    currency : str
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    movers = [m for m in plan.movers if m.value_at_low != m.value_at_high]
    figure = sheet(width, 1.5 + 0.34 * (len(movers) + 1), _title(plan))
    axes = figure.add_subplot()
    thousands = 1e-3
    for i, one in enumerate(movers):
        for end, colour in ((one.value_at_low, ACCENT), (one.value_at_high, SECOND)):
            start = plan.net_present_value
            axes.barh(i, (end - start) * thousands, left=start * thousands, height=0.6, color=colour, alpha=0.8)
    last = len(movers)
    band = plan.value_band
    axes.plot([band.p10 * thousands, band.p90 * thousands], [last, last], color=INK, linewidth=2.2)
    axes.plot(band.p50 * thousands, last, marker="o", color=INK, markersize=4.5)
    axes.axvline(0.0, color=SOFT, linewidth=0.9)
    axes.axvline(plan.net_present_value * thousands, color=INK, linewidth=0.7, linestyle=(0, (4, 3)))
    names = [WORDS.get(one.name, one.name) for one in movers]
    axes.set_yticks(range(last + 1), [*names, "all together" if narrow else "all together, P10 to P90"])
    axes.set_ylim(last + 0.6, -0.6)
    axes.tick_params(axis="y", length=0)
    axes.grid(visible=True, axis="x", color=RULE)
    axes.set_xlabel(f"net present value, 1000 {currency}")
    low = axes.barh([0], [0], color=ACCENT, alpha=0.8, label="number at its low end")
    high = axes.barh([0], [0], color=SECOND, alpha=0.8, label="at its high end")
    figure.legend(handles=[low, high], loc="outside lower center", ncols=2, frameon=False, fontsize=7.5)
    return figure


def _title(plan: PlanMoney) -> str:
    movers = [m for m in plan.movers if m.value_at_low != m.value_at_high]
    if not movers:
        return "No number is in doubt"
    name = WORDS.get(movers[0].name, movers[0].name)
    chance = fmt.number(100.0 * plan.chance_of_gain, 0)
    return f"{name.capitalize()} moves the worth most; a gain in {chance} of 100 draws"
