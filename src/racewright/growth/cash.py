"""Cash by year of a plan, for one set of numbers or for many draws at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.growth.plan import SupplyPlan
from racewright.supply.levelised import capital_recovery

Floats = NDArray[np.float64]

UNCERTAIN = (
    "capital",
    "yearly_cost",
    "fuel_saved",
    "fuel_price",
    "other_saved",
    "used_energy",
    "rate",
    "cost_growth",
    "fuel_growth",
    "replacement",
)
"""Numbers of a plan that may be drawn; 'replacement' is a factor on all replacements, the others as in the plan."""


@dataclass(frozen=True, slots=True)
class Cash:
    """Cash by year; what comes in is above 0. Shape (draws, years + 1), year 0 first.

    Attributes
    ----------
    capital, upkeep, replacement, fuel, other, loan : ndarray
        `loan` holds the borrowed sum in year 0 and the payments after; the residual stands in `capital` [currency].
    net : ndarray
        Sum of them [currency].
    discount : ndarray
        What 1 of each year is worth at the start [-].
    energy : ndarray, shape (draws,)
        Used in a year [J/yr].
    """

    capital: Floats
    upkeep: Floats
    replacement: Floats
    fuel: Floats
    other: Floats
    loan: Floats
    net: Floats
    discount: Floats
    energy: Floats

    def worth(self) -> Floats:
        """Net present value, shape (draws,) [currency]."""
        found: Floats = np.sum(self.net * self.discount, axis=1)
        return found

    def levelised(self) -> Floats:
        """Present cost over present energy, loan and savings left out, shape (draws,) [currency/J]."""
        cost = -np.sum((self.capital + self.upkeep + self.replacement) * self.discount, axis=1)
        found: Floats = cost / (self.energy * np.sum(self.discount[:, 1:], axis=1))
        return found


def cash(plan: SupplyPlan, draws: Mapping[str, Floats] | None = None) -> Cash:
    """Cash by year.

    Parameters
    ----------
    plan : SupplyPlan
    draws : mapping of str to ndarray, shape (draws,), optional
        Numbers of the plan to take instead, by their name in `UNCERTAIN`.

    Raises
    ------
    InputError
        An unknown name, rows of unlike length, numbers not finite.
    NoAnswerError
        Draws without energy, or rates of -50 % a year and less.
    """
    given = _given(plan, draws or {})
    years = np.arange(plan.years + 1, dtype=np.float64)
    shape = (given["capital"].size, years.size)

    def yearly(amount: Floats, growth: Floats) -> Floats:
        row = amount[:, None] * (1.0 + growth[:, None]) ** (years - 1.0)
        row[:, 0] = 0.0
        return row

    capital = np.zeros(shape)
    capital[:, 0] = -given["capital"]
    if plan.residual is not None:
        capital[:, -1] += plan.residual.amount
    replacement = np.zeros(shape)
    for one in plan.replacements:
        replacement[:, one.after] -= given["replacement"] * one.cost.amount
    upkeep = -yearly(given["yearly_cost"], given["cost_growth"])
    fuel = yearly(given["fuel_saved"] * given["fuel_price"], given["fuel_growth"])
    other = yearly(given["other_saved"], np.zeros(shape[0]))
    loan = given["capital"][:, None] * _loan(plan, years)
    discount = (1.0 + given["rate"][:, None]) ** -years
    net = capital + upkeep + replacement + fuel + other + loan
    return Cash(capital, upkeep, replacement, fuel, other, loan, net, discount, given["used_energy"])


def _given(plan: SupplyPlan, draws: Mapping[str, Floats]) -> dict[str, Floats]:
    unknown = [name for name in draws if name not in UNCERTAIN]
    if unknown:
        raise InputError(f"a plan has no number {unknown[0]!r}; there are {', '.join(UNCERTAIN)}")
    sizes = {np.shape(row) for row in draws.values()} or {(1,)}
    shape = sizes.pop()
    if sizes or len(shape) != 1 or shape[0] == 0:
        raise InputError("draws of a plan's numbers want rows of one length, one draw or more")
    found = {}
    for name in UNCERTAIN:
        row = np.asarray(draws[name], dtype=np.float64) if name in draws else np.full(shape, _own(plan, name))
        if not np.isfinite(row).all():
            raise InputError(f"a draw of {name} is not finite")
        found[name] = row
    if (found["used_energy"] <= 0.0).any():
        raise NoAnswerError("some draws use no energy, so they have no cost per energy: narrow the energy's range")
    for name in ("rate", "cost_growth", "fuel_growth"):
        if (found[name] <= -0.5).any():
            raise NoAnswerError(f"some draws of {name} lie at -50 % a year or below: narrow its range")
    return found


def _own(plan: SupplyPlan, name: str) -> float:
    own = {
        "capital": plan.capital.amount,
        "yearly_cost": plan.yearly_cost.amount,
        "fuel_saved": plan.fuel_saved,
        "fuel_price": plan.fuel_price.amount,
        "other_saved": plan.other_saved.amount,
        "used_energy": plan.used_energy,
        "rate": plan.rate.value,
        "cost_growth": plan.cost_growth,
        "fuel_growth": plan.fuel_growth,
        "replacement": 1.0,
    }
    return own[name]


def _loan(plan: SupplyPlan, years: Floats) -> Floats:
    """Borrowed sum and payments by year, for a capital of 1."""
    row = np.zeros(years.size)
    if plan.loan is None or plan.loan.share == 0.0:
        return row
    rate = plan.loan_rate()
    row[0] = plan.loan.share
    paying = (years >= 1.0) & (years <= plan.loan.years)
    row[paying] = -plan.loan.share * capital_recovery(rate.value, float(plan.loan.years))
    if rate.kind != plan.terms.kind and plan.inflation is not None:
        price = (1.0 + plan.inflation) ** years
        row *= price if plan.terms.kind == "nominal" else 1.0 / price
    return row
