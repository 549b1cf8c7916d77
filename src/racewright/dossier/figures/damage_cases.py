"""Fatigue damage of a year by load case, on a logarithmic scale."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from matplotlib.figure import Figure

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
    INK,
    SECOND,
    bare_names,
    grid,
    halo,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import invented_title, label
from racewright.strength.damage import FatigueDamage

_LEAST = 1e-6
"""Yearly damage below which a bar is drawn as this [1/yr]."""


class Share(NamedTuple):
    """One load case: damage of its series, and how often that series comes in a year [1/yr]."""

    found: FatigueDamage
    times: float

    @property
    def yearly(self) -> float:
        """Design damage a year [1/yr]."""
        return self.found.design_damage * self.times


@in_house_style
def draw(cases: Mapping[str, Share], life: float, width: float, *, invented: bool = False) -> Figure:
    """One bar a load case and the sum beneath; the line is the yearly damage that lasts the wanted life.

    Parameters
    ----------
    cases : mapping of Share
        One or more, by load case.
    life : float
        Wanted, > 0 [yr].
    width : float
        Width of the figure [in].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    rows = sorted(((name, share.yearly) for name, share in cases.items()), key=lambda row: -row[1])
    total, limit = sum(value for _, value in rows), 1.0 / life
    title = invented_title(_title(rows, total, life), invented=invented)
    figure = sheet(width, 1.05 + 0.32 * (len(rows) + 1), title)
    axes = figure.add_subplot()
    foot = 10.0 ** math.floor(math.log10(max(_LEAST, 0.3 * min(v for _, v in [*rows, ("", limit)]))))
    top = 10.0 * max(total, limit)
    for y, (_, value) in enumerate([*rows, ("all together", total)]):
        last = y == len(rows)
        colour = (SECOND if total > limit else ACCENT) if last else BODY
        axes.barh(y, max(value, foot) - foot, left=foot, height=0.5, color=colour, alpha=0.9, linewidth=0)
        said = f"{_plain(value)} a year" if last and not narrow else _plain(value)
        axes.text(1.15 * max(value, foot), y, said, ha="left", va="center", fontsize=7.5, bbox=halo(), zorder=5)
    axes.axvline(limit, color=INK, linewidth=1.0, dashes=(3, 2))
    axes.set_xscale("log")
    axes.set_xlim(foot, top)
    names = [label(name, 16 if narrow else 34) for name, _ in rows]
    axes.set_yticks(range(len(rows) + 1), [*names, "all together"])
    axes.set_ylim(len(rows) + 0.5, -0.6)
    bare_names(axes)
    axes.xaxis.set_major_formatter(lambda x, _: f"{x:g}")
    axes.xaxis.set_minor_formatter(lambda _x, _: "")
    axes.set_xlabel("damage a year, factor in" + ("" if narrow else f"; dashed: what lasts {life:g} years"))
    grid(axes, "x")
    return figure


def _plain(value: float) -> str:
    """A small number in plain figures: '0.0021'; '0' below what is drawn."""
    return fmt.number(value, fmt.decimals_for(value, 2)) if value >= _LEAST else "0"


def _title(rows: list[tuple[str, float]], total: float, life: float) -> str:
    if total <= 0.0:
        return "No load case damages the part"
    name, first = rows[0]
    years = fmt.number(1.0 / total, fmt.decimals_for(1.0 / total, 2))
    share = fmt.quantity(first / total, fmt.SHARE, 2)
    verdict = "more" if 1.0 / total >= life else "less"
    lasts = f"The part lasts {years} years, {verdict} than the {life:g} wanted"
    return f"{lasts}; {share} of the damage is {label(name, 22)}"
