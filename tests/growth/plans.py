"""Plans for the tests of money."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from racewright.growth.plan import SupplyPlan
from racewright.supply.money import Money, Rate, Terms

KWH = 3.6e6
REAL, BILL = Terms("USD", "real", 2025), Terms("USD", "nominal")


def usd(amount: float, terms: Terms = REAL) -> Money:
    return Money(amount, terms)


BASE = SupplyPlan(
    name="river unit",
    capital=usd(50e3),
    yearly_cost=usd(3e3),
    fuel_saved=6.0,
    fuel_price=usd(1400.0),
    other_saved=usd(400.0),
    used_energy=20e3 * KWH,
    rate=Rate(0.07, "real"),
    years=20,
)


def plan(**change: Any) -> SupplyPlan:
    return replace(BASE, **change)


def nominal(**change: Any) -> SupplyPlan:
    """The same figures on the bill."""
    given = {
        "capital": usd(50e3, BILL),
        "yearly_cost": usd(3e3, BILL),
        "fuel_price": usd(1400.0, BILL),
        "other_saved": usd(400.0, BILL),
        "rate": Rate(0.07, "nominal"),
    }
    return replace(BASE, **(given | change))
