"""Uncertain plans: shares of variance by closed forms, tornado, seeds by case."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.growth.doubt import plan_doubt, tornado
from racewright.growth.first_to_measure import variance_shares
from racewright.growth.worth import worth
from racewright.supply.chance import Chance, draw, normal
from racewright.uncertainty import Correlation
from tests.growth.plans import BASE, KWH, plan

CHANCES = (
    Chance("capital", 40e3, 50e3, 75e3),
    Chance("yearly_cost", 2e3, 3e3, 5e3),
    normal("used_energy", 20e3 * KWH, 2e3 * KWH),
    Chance("fuel_price", 1200.0, 1400.0, 2200.0),
)


def test_adding_a_case_or_a_number_leaves_other_results_unchanged() -> None:
    first = plan_doubt(BASE, CHANCES, seed=3)
    plan_doubt(replace(BASE, name="another"), CHANCES, seed=3)
    assert plan_doubt(BASE, CHANCES, seed=3) == first
    more = plan_doubt(BASE, (*CHANCES, Chance("other_saved", 0.0, 400.0, 600.0)), seed=3)
    assert more.levelised == first.levelised
    assert plan_doubt(replace(BASE, name="another"), CHANCES, seed=3).levelised != first.levelised
    assert plan_doubt(BASE, CHANCES, seed=4).levelised != first.levelised


def test_the_fuel_price_moves_worth_alone() -> None:
    found = plan_doubt(BASE, CHANCES, seed=3)
    cost = {share.name: share.share for share in found.measure_for_cost}
    value = {share.name: share.share for share in found.measure_for_value}
    assert cost["fuel_price"] < 0.01
    assert value["used_energy"] < 0.01
    # 0.043, 0.035 and 0.031 per kWh from 10 % of energy, 7360 of capital and 624 a year
    assert [share.name for share in found.measure_for_cost[:3]] == ["used_energy", "capital", "yearly_cost"]
    assert sum(cost.values()) == pytest.approx(1.0, abs=0.03)
    assert sum(value.values()) == pytest.approx(1.0, abs=0.03)
    assert 0.0 < found.chance_of_gain < 1.0
    assert found.levelised.p10 < found.levelised.p50 < found.levelised.p90


@pytest.mark.parametrize("coefficient", [0.0, 0.5, 0.9, -0.5])
def test_shares_of_a_sum_of_normals(coefficient: float) -> None:
    """y = 2 a + b: knowing a explains (2 + r)^2 of the 5 + 4 r, knowing b (1 + 2 r)^2."""
    pair = [Correlation("a", "b", coefficient)] if coefficient else []
    drawn = draw((normal("a", 0.0, 1.0), normal("b", 0.0, 1.0)), 50_000, 1, correlations=pair)
    shares = {s.name: s for s in variance_shares(2.0 * drawn["a"] + drawn["b"], drawn)}
    whole = 5.0 + 4.0 * coefficient
    assert shares["a"].share == pytest.approx((2.0 + coefficient) ** 2 / whole, abs=0.015)
    assert shares["b"].share == pytest.approx((1.0 + 2.0 * coefficient) ** 2 / whole, abs=0.015)
    left = np.sqrt(whole * (1.0 - shares["a"].share))
    assert shares["a"].deviation_left == pytest.approx(left, rel=0.02)


def test_a_share_that_slopes_miss_is_found() -> None:
    """y = a^2 + c b: no slope in a at its middle, and yet most of the variance, 2 of 2 + c^2."""
    drawn = draw((normal("a", 0.0, 1.0), normal("b", 0.0, 1.0)), 50_000, 2)
    shares = {s.name: s.share for s in variance_shares(drawn["a"] ** 2 + 0.5 * drawn["b"], drawn)}
    assert shares["a"] == pytest.approx(2.0 / 2.25, abs=0.015)
    assert shares["b"] == pytest.approx(0.25 / 2.25, abs=0.02)


def test_numbers_that_say_nothing_have_no_share() -> None:
    drawn = draw((normal("a", 0.0, 1.0), normal("noise", 0.0, 1.0)), 20_000, 3)
    shares = {s.name: s.share for s in variance_shares(drawn["a"], drawn)}
    assert shares["noise"] < 0.01
    constant = variance_shares(np.full(2000, 3.0), {"a": drawn["a"][:2000]})
    assert (constant[0].share, constant[0].deviation_left) == (0.0, 0.0)


def test_costs_that_err_together_widen_the_spread() -> None:
    pair = [Correlation("capital", "yearly_cost", 0.9)]
    apart, together = (plan_doubt(BASE, CHANCES, seed=3, correlations=c) for c in ([], pair))
    assert together.levelised.deviation > 1.05 * apart.levelised.deviation


def test_a_tornado_is_sorted_and_moves_one_number() -> None:
    ends = {"capital": (40e3, 60e3), "fuel_price": (1000.0, 1800.0), "rate": (0.05, 0.10)}
    found = tornado(BASE, ends, "net present value")
    assert found.value == pytest.approx(worth(BASE).net_present_value.amount)
    assert [row.width for row in found.rows] == sorted((row.width for row in found.rows), reverse=True)
    by_name = {row.name: row for row in found.rows}
    assert by_name["capital"].at_low - by_name["capital"].at_high == pytest.approx(20e3)
    dear = worth(plan(fuel_price=1800.0 / 1400.0 * BASE.fuel_price)).net_present_value.amount
    assert by_name["fuel_price"].at_high == pytest.approx(dear)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: plan_doubt(BASE, CHANCES, seed=1, draws=10), "draws"),
        (lambda: plan_doubt(BASE, (normal("speed", 1.0, 0.1),), seed=1), "no number 'speed'"),
        (lambda: tornado(BASE, {"capital": (1.0, float("inf"))}), "not finite"),
        (lambda: tornado(BASE, {}, "beauty"), "a tornado of"),
        (lambda: variance_shares(np.ones(10), {}), "1000"),
        (lambda: variance_shares(np.ones(2000), {"a": np.ones(3)}), "draws of a"),
    ],
)
def test_bad_doubt_is_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()


def test_a_plan_without_doubt_has_one_answer() -> None:
    found = plan_doubt(BASE, (), seed=1, draws=1000)
    assert found.levelised.deviation == pytest.approx(0.0, abs=1e-15)
    assert found.measure_for_cost == ()
