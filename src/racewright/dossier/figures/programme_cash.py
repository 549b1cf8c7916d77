"""Cash of a programme: what each quarter brings, and where the sum lies over many draws."""

from __future__ import annotations

import numpy as np
from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import ACCENT, BODY, INK, RULE, grid, in_house_style, is_narrow, sheet
from racewright.growth.programme_cash import ProgrammeCash


@in_house_style
def draw(cash: ProgrammeCash, width: float) -> Figure:
    """Bars of each quarter above; below the fan of the sum, ends at 10 and 90 % of the draws.

    Parameters
    ----------
    cash : ProgrammeCash
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    figure = sheet(width, 4.6, _title(cash))
    above, below = figure.subplots(2, 1, sharex=True, height_ratios=(1.0, 1.3))
    years = np.arange(cash.expected.size + 1) / 4.0
    unit, factor = _scale(cash)
    above.bar(years[:-1] + 0.125, cash.expected / factor, width=0.2, color=ACCENT, alpha=0.65, linewidth=0)
    above.stairs(cash.if_all_pass / factor, years, color=INK, linewidth=1.0)
    above.axhline(0.0, color=RULE, linewidth=0.8)
    above.set_ylabel(f"a quarter, {unit}")
    low, middle, high = (
        np.concatenate(([0.0], row)) / factor for row in (cash.sum_low, cash.sum_middle, cash.sum_high)
    )
    below.fill_between(years, low, high, color=ACCENT, alpha=0.2, linewidth=0)
    below.plot(years, middle, color=ACCENT)
    for row in (low, high):
        below.plot(years, row, color=ACCENT, linewidth=0.7)
    below.axhline(0.0, color=RULE, linewidth=0.8)
    below.set(ylabel=f"sum, {unit}", xlabel="years from the start", xlim=(0.0, float(years[-1])))
    below.set_ylim(1.12 * min(float(low.min()), -1e-9), None)
    ends = ((high, "90 % below", "bottom", 3), (middle, "middle", "top", -3), (low, "10 % below", "bottom", 3))
    for row, words, side, gap in ends:
        below.annotate(
            words,
            (float(years[-1]), float(row[-1])),
            (-3, gap),
            textcoords="offset points",
            ha="right",
            va=side,
            fontsize=7.0 if narrow else 7.5,
            color=BODY,
        )
    words = "bars: mean of all draws; line: mean where every gate is passed"
    above.set_title(words, loc="left", fontsize=6.5 if narrow else 7.5, color=BODY)
    for axes in (above, below):
        grid(axes)
    return figure


def _scale(cash: ProgrammeCash) -> tuple[str, float]:
    """Unit of the axes and what it holds [currency]."""
    most = float(np.abs(np.concatenate((cash.sum_low, cash.sum_high, cash.if_all_pass))).max())
    factor, word = (1e6, "million ") if most >= 1e6 else (1e3, "thousand ") if most >= 1e4 else (1.0, "")
    return f"{word}{cash.terms.currency}", factor


def _title(cash: ProgrammeCash) -> str:
    money = fmt.money(cash.terms.currency)
    low, middle, high = (
        fmt.quantity(_three(part), money) for part in (cash.deepest.p10, cash.deepest.p50, cash.deepest.p90)
    )
    return f"To be raised: {middle} in the middle, {low} to {high} in eight of ten draws"


def _three(value: float) -> float:
    """To three digits."""
    return float(f"{value:.3g}")
