"""The numbers of a plan that are in doubt, as ranges to draw from."""

from __future__ import annotations

import math
from typing import Any, cast

from racewright.errors import InputError
from racewright.growth.plan import SupplyPlan
from racewright.ledger.convert import Keys
from racewright.ledger.supply_things import SupplyBand
from racewright.supply.chance import Chance
from racewright.uncertainty.correlation import Correlation

DIFFERENCES = ("rate", "cost_growth", "fuel_growth")
"""Numbers whose range is a difference; all others are ratios."""
MOST_TOGETHER = 0.99


def own_value(plan: SupplyPlan, name: str) -> float:
    """A number of the plan by the name that its doubt has."""
    value: Any = getattr(plan, name)
    for inner in ("amount", "value"):
        value = getattr(value, inner, value)
    return float(value)


def chances_of(
    plan: SupplyPlan, table: Keys, band: SupplyBand | None
) -> tuple[tuple[Chance, ...], tuple[Correlation, ...]]:
    """Ranges as given; fuel saved and used energy by the drawn years, together as they were, where none is given.

    Raises
    ------
    InputError
        A range that does not fit its shape.
    """
    found = [_given(plan, name, doubt) for name, doubt in sorted(table["doubt"].items())]
    pairs = [
        Correlation(pair["first"], pair["second"], pair["correlation"])
        for _, pair in sorted(table["together"].items())
    ]
    if band is not None:
        drawn = {"fuel_saved": band.fuel_deviation, "used_energy": band.energy_deviation}
        for name, deviation in drawn.items():
            if name not in table["doubt"] and deviation > 0.0:
                found.append(_spread(name, own_value(plan, name), deviation))
        if not set(drawn) & set(table["doubt"]) and min(drawn.values()) > 0.0:
            together = max(-MOST_TOGETHER, min(MOST_TOGETHER, band.together))
            pairs.append(Correlation("fuel_saved", "used_energy", together))
    return tuple(found), tuple(pairs)


def _spread(name: str, value: float, deviation: float) -> Chance:
    """A ratio of this relative standard deviation: never below 0."""
    two = math.exp(2.0 * math.sqrt(math.log1p(deviation**2)))
    return (
        Chance(name, value / two, value, value * two, "ratio") if value > 0.0 else Chance(name, value, value, value)
    )


def _given(plan: SupplyPlan, name: str, doubt: Keys) -> Chance:
    value, shape = own_value(plan, name), doubt["shape"]
    low, high = ends(value, name, doubt["low"], doubt["high"])
    if low == high:
        return Chance(name, value, value, value)
    if shape == "even":
        value = 0.5 * (low + high)
    elif shape == "ratio":
        if low <= 0.0:
            raise InputError(f"{name}: a ratio wants both ends above 0; choose another shape", key="shape")
        value = math.sqrt(low * high)
    return Chance(name, low, value, high, cast(Any, shape))


def ends(value: float, name: str, low: float, high: float) -> tuple[float, float]:
    """Ends of a number from its range as written, the lesser first."""
    found = (value + low, value + high) if name in DIFFERENCES else (value * low, value * high)
    return min(found), max(found)
