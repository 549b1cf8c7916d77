"""How likely a year is to see a first blow, an energy or a line tension above a level."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

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
_FEWEST = 5
"""Draws above a level, below which the curve ends."""
_JOULE = (fmt.Scale("J", 1.0), fmt.Scale("kJ", 1e3), fmt.Scale("MJ", 1e6))


class _Curve(NamedTuple):
    values: Floats
    colour: str
    name: str


def pressed_energy(found: LogExceedance) -> Floats:
    """Energy that the contact stores at greatest pressure, for each log drawn: F^2/(2 k), k the contact's [J]."""
    soft = contact_stiffnesses()[0].value
    energy: Floats = found.first_low**2 / (2.0 * soft)
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
    _panel(views[2], found, (_Curve(found.slow, ACCENT, ""),), fmt.FORCE, "slow line tension")
    if capacity is not None and np.isfinite(capacity):
        _capacity(views[2], found, capacity)
    for axes in views if narrow else views[:1]:
        axes.set_ylabel("chance in a year" if narrow else "chance that a year passes the level")
    return figure


def levels_of(values: Floats) -> Floats:
    """Levels from the least blow to the highest that enough draws pass."""
    real = np.sort(values[np.isfinite(values) & (values > 0.0)])
    if real.size <= _FEWEST:
        return np.empty(0)
    low, high = float(real[0]), float(real[-_FEWEST])
    return np.geomspace(low, max(high, low * 1.0001), _LEVELS)


def _panel(
    axes: Axes, found: LogExceedance, curves: tuple[_Curve, ...], units: tuple[fmt.Scale, ...], what: str
) -> None:
    top = max((float(levels_of(c.values)[-1]) for c in curves if levels_of(c.values).size), default=1.0)
    scale = fmt.pick(units, 0.3 * top)
    for place, curve in enumerate(curves):
        levels = levels_of(curve.values)
        if not levels.size:
            continue
        chance = yearly_chance(curve.values, levels, found.draws)
        x = levels / scale.factor
        axes.fill_between(x, np.maximum(chance.low, 1e-6), chance.high, color=curve.colour, alpha=0.2, linewidth=0)
        axes.plot(x, chance.chance, color=curve.colour, linewidth=1.5)
        if curve.name:
            axes.text(
                0.04,
                0.15 - 0.075 * place,
                curve.name,
                transform=axes.transAxes,
                fontsize=7.0,
                color=curve.colour,
                bbox=halo(),
            )
    axes.set_xscale("log")
    axes.set_yscale("log")
    axes.set_ylim(2e-3, 1.3)
    axes.yaxis.set_major_locator(_fixed([0.002, 0.01, 0.02, 0.1, 0.5, 1.0]))
    axes.yaxis.set_minor_locator(_fixed([]))
    axes.yaxis.set_major_formatter(lambda y, _: "1" if y >= 1.0 else f"1 in {round(1.0 / y)}")
    axes.xaxis.set_major_formatter(lambda x, _: f"{x:g}")
    axes.xaxis.set_minor_formatter(lambda x, _: "")
    axes.set_xlabel(f"{what}, {scale.unit}")
    grid(axes)


def _fixed(places: list[float]):  # type: ignore[no-untyped-def]
    from matplotlib.ticker import FixedLocator

    return FixedLocator(places)


def _capacity(axes: Axes, found: LogExceedance, capacity: float) -> None:
    levels = levels_of(found.slow)
    if not levels.size:
        return
    scale = fmt.pick(fmt.FORCE, 0.3 * float(levels[-1]))
    x = capacity / scale.factor
    axes.axvline(x, color=INK, linewidth=0.9, dashes=(3, 2))
    axes.annotate(
        "first link\nparts", (x, 1.0), (-3, -2), xycoords=("data", "axes fraction"), textcoords="offset points",
        ha="right", va="top", fontsize=7.0, color=SOFT, bbox=halo(),
    )  # fmt: skip


def _title(found: LogExceedance) -> str:
    rate = fmt.number(found.draws.encounters, fmt.decimals_for(found.draws.encounters, 2))
    first = next((f for f in found.figures if f.name.startswith("first-blow") and "10" in f.name), None)
    if first is None:
        return f"About {rate} logs a year meet the machine; bands are 95 % limits of what was drawn"
    low, high = (fmt.quantity(v, fmt.FORCE, 2) for v in (first.low, first.high))
    return f"About {rate} logs a year meet the machine; one year in ten sees a blow above {low} to {high} by contact"
