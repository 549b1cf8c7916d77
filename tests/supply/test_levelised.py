"""Capital recovery and levelised cost: directions, parts, refusals."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.supply.levelised import capital_recovery, levelised_cost

RATES = st.floats(0.0, 0.5)
YEARS = st.floats(0.5, 60.0)
MONEY = st.floats(0.0, 1e7)
ENERGY = st.floats(1e6, 1e14)


@given(RATES, RATES, YEARS)
def test_capital_recovery_grows_with_rate(one, other, years):
    low, high = sorted((one, other))
    assert capital_recovery(low, years) <= capital_recovery(high, years) * (1.0 + 1e-12)


@given(RATES, YEARS, YEARS)
def test_capital_recovery_falls_with_life(rate, one, other):
    short, long = sorted((one, other))
    assert capital_recovery(rate, long) <= capital_recovery(rate, short) * (1.0 + 1e-12)


@given(RATES, YEARS)
def test_capital_recovery_pays_at_least_interest_and_capital(rate, years):
    factor = capital_recovery(rate, years)
    assert factor >= rate * (1.0 - 1e-12)
    assert factor * years >= 1.0 - 1e-12


@given(st.floats(1e-300, 1e-9), YEARS)
def test_no_cancellation_towards_zero_rate(rate, years):
    """First order in the rate: CRF n = 1 + i (n + 1)/2."""
    assert capital_recovery(rate, years) * years == pytest.approx(1.0 + rate * (years + 1.0) / 2.0, rel=1e-13)


@given(MONEY, MONEY, ENERGY, RATES, YEARS, st.floats(0.0, 1e-3))
def test_cost_is_the_sum_of_its_parts(capital, yearly, energy, rate, years, variable):
    cost = levelised_cost(capital, yearly, energy, rate, years, variable)
    assert cost.cost == pytest.approx(cost.capital_part + cost.running_part, rel=1e-14)
    assert cost.cost * energy == pytest.approx(
        capital * capital_recovery(rate, years) + yearly + variable * energy, rel=1e-12
    )


@given(MONEY, MONEY, ENERGY, ENERGY, RATES, YEARS)
def test_more_energy_never_costs_more(capital, yearly, one, other, rate, years):
    little, much = sorted((one, other))
    assert (
        levelised_cost(capital, yearly, much, rate, years).cost
        <= levelised_cost(capital, yearly, little, rate, years).cost
    )


@pytest.mark.parametrize("rate", [-0.01, math.nan, math.inf])
def test_bad_rate(rate):
    with pytest.raises(InputError, match="discount rate"):
        capital_recovery(rate, 20.0)


@pytest.mark.parametrize("years", [0.0, -1.0, math.nan, math.inf])
def test_bad_life(years):
    with pytest.raises(InputError, match="life"):
        capital_recovery(0.07, years)


@pytest.mark.parametrize(
    ("numbers", "words"),
    [
        ((-1.0, 0.0, 1.0), "capital"),
        ((math.inf, 0.0, 1.0), "capital"),
        ((1.0, -1.0, 1.0), "yearly cost"),
        ((1.0, 1.0, 0.0), "yearly energy"),
        ((1.0, 1.0, math.nan), "yearly energy"),
    ],
)
def test_bad_money_or_energy(numbers, words):
    with pytest.raises(InputError, match=words):
        levelised_cost(*numbers, 0.07, 20.0)


def test_bad_variable_cost():
    with pytest.raises(InputError, match="variable cost"):
        levelised_cost(1.0, 1.0, 1.0, 0.07, 20.0, math.nan)


@given(MONEY, MONEY, ENERGY, RATES, st.integers(3, 30), MONEY)
def test_replacements_by_discounted_sums(capital, yearly, energy, rate, years, battery):
    """Capital, a battery after two years, and a third of it left over, summed year by year."""
    cost = levelised_cost(
        capital, yearly, energy, rate, float(years), replacements=((2.0, battery),), residual=battery / 3.0
    )
    worth = [(1.0 + rate) ** -year for year in range(years + 1)]
    spent = capital + battery * worth[2] - battery / 3.0 * worth[years] + sum(yearly * w for w in worth[1:])
    assert cost.cost == pytest.approx(spent / sum(energy * w for w in worth[1:]), rel=1e-9)


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"replacements": ((20.0, 1.0),)}, "replacement after"),
        ({"replacements": ((0.0, 1.0),)}, "replacement after"),
        ({"replacements": ((5.0, -1.0),)}, "replacement"),
        ({"residual": math.inf}, "residual"),
        ({"residual": 1e9}, "worth more"),
    ],
)
def test_bad_replacements(more, words):
    with pytest.raises(InputError, match=words):
        levelised_cost(1000.0, 10.0, 1e9, 0.0, 20.0, **more)
