"""What a plan is worth: net present value, payback, levelised cost, break-even fuel price and travel time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError
from racewright.growth.cash import Cash, cash
from racewright.growth.plan import SupplyPlan
from racewright.supply.delivery import Leg, travel_time_at
from racewright.supply.levelised import capital_recovery, levelised_cost
from racewright.supply.money import Money
from racewright.supply.result import LevelisedCost

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Worth:
    """A plan's worth.

    Attributes
    ----------
    net_present_value : Money
        Of all cash, loan included, at the start.
    payback, discounted_payback : float or None
        Time after which the summed cash, plain or discounted, stays at 0 or above [yr]; None: not within the life.
    levelised : LevelisedCost
        Without loan and savings [currency/J].
    break_even_fuel_price : Money or None
        Delivered, at which the net present value is 0 [currency/m3]; None when no fuel is saved. Below 0: the plan
        pays without any fuel price.
    cash : Cash
    """

    net_present_value: Money
    payback: float | None
    discounted_payback: float | None
    levelised: LevelisedCost
    break_even_fuel_price: Money | None
    cash: Cash


def worth(plan: SupplyPlan) -> Worth:
    """Value a plan.

    Raises
    ------
    InputError
        As `supply.levelised_cost`, such as a rate below 0.
    """
    flow = cash(plan)
    net, present = flow.net[0], flow.net[0] * flow.discount[0]
    value = float(flow.worth()[0])
    fuel = float(np.sum(flow.fuel[0] * flow.discount[0]))
    terms = plan.terms
    even = None
    if plan.fuel_saved > 0.0:
        each = float(np.sum(cash(plan, {"fuel_price": np.ones(1)}).fuel[0] * flow.discount[0]))
        even = Money((fuel - value) / each, terms)
    return Worth(Money(value, terms), _payback(net), _payback(present), _levelised(plan, flow), even, flow)


def break_even_travel_time(
    plan: SupplyPlan, fuel_price: Money, legs: tuple[Leg, ...], spoilt: float = 0.0, *, leg: int = -1
) -> float:
    """Time under way, there and back, of one leg of the fuel's way from which on the plan pays [s].

    Parameters
    ----------
    plan : SupplyPlan
    fuel_price : Money
        Where it is bought, in the plan's terms [currency/m3].
    legs, spoilt, leg
        As in `supply.delivery.travel_time_at`.

    Raises
    ------
    InputError
        Prices in other terms than the plan's.
    NoAnswerError
        No fuel is saved; the plan pays even without any way on this leg; time costs nothing there.
    """
    even = worth(plan).break_even_fuel_price
    if even is None:
        raise NoAnswerError(f"the plan {plan.name} saves no fuel: no travel time makes it pay")
    (even - fuel_price)  # refuses unlike terms
    if even.amount < 0.0:
        raise NoAnswerError(f"the plan {plan.name} pays at any fuel price")
    return travel_time_at(even.amount, fuel_price.amount, legs, spoilt, leg=leg)


def _levelised(plan: SupplyPlan, flow: Cash) -> LevelisedCost:
    """By `supply.levelised_cost`, a growing yearly cost as the even one of the same present value."""
    factor = capital_recovery(plan.rate.value, float(plan.years))
    even = -factor * float(np.sum(flow.upkeep[0] * flow.discount[0]))
    return levelised_cost(
        plan.capital.amount,
        even,
        plan.used_energy,
        plan.rate.value,
        float(plan.years),
        replacements=tuple((float(one.after), one.cost.amount) for one in plan.replacements),
        residual=0.0 if plan.residual is None else plan.residual.amount,
    )


def _payback(flow: Floats) -> float | None:
    total = np.cumsum(flow)
    below = np.flatnonzero(total < 0.0)
    if below.size == 0:
        return 0.0
    last = int(below[-1])
    if last == flow.size - 1:
        return None
    return last + float(-total[last] / flow[last + 1])
