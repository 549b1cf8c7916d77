"""From the plain tables of a growth to its programme."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from racewright.growth.programme import DevelopmentStep, Programme
from racewright.growth.programme_scaled import scaled_cost
from racewright.ledger.growth_findings import StepCost
from racewright.ledger.growth_things import at_table, in_order, label
from racewright.supply.money import Money, Rate, Terms

Keys = Mapping[str, Any]


def terms_of(table: Keys) -> Terms:
    """Of all money in the programme: real, of one year's prices."""
    return Terms(table["prize"]["currency"], "real", table["price_year"])


def programme_of(sizes: Keys, table: Keys) -> Programme:
    """The sizes that cost something, in order, and the prize.

    Raises
    ------
    InputError
        Pointed at the table of the size.
    """
    terms = terms_of(table)
    steps = []
    for name, size in in_order(sizes):
        if size["programme"] is not None:
            with at_table(f"{name}"):
                steps.append(step_of(label(name), size["rated_power"], size["programme"], terms))
    return Programme("growth", tuple(steps), _money(table["prize"], terms), Rate(table["rate"], "real"))


def leap_of(table: Keys) -> DevelopmentStep | None:
    """The one big leap; None where none is stated."""
    leap = table["leap"]
    return None if leap is None else step_of("one big leap", leap["rated_power"], leap, terms_of(table))


def step_of(name: str, rated_power: float, table: Keys, terms: Terms) -> DevelopmentStep:
    """One step with its cost, time and chance."""
    income, rest = (None if table[key] is None else _money(table[key], terms) for key in ("income", "rest"))
    return DevelopmentStep(
        name,
        rated_power,
        _money(table["cost"], terms),
        table["time"],
        table["chance"],
        table["cost_low"],
        table["cost_high"],
        table["time_low"],
        table["time_high"],
        income,
        rest,
        table["units"],
    )


def step_costs(programme: Programme, size_exponent: float, learning_rate: float) -> tuple[StepCost, ...]:
    """Stated cost of a unit beside that by size and learning, from the first step that builds one."""
    building = [step for step in programme.steps if step.units]
    if not building or building[0].cost.amount == 0.0:
        return ()
    first = building[0]
    reference = first.cost * (1.0 / first.units)
    found, built = [], 0
    for step in building:
        scaled = scaled_cost(
            reference,
            first.rated_power,
            step.rated_power,
            step.units,
            size_exponent=size_exponent,
            learning_rate=learning_rate,
            built_before=built,
        )
        stated = step.cost * (1.0 / step.units)
        found.append(StepCost(step.name, stated, built, scaled, stated.over(scaled.unit_cost)))
        built += step.units
    return tuple(found)


def _money(plain: Keys, terms: Terms) -> Money:
    return Money(plain["si"], terms)
