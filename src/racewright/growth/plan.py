"""The money of one supply option over its life, all of it in one currency and one kind of prices."""

from __future__ import annotations

from dataclasses import dataclass

from racewright.errors import InputError
from racewright.supply.door import fraction, not_negative, positive
from racewright.supply.money import Money, Rate, Terms, rate_for, same_terms, turned


@dataclass(frozen=True, slots=True)
class Replacement:
    """A part or battery replaced within the life.

    Attributes
    ----------
    after : int
        Years from the start, 1 or more [yr].
    cost : Money
    """

    after: int
    cost: Money


@dataclass(frozen=True, slots=True)
class Loan:
    """Part of the capital borrowed at the start and paid back in equal yearly payments.

    Attributes
    ----------
    share : float
        Of the capital, 0 to 1 [-].
    rate : Rate
        Of a loan in the other kind of prices than the plan: then the plan wants its inflation.
    years : int
        1 or more [yr].
    """

    share: float
    rate: Rate
    years: int

    def __post_init__(self) -> None:
        fraction("share of the capital that is borrowed", self.share, 0.6)
        if self.rate.value < 0.0:
            raise InputError(f"the loan's rate is {self.rate.value:g}; wanted 0 or more")
        _whole("years of the loan", self.years, 60)


@dataclass(frozen=True, slots=True)
class SupplyPlan:
    """Capital, upkeep, replacement and finance on one side; fuel and upkeep of the sets saved on the other.

    Attributes
    ----------
    name : str
        Of the case: its draws depend on it.
    capital : Money
        Paid at the start, >= 0.
    yearly_cost : Money
        Operation and upkeep in a year, >= 0 [currency/yr].
    fuel_saved : float
        In a year, >= 0 [m3/yr].
    fuel_price : Money
        Delivered, >= 0 [currency/m3].
    other_saved : Money
        Upkeep of the sets and what else is saved in a year [currency/yr].
    used_energy : float
        In a year, > 0 [J/yr].
    rate : Rate
        Of the kind of the money.
    years : int
        Life, 1 to 60 [yr].
    cost_growth, fuel_growth : float
        Of yearly cost, and of the fuel's price with the other savings left as they are; above -0.5 to 1; over
        inflation for real money, with it for nominal; the first year has the given amount; default 0 [1/yr].
    replacements : tuple of Replacement
    residual : Money or None
        Worth at the end less taking away.
    loan : Loan or None
    inflation : float or None
        Wanted only where the loan's rate is of the other kind [1/yr].
    """

    name: str
    capital: Money
    yearly_cost: Money
    fuel_saved: float
    fuel_price: Money
    other_saved: Money
    used_energy: float
    rate: Rate
    years: int
    cost_growth: float = 0.0
    fuel_growth: float = 0.0
    replacements: tuple[Replacement, ...] = ()
    residual: Money | None = None
    loan: Loan | None = None
    inflation: float | None = None

    def __post_init__(self) -> None:
        rate_for(self.terms, self.rate)
        _whole("life", self.years, 60)
        for name in ("capital", "yearly_cost", "fuel_price"):
            not_negative(name.replace("_", " "), getattr(self, name).amount, "currency", 1000.0)
        not_negative("fuel saved", self.fuel_saved, "m3/yr", 10.0)
        positive("used energy", self.used_energy, "J/yr", 7.2e10)
        for one in self.replacements:
            not_negative("replacement", one.cost.amount, "currency", 5000.0)
            if not 1 <= one.after < self.years:
                raise InputError(f"a replacement after {one.after} yr; wanted 1 to below the life of {self.years} yr")
        for name, growth in (("yearly cost", self.cost_growth), ("fuel price", self.fuel_growth)):
            if not -0.5 < growth <= 1.0:
                raise InputError(f"the {name} grows by {growth!r} a year; wanted above -0.5 to 1, e.g. 0.02")
        if self.loan is not None:
            if self.loan.years > self.years:
                raise InputError(f"the loan of {self.loan.years} yr outlasts the life of {self.years} yr")
            self.loan_rate()

    @property
    def terms(self) -> Terms:
        """Of all money in the plan; InputError where some differs."""
        more = [one.cost for one in self.replacements] + ([] if self.residual is None else [self.residual])
        return same_terms(self.capital, self.yearly_cost, self.fuel_price, self.other_saved, *more)

    def loan_rate(self) -> Rate:
        """The loan's rate and whether its equal payments are equal in real or in nominal money.

        Raises
        ------
        InputError
            No loan; one of the other kind of prices without an inflation.
        """
        if self.loan is None:
            raise InputError(f"the plan {self.name} has no loan")
        if self.loan.rate.kind != self.terms.kind:
            if self.inflation is None:
                raise InputError(
                    f"the loan's rate is {self.loan.rate.kind} and the plan's money is in {self.terms}: state the "
                    "inflation that joins them"
                )
            turned(self.loan.rate, self.inflation)
        return self.loan.rate


def _whole(name: str, value: int, most: int) -> None:
    if isinstance(value, bool) or not isinstance(value, int) or not 1 <= value <= most:
        raise InputError(f"{name}: {value!r}; wanted a whole number of years from 1 to {most}")
