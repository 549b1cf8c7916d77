"""Money keeps to its own kind."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.supply.money import Money, Rate, Terms, rate_for, same_terms, turned

REAL, LATER, BILL, OTHER = (
    Terms("USD", "real", 2025),
    Terms("USD", "real", 2026),
    Terms("USD", "nominal"),
    Terms("EUR", "real", 2025),
)


@pytest.mark.parametrize("terms", [LATER, BILL, OTHER])
def test_unlike_money_is_not_joined(terms: Terms) -> None:
    one, other = Money(5.0, REAL), Money(7.0, terms)
    for join in (lambda: one + other, lambda: one - other, lambda: one.over(other), lambda: same_terms(one, other)):
        with pytest.raises(InputError, match="cannot be joined"):
            join()


def test_like_money_is() -> None:
    one, other = Money(5.0, REAL), Money(7.0, REAL)
    assert (one + other, one - other, -one, 2.0 * one) == tuple(Money(a, REAL) for a in (12.0, -2.0, -5.0, 10.0))
    assert one.over(other) == pytest.approx(5.0 / 7.0)
    assert str(REAL) == "USD of 2025"
    assert str(BILL) == "USD, nominal"


def test_rates_go_with_their_kind() -> None:
    assert rate_for(REAL, Rate(0.06, "real")) == 0.06
    for terms, rate in ((REAL, Rate(0.06, "nominal")), (BILL, Rate(0.06, "real"))):
        with pytest.raises(InputError, match="real goes with real"):
            rate_for(terms, rate)


@given(st.floats(-0.2, 0.5), st.floats(-0.1, 0.3))
def test_a_rate_turned_twice_is_itself(value: float, inflation: float) -> None:
    rate = Rate(value, "real")
    there = turned(rate, inflation)
    assert there.kind == "nominal"
    assert turned(there, inflation).value == pytest.approx(value, abs=1e-12)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Terms("usd", "real", 2025), "currency label"),
        (lambda: Terms("USD", "today", 2025), "'real' or 'nominal'"),
        (lambda: Terms("USD", "real"), "wanted the year"),
        (lambda: Terms("USD", "nominal", 2025), "no price year"),
        (lambda: Money(math.nan, REAL), "finite"),
        (lambda: Money(1.0, REAL) + 1.0, "no money"),
        (lambda: Money(1.0, REAL) * Money(1.0, REAL), "money times money"),
        (lambda: Money(1.0, REAL).over(Money(0.0, REAL)), "amount of 0"),
        (lambda: Rate(math.inf, "real"), "rate"),
        (lambda: Rate(0.05, "both"), "'real' or 'nominal'"),
        (lambda: turned(Rate(0.05, "real"), math.nan), "inflation"),
        (lambda: same_terms(), "no amount"),
    ],
)
def test_bad_money_is_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()
