"""What loads, masses and costs become from one step to the next: factors with their ranges."""

from __future__ import annotations

import math
from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter, LogLocator, NullFormatter

from racewright.dossier import format as fmt
from racewright.dossier.figures.house import (
    ACCENT,
    BODY,
    INK,
    SECOND,
    SOFT,
    bare_names,
    grid,
    in_house_style,
    is_narrow,
    sheet,
)
from racewright.dossier.figures.label import label
from racewright.growth.size_exponents import ScaledQuantity

_COLOURS = {"load": ACCENT, "mass": BODY, "cost": SECOND, "other": SOFT}
_HEADINGS = {"load": "loads", "mass": "masses", "cost": "costs", "other": "others"}
OVER = {
    "throat_diameter": "diameter",
    "stream_speed": "stream speed",
    "flow_force": "ρU²D²",
    "flow_moment": "ρU²D³",
    "thrust": "thrust",
    "torque": "torque",
    "rated_power": "rated power",
}
"""Words for the measures of `growth.step_measures`."""


@in_house_style
def draw(scaled: Sequence[ScaledQuantity], first: str, second: str, width: float) -> Figure:
    """One bar a quantity on a logarithmic axis, from the low to the high factor, a tick at the middle.

    Parameters
    ----------
    scaled : sequence of ScaledQuantity
        One or more, from one step to the next.
    first, second : str
        Names of the steps.
    width : float
        Width of the figure [in].
    """
    narrow = is_narrow(width)
    rows = _rows(scaled)
    figure = sheet(width, 0.95 + 0.21 * len(rows), _title(scaled, first, second))
    axes = figure.add_subplot()
    axes.set_xscale("log")
    for y, row in enumerate(rows):
        if isinstance(row, ScaledQuantity):
            _bar(axes, y, row, narrow)
    axes.set_yticks(range(len(rows)), [_name(row, narrow) for row in rows])
    for tick, row in zip(axes.get_yticklabels(), rows, strict=True):
        if isinstance(row, str):
            tick.set_fontweight("bold")
    axes.set_ylim(len(rows) - 0.4, -0.6)
    low, high = min(one.low_factor for one in scaled), max(one.high_factor for one in scaled)
    low, high = min(low, 1.0), max(high, 1.0)
    spread = max(high / low, 1.5)
    axes.set_xlim(low / spread**0.04, high * spread ** (0.22 if narrow else 0.12))
    axes.axvline(1.0, color=INK, linewidth=0.8)
    axes.xaxis.set_major_locator(LogLocator(10.0, subs=(1.0,) if spread > 30.0 else (1.0, 2.0, 5.0)))
    axes.xaxis.set_major_formatter(FuncFormatter(lambda value, _at: fmt.number(value, 0 if value >= 1.0 else 2)))
    axes.xaxis.set_minor_formatter(NullFormatter())
    bare_names(axes)
    axes.tick_params(axis="x", which="minor", length=0)
    axes.set_xlabel(f"times that of {label(first, 24)}")
    grid(axes, "x")
    return figure


def _bar(axes: Axes, y: int, row: ScaledQuantity, narrow: bool) -> None:
    colour = _COLOURS[row.exponent.kind]
    if row.high_factor > row.low_factor:
        axes.barh(y, row.high_factor - row.low_factor, left=row.low_factor, height=0.46, color=colour, alpha=0.45)
    axes.plot([row.factor] * 2, [y - 0.32, y + 0.32], color=colour, linewidth=2.0, solid_capstyle="butt")
    axes.annotate(
        _times(row.factor),
        (row.high_factor, y),
        (5.0, 0.0),
        textcoords="offset points",
        ha="left",
        va="center",
        fontsize=7.0 if narrow else 7.5,
        color=INK,
    )


def _rows(scaled: Sequence[ScaledQuantity]) -> list[ScaledQuantity | str]:
    """Headings and quantities, kind by kind."""
    found: list[ScaledQuantity | str] = []
    for kind, heading in _HEADINGS.items():
        mine = [one for one in scaled if one.exponent.kind == kind]
        found += [heading, *mine] if mine else []
    return found


def _name(row: ScaledQuantity | str, narrow: bool) -> str:
    if isinstance(row, str):
        return row
    name = label(row.exponent.name, 26)
    return name if narrow else f"{name}, {power_of(row)}"


def power_of(row: ScaledQuantity) -> str:
    """E.g. 'diameter^2.6 (2.0 to 3.0)'; a plain name where the exponent is 1."""
    one = row.exponent
    if one.low == one.high:
        return OVER[one.over] if one.value == 1.0 else f"{OVER[one.over]}^{one.value:g}"
    return f"{OVER[one.over]}^{one.value:g} ({one.low:g} to {one.high:g})"


def _times(factor: float) -> str:
    return f"×{fmt.number(factor, min(1 - math.floor(math.log10(factor)), 3))}"


def _title(scaled: Sequence[ScaledQuantity], first: str, second: str) -> str:
    names = f"From {label(first, 13)} to {label(second, 13)}"
    masses = [one for one in scaled if one.exponent.kind == "mass"]
    if not masses:
        return f"{names}: factors by exponent"
    widest = max(masses, key=lambda one: one.high_factor / one.low_factor)
    if widest.high_factor / widest.low_factor < 1.05:
        return f"{names}: factors by exponent"
    return f"{names}: {widest.exponent.name} {_times(widest.low_factor)} to {_times(widest.high_factor)}"
