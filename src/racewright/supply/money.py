"""Money that knows its currency and whether inflation is in it; unlike money is never added."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from racewright.errors import InputError
from racewright.supply.door import currency_label

Kind = Literal["real", "nominal"]


@dataclass(frozen=True, slots=True)
class Terms:
    """In what an amount is counted.

    Attributes
    ----------
    currency : str
        Three capital letters, a label: nothing is converted.
    kind : {'real', 'nominal'}
        Real: at the prices of one year, inflation taken out. Nominal: as it will stand on the bill.
    price_year : int or None
        The year of real prices, 1900 to 2200; None for nominal amounts.
    """

    currency: str
    kind: Kind
    price_year: int | None = None

    def __post_init__(self) -> None:
        currency_label(self.currency)
        _kind("an amount", self.kind)
        if self.kind == "nominal" and self.price_year is not None:
            raise InputError("a nominal amount has no price year: it is what will stand on the bill")
        if self.kind == "real" and (self.price_year is None or not 1900 <= self.price_year <= 2200):
            raise InputError(f"real prices of {self.price_year!r}; wanted the year whose prices they are, e.g. 2025")

    def __str__(self) -> str:
        return f"{self.currency} of {self.price_year}" if self.kind == "real" else f"{self.currency}, nominal"


@dataclass(frozen=True, slots=True)
class Money:
    """An amount in its terms; sums and ratios of unlike terms are refused.

    Attributes
    ----------
    amount : float
        Finite, may be negative [currency, or currency per unit].
    terms : Terms
    """

    amount: float
    terms: Terms

    def __post_init__(self) -> None:
        if not math.isfinite(self.amount):
            raise InputError(f"an amount is {self.amount!r}; wanted a finite number")

    def __add__(self, other: Money) -> Money:
        return Money(self.amount + self._like(other), self.terms)

    def __sub__(self, other: Money) -> Money:
        return Money(self.amount - self._like(other), self.terms)

    def __neg__(self) -> Money:
        return Money(-self.amount, self.terms)

    def __mul__(self, factor: float) -> Money:
        if isinstance(factor, Money):
            raise InputError("money times money means nothing: wanted a number")
        return Money(self.amount * factor, self.terms)

    __rmul__ = __mul__

    def over(self, other: Money) -> float:
        """Ratio of two amounts [-]."""
        below = self._like(other)
        if below == 0.0:
            raise InputError("a ratio to an amount of 0 does not exist")
        return self.amount / below

    def _like(self, other: Money) -> float:
        if not isinstance(other, Money):
            raise InputError(f"{other!r} is no money: wanted an amount with its currency and its prices")
        same_terms(self, other)
        return other.amount


@dataclass(frozen=True, slots=True)
class Rate:
    """A yearly rate and what it is good for.

    Attributes
    ----------
    value : float
        Above -0.5 to 1 [1/yr].
    kind : {'real', 'nominal'}
        Real rates discount real amounts, nominal rates nominal ones.
    """

    value: float
    kind: Kind

    def __post_init__(self) -> None:
        _kind("a rate", self.kind)
        if not (math.isfinite(self.value) and -0.5 < self.value <= 1.0):
            raise InputError(f"a rate is {self.value!r} per year; wanted above -0.5 to 1, e.g. 0.06")


def same_terms(*amounts: Money) -> Terms:
    """The terms of all amounts.

    Raises
    ------
    InputError
        No amount; two that differ in currency, in kind or in the year of prices.
    """
    if not amounts:
        raise InputError("no amount is given, so there are no terms")
    first = amounts[0].terms
    for one in amounts[1:]:
        if one.terms != first:
            raise InputError(
                f"money in {first} and in {one.terms} cannot be joined: bring one to the other by hand, at a rate "
                f"and an inflation that you state"
            )
    return first


def rate_for(terms: Terms, rate: Rate) -> float:
    """The value of a rate that fits the terms [1/yr].

    Raises
    ------
    InputError
        A real rate for nominal money, or the other way.
    """
    if rate.kind != terms.kind:
        raise InputError(
            f"a {rate.kind} rate of {rate.value:g} for amounts in {terms}: real goes with real, nominal with "
            f"nominal; turn the rate by an inflation that you state"
        )
    return rate.value


def turned(rate: Rate, inflation: float) -> Rate:
    """The same rate in the other kind: 1 + nominal = (1 + real) (1 + inflation)."""
    if rate.kind == "nominal":
        return Rate((1.0 + rate.value) / _growth(inflation) - 1.0, "real")
    return Rate((1.0 + rate.value) * _growth(inflation) - 1.0, "nominal")


def _growth(inflation: float) -> float:
    if not (math.isfinite(inflation) and -0.5 < inflation <= 1.0):
        raise InputError(f"inflation is {inflation!r} per year; wanted above -0.5 to 1, e.g. 0.02")
    return 1.0 + inflation


def _kind(what: str, kind: str) -> None:
    if kind not in ("real", "nominal"):
        raise InputError(f"{what} is {kind!r}; wanted 'real' or 'nominal'")
