"""What a programme is worth at each gate, what the right to stop is worth, and the one big leap beside it."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.growth.programme import DevelopmentStep, Programme
from racewright.remark import Remark
from racewright.supply.door import SECONDS_PER_YEAR
from racewright.supply.money import Money


@dataclass(frozen=True, slots=True)
class GateValue:
    """A step seen from the day on which it would begin.

    Attributes
    ----------
    name : str
    going_on : float
        Worth, on that day, of beginning it and deciding anew at every later gate [currency].
    begin : bool
        Whether that is above 0.
    reached : float
        Chance that the programme comes to this step, all gates before it passed [-].
    """

    name: str
    going_on: float
    begin: bool
    reached: float


@dataclass(frozen=True, slots=True)
class ProgrammeValue:
    """A programme's expected worth today, at mean costs and times.

    Attributes
    ----------
    with_stopping : Money
        After a failed gate nothing more is spent, and no step is begun whose worth is not above 0.
    without_stopping : Money
        Every step is paid for, whatever the gates say; the prize comes only if all are passed.
    value_of_stopping : Money
        The difference: never below 0.
    leap : Money or None
        Of one big leap to the same prize.
    steps_over_leap : Money or None
        `with_stopping` less the leap, or less 0 where the leap is worth less than nothing and would not be made.
    chance : float
        That every gate is passed [-].
    spent_with_stopping, spent_without_stopping : Money
        Expected spending, not discounted.
    gates : tuple of GateValue
    remarks : tuple of Remark
    """

    with_stopping: Money
    without_stopping: Money
    value_of_stopping: Money
    leap: Money | None
    steps_over_leap: Money | None
    chance: float
    spent_with_stopping: Money
    spent_without_stopping: Money
    gates: tuple[GateValue, ...]
    remarks: tuple[Remark, ...]


def programme_value(programme: Programme, leap: DevelopmentStep | None = None) -> ProgrammeValue:
    """Value a programme backward from its prize.

    Gates are independent: passing one says nothing about the next but what its own chance holds.

    Parameters
    ----------
    programme : Programme
    leap : DevelopmentStep, optional
        One step straight to the prize, with its own cost, time and chance.

    Raises
    ------
    InputError
        A leap in other terms than the programme.
    """
    rate, steps = programme.rate.value, programme.steps
    on = _worth_on(programme)
    paid_all = _without_stopping(programme)
    first = max(on[0], 0.0)
    spent, here = 0.0, 1.0
    for step, worth in zip(steps, on, strict=True):
        here = here if worth > 0.0 else 0.0
        spent += here * step.mean_cost
        here *= step.chance
    terms = programme.terms
    leaped = over = None
    if leap is not None:
        (leap.cost - programme.prize)  # refuses unlike terms
        leaped = _begin(leap, rate, programme.prize.amount)
        over = first - max(leaped, 0.0)
    chance = math.prod(step.chance for step in steps)
    before = [math.prod(step.chance for step in steps[:i]) for i in range(len(steps))]
    return ProgrammeValue(
        with_stopping=Money(first, terms),
        without_stopping=Money(paid_all, terms),
        value_of_stopping=Money(first - paid_all, terms),
        leap=None if leaped is None else Money(leaped, terms),
        steps_over_leap=None if over is None else Money(over, terms),
        chance=chance,
        spent_with_stopping=Money(spent, terms),
        spent_without_stopping=Money(math.fsum(step.mean_cost for step in steps), terms),
        gates=tuple(
            GateValue(step.name, worth, worth > 0.0, come)
            for step, worth, come in zip(steps, on, before, strict=True)
        ),
        remarks=_remarks(programme, leap, chance, on),
    )


def spread_discount(rate: float, time: float) -> float:
    """What 1 spent evenly over a time [s] from now is worth now [-]."""
    growth = math.log1p(rate) * time / SECONDS_PER_YEAR
    return 1.0 if growth == 0.0 else -math.expm1(-growth) / growth


def _after(rate: float, time: float) -> float:
    return math.exp(-math.log1p(rate) * time / SECONDS_PER_YEAR)


def _begin(step: DevelopmentStep, rate: float, then: float) -> float:
    """Worth of beginning a step that leads to `then` when passed [currency]."""
    income, rest = (0.0 if money is None else money.amount for money in (step.income, step.rest))
    end = step.chance * (income + then) + (1.0 - step.chance) * rest
    return -step.mean_cost * spread_discount(rate, step.mean_time) + _after(rate, step.mean_time) * end


def _worth_on(programme: Programme) -> list[float]:
    found, then = [], programme.prize.amount
    for step in reversed(programme.steps):
        worth = _begin(step, programme.rate.value, then)
        found.append(worth)
        then = max(worth, 0.0)
    return found[::-1]


def _without_stopping(programme: Programme) -> float:
    """All steps paid for; incomes while every gate so far is passed; what is left over at the first that is not."""
    rate, total, now, passed = programme.rate.value, 0.0, 1.0, 1.0
    for step in programme.steps:
        income, rest = (0.0 if money is None else money.amount for money in (step.income, step.rest))
        total -= now * spread_discount(rate, step.mean_time) * step.mean_cost
        now *= _after(rate, step.mean_time)
        total += now * passed * (step.chance * income + (1.0 - step.chance) * rest)
        passed *= step.chance
    return total + now * passed * programme.prize.amount


def _remarks(
    programme: Programme, leap: DevelopmentStep | None, chance: float, on: list[float]
) -> tuple[Remark, ...]:
    told = []
    idle = [step.name for step, worth in zip(programme.steps, on, strict=True) if worth <= 0.0]
    if idle:
        text = f"Not worth beginning at these chances, costs and this prize: {', '.join(idle)}."
        told.append(Remark("caution", text, "gates"))
    if leap is not None and leap.chance > chance:
        text = (
            f"The leap is given a chance of {leap.chance:.3g}, the steps together have {chance:.3g}: the leap meets "
            f"the same unknowns at once and has no gate to mend them, so a larger chance wants a reason."
        )
        told.append(Remark("caution", text, "leap"))
    return tuple(told)
