"""Levelised cost of energy."""

from __future__ import annotations

import math
from collections.abc import Sequence

from racewright.errors import InputError
from racewright.supply.door import not_negative, positive
from racewright.supply.result import LevelisedCost

_NO_RATE = 1e-18


def capital_recovery(rate: float, years: float) -> float:
    """Capital recovery factor i (1+i)^n / ((1+i)^n - 1), 1/n at rate 0 [1/yr].

    Parameters
    ----------
    rate : float
        Yearly discount rate, 0 or more: real with real costs, nominal with nominal ones [1/yr].
    years : float
        Life, > 0 [yr].

    Raises
    ------
    InputError
        Rate negative, life not above 0, or either not finite.

    Notes ----- Written with log1p and expm1, so that it tends to 1/n without cancellation; below 1e-18 a
    rate is taken as 0, which is exact in double precision.

    Examples
    --------
    >>> round(capital_recovery(0.07, 20.0), 7)
    0.0943929
    """
    not_negative("discount rate", rate, "1/yr", 0.07)
    positive("life", years, "yr", 20.0)
    if rate < _NO_RATE:
        return 1.0 / years
    return -rate / math.expm1(-years * math.log1p(rate))


def discount(rate: float, years: float) -> float:
    """What 1 paid after so many years is worth at the start, (1 + rate)^-years; rate > -1 [-]."""
    if not (math.isfinite(rate) and rate > -1.0 and math.isfinite(years)):
        raise InputError(f"the rate is {rate!r} over {years!r} years; wanted finite numbers and a rate above -1")
    return math.exp(-years * math.log1p(rate))


def levelised_cost(
    capital: float,
    yearly_cost: float,
    yearly_energy: float,
    rate: float,
    years: float,
    variable_cost: float = 0.0,
    *,
    replacements: Sequence[tuple[float, float]] = (),
    residual: float = 0.0,
) -> LevelisedCost:
    """Levelised cost (capital CRF + yearly cost) / yearly energy + variable cost.

    Parts replaced within the life, and what is left at its end, are brought to the start at the rate and join the
    capital.

    Parameters
    ----------
    capital : float
        Paid at the start, >= 0 [currency].
    yearly_cost : float
        Paid each year whatever the energy, >= 0 [currency/yr].
    yearly_energy : float
        > 0 [J/yr].
    rate : float
        Yearly discount rate, >= 0 [1/yr].
    years : float
        Life, > 0 [yr].
    variable_cost : float
        Paid per energy, >= 0; 0 for a machine without fuel [currency/J].
    replacements : sequence of (float, float)
        When, above 0 and below the life [yr], and what they cost, >= 0 [currency].
    residual : float
        Worth at the end of the life less what it costs to take away; may be negative; default 0 [currency].

    Raises
    ------
    InputError
        A number out of its range or not finite, or no energy; a residual worth more than all that was paid.
    """
    not_negative("capital", capital, "currency", 50000.0)
    not_negative("yearly cost", yearly_cost, "currency/yr", 3000.0)
    not_negative("variable cost", variable_cost, "currency/J", 0.0)
    if not (math.isfinite(yearly_energy) and yearly_energy > 0.0):
        raise InputError(f"yearly energy is {yearly_energy!r} J; a levelised cost wants more than 0, e.g. 7.2e10 J")
    factor = capital_recovery(rate, years)
    whole = capital + math.fsum(cost * discount(rate, when) for when, cost in _within(replacements, years))
    if not math.isfinite(residual):
        raise InputError(f"the residual is {residual!r} currency; wanted a finite number, e.g. 0")
    whole -= residual * discount(rate, years)
    if whole < 0.0:
        raise InputError(f"the residual of {residual:g} is worth more than all that was paid; wanted less")
    capital_part = whole * factor / yearly_energy
    running_part = yearly_cost / yearly_energy + variable_cost
    return LevelisedCost(factor, capital_part + running_part, capital_part, running_part)


def _within(replacements: Sequence[tuple[float, float]], years: float) -> Sequence[tuple[float, float]]:
    for when, cost in replacements:
        if not 0.0 < when < years:
            raise InputError(f"a replacement after {when!r} yr; wanted above 0 and below the life of {years:g} yr")
        not_negative("replacement", cost, "currency", 5000.0)
    return replacements
