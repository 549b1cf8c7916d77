"""Steps of growth: what each costs, how long it takes, how likely it passes, and what follows."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.errors import InputError
from racewright.supply.door import fraction, positive
from racewright.supply.money import Money, Rate, Terms, rate_for, same_terms

QUARTER = 8760.0 * 3600.0 / 4.0
"""A quarter of the year of 8760 h [s]."""


@dataclass(frozen=True, slots=True)
class DevelopmentStep:
    """One step of growth, ending at a gate that it passes or not.

    Attributes
    ----------
    name : str
    rated_power : float
        Of the unit that it builds, > 0 [W].
    cost : Money
        Likeliest, of all that the step spends, >= 0.
    time : float
        Likeliest, > 0 [s].
    chance : float
        That it passes its gate, 0 to 1 [-].
    cost_low, cost_high : float
        Ends of a triangle over the likeliest cost. The defaults 0.8 and 1.5 are the wide end of a class 4 estimate, a
        study (AACE 18R-97, from a summary page) [-].
    time_low, time_high : float
        Ends of a triangle over the likeliest time; defaults 0.8 and 2.0, own choice: waiting for water, permits and
        ice makes late likelier than early [-].
    income : Money or None
        Received when the gate is passed: a grant, a sale.
    rest : Money or None
        Left over when the gate is not passed: what is sold, less taking away.
    units : int
        Built in this step, 0 or more: they count for learning.
    """

    name: str
    rated_power: float
    cost: Money
    time: float
    chance: float
    cost_low: float = 0.8
    cost_high: float = 1.5
    time_low: float = 0.8
    time_high: float = 2.0
    income: Money | None = None
    rest: Money | None = None
    units: int = 1

    def __post_init__(self) -> None:
        positive(f"rated power of {self.name}", self.rated_power, "W", 5000.0)
        positive(f"time of {self.name}", self.time, "s", 3.15e7)
        fraction(f"chance of {self.name}", self.chance, 0.6)
        if self.cost.amount < 0.0:
            raise InputError(f"the cost of {self.name} is {self.cost.amount:g}; wanted 0 or more")
        for what, low, high in (("cost", self.cost_low, self.cost_high), ("time", self.time_low, self.time_high)):
            if not 0.0 < low <= 1.0 <= high <= 20.0:
                raise InputError(
                    f"the {what} of {self.name} spans {low!r} to {high!r} of the likeliest; wanted low <= 1 <= high"
                )
        if isinstance(self.units, bool) or not isinstance(self.units, int) or self.units < 0:
            raise InputError(f"{self.name} builds {self.units!r} units; wanted a whole number, 0 or more")

    @property
    def mean_cost(self) -> float:
        """Of the triangle [currency]."""
        return self.cost.amount * (self.cost_low + 1.0 + self.cost_high) / 3.0

    @property
    def mean_time(self) -> float:
        """Of the triangle [s]."""
        return self.time * (self.time_low + 1.0 + self.time_high) / 3.0


@dataclass(frozen=True, slots=True)
class Programme:
    """Steps in order, and what stands at their end.

    Attributes
    ----------
    name : str
        Of the case: its draws depend on it.
    steps : tuple of DevelopmentStep
        1 to 20.
    prize : Money
        Worth of the business on the day the last gate is passed.
    rate : Rate
        Of the kind of the money.
    """

    name: str
    steps: tuple[DevelopmentStep, ...]
    prize: Money
    rate: Rate

    def __post_init__(self) -> None:
        if not 1 <= len(self.steps) <= 20:
            raise InputError(f"a programme of {len(self.steps)} steps; wanted 1 to 20")
        names = [step.name for step in self.steps]
        if len(set(names)) != len(names):
            raise InputError(f"a step is named twice in {', '.join(names)}")
        if rate_for(self.terms, self.rate) < 0.0:
            raise InputError(f"the programme's rate is {self.rate.value:g}; wanted 0 or more")

    @property
    def terms(self) -> Terms:
        """Of all money in it; InputError where some differs."""
        more = [money for step in self.steps for money in (step.cost, step.income, step.rest) if money is not None]
        return same_terms(self.prize, *more)
