"""How likely a year is to see a first blow, an energy or a line tension above a level."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FixedLocator

from racewright.dossier import format as fmt
from racewright.dossier.figures.holding_shape import Floats
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
from racewright.holding.contact_table import contact_stiffnesses
from racewright.holding.log_exceedance import LogExceedance, yearly_chance

_LEVELS = 60
_SURE = 4.0
"""Blows a year above the lowest level drawn, if there are so many."""
_FEWEST = 5
"""Draws above a level, below which the curve ends."""
_CHANCES = (1e-4, 2e-4, 1e-3, 2e-3, 0.01, 0.02, 0.1, 0.2, 0.5, 1.0)
_JOULE = (fmt.Scale("J", 1.0), fmt.Scale("kJ", 1e3), fmt.Scale("MJ", 1e6))


class _Curve(NamedTuple):
    values: Floats
    colour: str
    name: str


def pressed_energy(found: LogExceedance) -> Floats:
    """Energy that the contact stores at greatest pressure, for each log drawn: F^2/(2 k), k the contact's [J].

    Where two places share a blow, `first_low` is their sum and this is up to twice the energy.
    """
    energy: Floats = found.first_low**2 / (2.0 * contact_stiffnesses()[0].value)
    return energy


@in_house_style
def draw(found: LogExceedance, width: float, *, capacity: float | None = None, invented: bool = False) -> Figure:
    """Chance of a year over first-blow force, over energy pressed in, and over slow line tension.

    Parameters
    ----------
    found : LogExceedance
    width : float
        Width of the figure [in].
    capacity : float, optional
        Tension along the stream at which the first link parts [N].
    invented : bool
        Whether the title says that the data are invented.
    """
    narrow = is_narrow(width)
    figure = sheet(width, 6.9 if narrow else 3.2, invented_title(_title(found), invented=invented))
    views = figure.subplots(3, 1) if narrow else figure.subplots(1, 3, sharey=True)
    soft, stiff = (fmt.number(contact_stiffnesses()[i].value / 1e6, 1 if i == 0 else 0) for i in (0, -1))
    force = (
        _Curve(found.first_low, SECOND, f"softest contact, {soft}{fmt.THIN}MN/m"),
        _Curve(found.first_high, BODY, f"stiffest, {stiff}{fmt.THIN}MN/m"),
    )
    _panel(views[0], found, force, fmt.FORCE, "first-blow force")
    _panel(views[1], found, (_Curve(pressed_energy(found), INK, ""),), _JOULE, "energy pressed in")
    scale = _panel(views[2], found, (_Curve(found.slow, ACCENT, ""),), fmt.FORCE, "slow line tension")
    if capacity is not None and np.isfinite(capacity):
        _capacity(views[2], capacity / scale.factor)
    for axes in views if narrow else views[:1]:
        axes.set_ylabel("chance in a year" if narrow else "chance that a year passes the level")
    return figure


def levels_of(values: Floats, encounters: float) -> Floats:
    """Levels from one that nearly every year passes to the highest that enough draws pass.

    Parameters
    ----------
    values : ndarray, shape (n,)
        One a draw [any one unit].
    encounters : float
        Expected a year [1/yr].
    """
    real = np.sort(values[np.isfinite(values) & (values > 0.0)])
    if real.size <= _FEWEST:
        return np.empty(0)
    low, high = float(np.quantile(real, max(0.0, 1.0 - _SURE / encounters))), float(real[-_FEWEST])
    return np.linspace(low, max(high, low * 1.0001), _LEVELS)


def _panel(
    axes: Axes, found: LogExceedance, curves: tuple[_Curve, ...], units: tuple[fmt.Scale, ...], what: str
) -> fmt.Scale:
    every = [levels_of(curve.values, found.draws.encounters) for curve in curves]
    scale = fmt.pick(units, 0.5 * max((float(v[-1]) for v in every if v.size), default=1.0))
    for place, (curve, levels) in enumerate(zip(curves, every, strict=True)):
        if levels.size:
            chance = yearly_chance(curve.values, levels, found.draws)
            x = levels / scale.factor
            axes.fill_between(
                x, np.maximum(chance.low, 1e-9), chance.high, color=curve.colour, alpha=0.2, linewidth=0
            )
            axes.plot(x, chance.chance, color=curve.colour, linewidth=1.5)
        axes.text(
            0.03,
            0.11 - 0.075 * place,
            curve.name,
            transform=axes.transAxes,
            fontsize=7.0,
            color=curve.colour,
            bbox=halo() if curve.name else None,
        )
    axes.set_yscale("log")
    axes.set_xlim(left=0.0)
    axes.set_ylim(_least(found), 1.4)
    axes.yaxis.set_major_locator(FixedLocator(_CHANCES))
    axes.yaxis.set_minor_locator(FixedLocator([]))
    axes.yaxis.set_major_formatter(lambda y, _: "1" if y >= 1.0 else f"1 in {round(1.0 / y)}")
    axes.set_xlabel(f"{what}, {scale.unit}")
    grid(axes)
    return scale


def _least(found: LogExceedance) -> float:
    """Foot of the axis: below the chance of what the fewest draws pass."""
    least = -np.expm1(-found.draws.encounters * _FEWEST / found.first_low.size)
    return float(np.clip(0.25 * least, 1e-4, 0.4))


def _capacity(axes: Axes, capacity: float) -> None:
    axes.axvline(capacity, color=INK, linewidth=0.9, dashes=(3, 2))
    right = axes.get_xlim()[1]
    axes.set_xlim(0.0, max(right, 1.08 * capacity))
    axes.annotate(
        "first link\nparts",
        (capacity, 0.0),
        (-3, 4),
        xycoords=("data", "axes fraction"),
        textcoords="offset points",
        ha="right",
        va="bottom",
        fontsize=7.0,
        color=SOFT,
        bbox=halo(),
    )


def _title(found: LogExceedance) -> str:
    rate = fmt.number(found.draws.encounters, fmt.decimals_for(found.draws.encounters, 2))
    first = next((f for f in found.figures if f.name == "first-blow force passed in one year of 10"), None)
    if first is None:
        return f"About {rate} logs a year meet the machine; bands are 95 % limits of what was drawn"
    low, high = (fmt.quantity(v, fmt.FORCE, 2) for v in (first.low, first.high))
    return f"About {rate} logs a year meet the machine; one year in ten passes {low} to {high}, by contact"
