"""Cost of units of later steps from the first unit: size and learning."""

from __future__ import annotations

from dataclasses import dataclass, replace

from racewright.growth.learning import batch_cost, sized_cost
from racewright.growth.programme import DevelopmentStep
from racewright.supply.money import Money


@dataclass(frozen=True, slots=True)
class ScaledCost:
    """Units of another size, built after others.

    Attributes
    ----------
    cost : Money
        Of all units.
    unit_cost : Money
        Mean of one.
    cost_per_power : Money
        [currency/W]
    size_factor, learning_factor : float
        What size and learning make of one unit's cost [-].
    """

    cost: Money
    unit_cost: Money
    cost_per_power: Money
    size_factor: float
    learning_factor: float


def scaled_cost(
    reference: Money,
    reference_power: float,
    rated_power: float,
    units: int,
    *,
    size_exponent: float,
    learning_rate: float,
    built_before: int = 0,
) -> ScaledCost:
    """Cost of units of a rated power from the first unit's.

    Size first: C0 (P / P0)^exponent. Then learning over all units built, the first being the reference: each doubling
    saves the learning rate. Whether what was learnt on a small unit carries over to a large one is the user's
    judgement: `built_before` says how many count.

    Parameters
    ----------
    reference : Money
        Of the first unit, at its rated power, >= 0.
    reference_power, rated_power : float
        > 0 [W].
    units : int
        1 or more.
    size_exponent : float
        0 to 2; see `learning.SIZE` [-].
    learning_rate : float
        0 to below 1; see `learning.LEARNING` [-].
    built_before : int
        Units that taught something, 0 or more.
    """
    size = sized_cost(1.0, rated_power, reference_power, size_exponent)
    learnt = batch_cost(1.0, built_before, units, learning_rate)
    whole = reference * (size * learnt)
    return ScaledCost(whole, whole * (1.0 / units), whole * (1.0 / (units * rated_power)), size, learnt / units)


def with_unit_costs(
    steps: tuple[DevelopmentStep, ...],
    reference: Money,
    reference_power: float,
    *,
    size_exponent: float,
    learning_rate: float,
) -> tuple[DevelopmentStep, ...]:
    """Steps with the cost of their units added to what they cost beside them.

    Each step's units have its rated power; all units of the steps before count for learning.

    Parameters
    ----------
    steps : tuple of DevelopmentStep
        Their cost: all but the units.
    reference : Money
        Of the first unit ever, at `reference_power`, in the terms of the steps.
    reference_power, size_exponent, learning_rate
        As in `scaled_cost`.

    Raises
    ------
    InputError
        Unlike terms, exponents out of range.
    """
    found, built = [], 0
    for step in steps:
        if step.units:
            units = scaled_cost(
                reference,
                reference_power,
                step.rated_power,
                step.units,
                size_exponent=size_exponent,
                learning_rate=learning_rate,
                built_before=built,
            )
            step = replace(step, cost=step.cost + units.cost)
        built += step.units
        found.append(step)
    return tuple(found)
