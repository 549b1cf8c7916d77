"""A plan's worth by sums year by year, by hand, and between real and nominal money."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError, NoAnswerError
from racewright.growth.cash import cash
from racewright.growth.plan import Loan, Replacement
from racewright.growth.worth import break_even_travel_time, worth
from racewright.supply.delivery import Leg, delivered
from racewright.supply.money import Rate, Terms
from tests.growth.plans import BASE, BILL, KWH, nominal, plan, usd

BATTERY = Replacement(10, usd(8e3))


def test_net_present_value_by_sums() -> None:
    one = plan(fuel_growth=0.03, cost_growth=0.01, replacements=(BATTERY,), residual=usd(-2e3))
    wanted = -50e3
    for year in range(1, 21):
        flow = 6.0 * 1400.0 * 1.03 ** (year - 1) + 400.0 - 3e3 * 1.01 ** (year - 1)
        flow -= 8e3 * (year == 10) + 2e3 * (year == 20)
        wanted += flow / 1.07**year
    assert worth(one).net_present_value.amount == pytest.approx(wanted, rel=1e-12)
    assert worth(one).net_present_value.terms == one.terms


def test_levelised_cost_by_both_routes() -> None:
    one = plan(cost_growth=0.02, replacements=(BATTERY,), residual=usd(3e3))
    found = worth(one)
    assert found.levelised.cost == pytest.approx(float(cash(one).levelised()[0]), rel=1e-12)
    assert worth(BASE).levelised.cost * KWH == pytest.approx(0.3859823, abs=1e-7)


def test_payback_by_hand() -> None:
    """10 000 out, 2 500 a year in: four years; at 10 % 5.36 years."""
    simple = plan(
        capital=usd(10e3),
        yearly_cost=usd(0.0),
        fuel_saved=1.0,
        fuel_price=usd(2500.0),
        other_saved=usd(0.0),
        rate=Rate(0.10, "real"),
    )
    found = worth(simple)
    assert found.payback == pytest.approx(4.0)
    after_five = 2500.0 * (1.0 - 1.1**-5) / 0.1
    assert found.discounted_payback == pytest.approx(5.0 + (10e3 - after_five) / (2500.0 * 1.1**-6))
    assert worth(plan(fuel_saved=0.0)).payback is None
    assert worth(plan(capital=usd(0.0))).payback == 0.0


def test_a_late_replacement_puts_payback_off() -> None:
    """Paid back after 4 years, out again with the battery in year 5: the time after which it stays paid."""
    dip = plan(
        capital=usd(10e3),
        yearly_cost=usd(0.0),
        fuel_saved=1.0,
        fuel_price=usd(2500.0),
        other_saved=usd(0.0),
        replacements=(Replacement(5, usd(6e3)),),
    )
    assert worth(dip).payback == pytest.approx(6.0 + 1e3 / 2.5e3)


@given(st.floats(0.0, 0.3), st.floats(0.0, 0.1), st.floats(0.5, 50.0))
def test_at_the_break_even_price_the_plan_is_worth_nothing(rate, growth, fuel) -> None:
    one = plan(rate=Rate(rate, "real"), fuel_growth=growth, fuel_saved=fuel, replacements=(BATTERY,))
    even = worth(one).break_even_fuel_price
    assert even is not None
    at = plan(rate=Rate(rate, "real"), fuel_growth=growth, fuel_saved=fuel, replacements=(BATTERY,), fuel_price=even)
    assert worth(at).net_present_value.amount == pytest.approx(0.0, abs=1e-6)


def test_the_break_even_travel_time_gives_the_break_even_price() -> None:
    legs = (Leg("boat", 60e3, 2.0, 5.0, 4e-6, 0.4, crew_cost=0.004),)
    time = break_even_travel_time(BASE, usd(600.0), legs, 0.02)
    distance = time / (1.0 / 2.0 + 1.0 / 5.0)
    even = worth(BASE).break_even_fuel_price
    assert even is not None
    longer = (Leg("boat", distance, 2.0, 5.0, 4e-6, 0.4, crew_cost=0.004),)
    assert delivered(600.0, longer, 0.02).price == pytest.approx(even.amount)
    with pytest.raises(NoAnswerError, match="saves no fuel"):
        break_even_travel_time(plan(fuel_saved=0.0), usd(600.0), legs)
    with pytest.raises(NoAnswerError, match="any fuel price"):
        break_even_travel_time(plan(other_saved=usd(50e3)), usd(600.0), legs)
    with pytest.raises(InputError, match="cannot be joined"):
        break_even_travel_time(BASE, usd(600.0, BILL), legs)


@given(st.floats(0.0, 0.15), st.floats(0.0, 0.1))
def test_real_and_nominal_tell_the_same(rate: float, inflation: float) -> None:
    """All prices grow with inflation on the bill, the rate is turned: the same worth at the start."""
    real = plan(rate=Rate(rate, "real"))
    grown = 1.0 + inflation
    bill = nominal(
        yearly_cost=usd(3e3 * grown, BILL),
        fuel_price=usd(1400.0 * grown, BILL),
        other_saved=usd(0.0, BILL),
        cost_growth=inflation,
        fuel_growth=inflation,
        rate=Rate((1.0 + rate) * grown - 1.0, "nominal"),
    )
    assert worth(bill).net_present_value.amount == pytest.approx(
        worth(plan(rate=real.rate, other_saved=usd(0.0))).net_present_value.amount, rel=1e-9, abs=1e-6
    )


def test_a_loan_at_the_plans_rate_changes_nothing() -> None:
    plain = worth(BASE).net_present_value.amount
    same = worth(plan(loan=Loan(0.6, Rate(0.07, "real"), 10)))
    assert same.net_present_value.amount == pytest.approx(plain)
    assert same.cash.loan[0, 0] == pytest.approx(30e3)
    assert same.cash.loan[0, 11:] == pytest.approx(np.zeros(10))
    assert worth(plan(loan=Loan(0.6, Rate(0.03, "real"), 10))).net_present_value.amount > plain
    free = worth(plan(loan=Loan(1.0, Rate(0.0, "real"), 20), rate=Rate(0.0, "real")))
    assert free.net_present_value.amount == pytest.approx(-50e3 + 20 * (8400.0 + 400.0 - 3e3))


def test_a_nominal_loan_in_a_real_plan_wants_inflation() -> None:
    loan = Loan(0.6, Rate(1.07 * 1.03 - 1.0, "nominal"), 10)
    with pytest.raises(InputError, match="state the inflation"):
        plan(loan=loan)
    found = worth(plan(loan=loan, inflation=0.03))
    assert found.net_present_value.amount == pytest.approx(worth(BASE).net_present_value.amount)
    ratio = found.cash.loan[0, 2:11] / found.cash.loan[0, 1:10]
    assert ratio == pytest.approx(np.full(9, 1.0 / 1.03))
    turned = worth(nominal(loan=Loan(0.6, Rate(0.07 / 1.03 - 0.03 / 1.03, "real"), 10), inflation=0.03))
    assert turned.net_present_value.amount == pytest.approx(worth(nominal()).net_present_value.amount)


def test_no_rate_at_all_is_finite() -> None:
    found = worth(plan(rate=Rate(0.0, "real")))
    assert found.net_present_value.amount == pytest.approx(-50e3 + 20 * 5800.0)
    assert found.levelised.cost * KWH == pytest.approx((50e3 / 20 + 3e3) / 20e3)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"fuel_price": usd(1400.0, BILL)}, "cannot be joined"),
        ({"capital": usd(1.0, Terms("EUR", "real", 2025))}, "cannot be joined"),
        ({"yearly_cost": usd(1.0, Terms("USD", "real", 2024))}, "cannot be joined"),
        ({"replacements": (Replacement(5, usd(1.0, BILL)),)}, "cannot be joined"),
        ({"residual": usd(1.0, BILL)}, "cannot be joined"),
        ({"rate": Rate(0.07, "nominal")}, "real goes with real"),
        ({"years": 0}, "life"),
        ({"years": 2.5}, "life"),
        ({"capital": usd(-1.0)}, "capital"),
        ({"used_energy": 0.0}, "used energy"),
        ({"fuel_saved": float("nan")}, "fuel saved"),
        ({"fuel_growth": -0.9}, "fuel price grows"),
        ({"replacements": (Replacement(20, usd(1.0)),)}, "replacement after"),
        ({"loan": Loan(0.5, Rate(0.05, "real"), 25)}, "outlasts"),
    ],
)
def test_bad_plans_are_refused(change, words: str) -> None:
    with pytest.raises(InputError, match=words):
        plan(**change)


@pytest.mark.parametrize(
    ("draws", "words"),
    [
        ({"speed": np.ones(2)}, "no number 'speed'"),
        ({"capital": np.ones(2), "rate": np.full(3, 0.1)}, "one length"),
        ({"capital": np.array([1.0, np.nan])}, "not finite"),
    ],
)
def test_bad_draws_are_refused(draws, words: str) -> None:
    with pytest.raises(InputError, match=words):
        cash(BASE, draws)


def test_draws_without_energy_have_no_cost() -> None:
    with pytest.raises(NoAnswerError, match="no energy"):
        cash(BASE, {"used_energy": np.array([1.0, 0.0])})
