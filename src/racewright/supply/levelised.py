"""Levelised cost of energy."""

from __future__ import annotations

import math

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


def levelised_cost(
    capital: float,
    yearly_cost: float,
    yearly_energy: float,
    rate: float,
    years: float,
    variable_cost: float = 0.0,
) -> LevelisedCost:
    """Levelised cost (capital CRF + yearly cost) / yearly energy + variable cost.

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

    Raises
    ------
    InputError
        A number out of its range or not finite, or no energy.
    """
    not_negative("capital", capital, "currency", 50000.0)
    not_negative("yearly cost", yearly_cost, "currency/yr", 3000.0)
    not_negative("variable cost", variable_cost, "currency/J", 0.0)
    if not (math.isfinite(yearly_energy) and yearly_energy > 0.0):
        raise InputError(f"yearly energy is {yearly_energy!r} J; a levelised cost wants more than 0, e.g. 7.2e10 J")
    factor = capital_recovery(rate, years)
    capital_part = capital * factor / yearly_energy
    running_part = yearly_cost / yearly_energy + variable_cost
    return LevelisedCost(factor, capital_part + running_part, capital_part, running_part)
