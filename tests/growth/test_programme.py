"""Steps of growth: worth at the gates, stopping early against one leap, cash by quarter."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import Cancelled, InputError
from racewright.growth.learning import batch_cost, implied_learning, learned_cost, learning_exponent, sized_cost
from racewright.growth.programme import QUARTER, DevelopmentStep, Programme
from racewright.growth.programme_cash import programme_cash
from racewright.growth.programme_scaled import scaled_cost, with_unit_costs
from racewright.growth.programme_value import programme_value, spread_discount
from racewright.supply.money import Rate
from racewright.uncertainty import Correlation
from tests.growth.plans import BILL, usd

FREE, YEAR = Rate(0.0, "real"), 4.0 * QUARTER


def step(name: str, cost: float, time: float, chance: float, **more) -> DevelopmentStep:
    """Sure cost in USD and sure time in quarters, unless said otherwise."""
    sure = {"cost_low": 1.0, "cost_high": 1.0, "time_low": 1.0, "time_high": 1.0}
    return DevelopmentStep(name, 5e3, usd(cost), time * QUARTER, chance, **(sure | more))


TWO = Programme("two steps", (step("model", 1.0, 2.0, 0.5), step("unit", 10.0, 4.0, 0.5)), usd(40.0), FREE)


def test_two_steps_by_hand() -> None:
    """-1 + 0.5 (-10 + 0.5 x 40) = 4; paid all the same -11 + 0.25 x 40 = -1; the leap -10 + 0.25 x 40 = 0."""
    found = programme_value(TWO, step("leap", 10.0, 4.0, 0.25))
    amounts = [m.amount for m in (found.with_stopping, found.without_stopping, found.value_of_stopping)]
    assert amounts == pytest.approx([4.0, -1.0, 5.0])
    assert found.leap is not None
    assert found.steps_over_leap is not None
    assert (found.leap.amount, found.steps_over_leap.amount) == pytest.approx((0.0, 4.0))
    assert found.chance == 0.25
    assert (found.spent_with_stopping.amount, found.spent_without_stopping.amount) == pytest.approx((6.0, 11.0))
    assert [(g.going_on, g.begin, g.reached) for g in found.gates] == [(4.0, True, 1.0), (10.0, True, 0.5)]


def test_a_step_that_is_not_worth_it_is_not_begun() -> None:
    poor = programme_value(replace(TWO, prize=usd(15.0)))
    assert poor.with_stopping.amount == 0.0
    assert [gate.begin for gate in poor.gates] == [False, False]
    assert poor.spent_with_stopping.amount == 0.0
    assert "model, unit" in poor.remarks[0].text
    granted = replace(TWO, prize=usd(15.0), steps=(replace(TWO.steps[0], income=usd(4.0)), TWO.steps[1]))
    found = programme_value(granted)
    assert found.with_stopping.amount == pytest.approx(-1.0 + 0.5 * 4.0)
    assert [gate.begin for gate in found.gates] == [True, False]
    assert found.spent_with_stopping.amount == pytest.approx(1.0)


def test_what_is_left_over_is_counted() -> None:
    left = replace(TWO, steps=(TWO.steps[0], replace(TWO.steps[1], rest=usd(2.0))))
    assert programme_value(left).with_stopping.amount == pytest.approx(4.0 + 0.5 * 0.5 * 2.0)


def test_discounting_by_hand() -> None:
    """One step of a year at 10 %: spending spread evenly, the prize at its end."""
    one = Programme("one", (step("unit", 10.0, 4.0, 0.5),), usd(40.0), Rate(0.10, "real"))
    spread = (1.0 - 1.0 / 1.1) / np.log(1.1)
    assert spread_discount(0.10, YEAR) == pytest.approx(spread)
    assert programme_value(one).with_stopping.amount == pytest.approx(-10.0 * spread + 0.5 * 40.0 / 1.1)
    assert spread_discount(0.0, YEAR) == 1.0


STEPS = st.lists(
    st.tuples(
        st.floats(0.0, 1e6), st.floats(0.5, 20.0), st.floats(0.0, 1.0), st.floats(0.0, 1e5), st.floats(-1e5, 1e5)
    ),
    min_size=1,
    max_size=5,
)


@given(STEPS, st.floats(0.0, 1e8), st.floats(0.0, 0.3))
def test_the_right_to_stop_is_never_worth_less_than_nothing(rows, prize, rate) -> None:
    steps = tuple(
        step(str(i), cost, time, chance, income=usd(income), rest=usd(rest))
        for i, (cost, time, chance, income, rest) in enumerate(rows)
    )
    found = programme_value(Programme("p", steps, usd(prize), Rate(rate, "real")))
    tiny = 1e-9 * (prize + sum(row[0] for row in rows) + 1.0)
    assert found.value_of_stopping.amount >= -tiny
    assert found.with_stopping.amount >= 0.0
    sure = programme_value(
        Programme("p", tuple(replace(s, chance=1.0) for s in steps), usd(prize), Rate(rate, "real"))
    )
    if sure.without_stopping.amount >= 0.0 and all(gate.begin for gate in sure.gates):
        assert sure.value_of_stopping.amount == pytest.approx(0.0, abs=tiny)


def test_a_leap_with_a_better_chance_than_the_steps_is_remarked() -> None:
    assert not programme_value(TWO, step("leap", 10.0, 4.0, 0.25)).remarks
    assert programme_value(TWO, step("leap", 10.0, 4.0, 0.3)).remarks[0].about == "leap"


def test_cash_of_sure_steps_by_quarter() -> None:
    """Costs spread over two and four quarters; the grant falls in the quarter after the first gate."""
    sure = replace(TWO, steps=(replace(TWO.steps[0], chance=1.0, income=usd(3.0)), replace(TWO.steps[1], chance=1.0)))
    found = programme_cash(sure, seed=1, draws=100)
    assert found.expected == pytest.approx([-0.5, -0.5, 3.0 - 2.5, -2.5, -2.5, -2.5, 0.0])
    assert found.if_all_pass == pytest.approx(found.expected)
    assert found.sum_middle[-1] == pytest.approx(-8.0)
    assert found.deepest.p50 == pytest.approx(8.0)
    assert found.finished == 1.0
    assert found.time_to_prize is not None
    assert found.time_to_prize.mean == pytest.approx(6.0 * QUARTER)


def test_cash_agrees_with_the_expected_spending() -> None:
    """10 000 draws of gates, cost and time: sums within four standard errors of the means."""
    wide = Programme(
        "wide",
        (
            DevelopmentStep("model", 500.0, usd(30e3), 3 * QUARTER, 0.7, income=usd(5e3)),
            DevelopmentStep("unit", 5e3, usd(150e3), 5 * QUARTER, 0.6, rest=usd(10e3)),
            DevelopmentStep("array", 50e3, usd(900e3), 6 * QUARTER, 0.8),
        ),
        usd(1e8),
        FREE,
    )
    found, value = programme_cash(wide, seed=2), programme_value(wide)
    incomes = 0.7 * 5e3 + 0.7 * 0.4 * 10e3
    assert -found.expected.sum() == pytest.approx(value.spent_with_stopping.amount - incomes, rel=0.03)
    assert found.finished == pytest.approx(0.7 * 0.6 * 0.8, abs=0.02)
    assert found.stopped_at == pytest.approx([0.3, 0.7 * 0.4, 0.7 * 0.6 * 0.2], abs=0.02)
    assert found.stopped_at.sum() + found.finished == pytest.approx(1.0)
    assert (found.sum_low <= found.sum_middle).all()
    assert (found.sum_middle <= found.sum_high).all()
    assert found.time_to_prize is not None
    assert found.time_to_prize.mean == pytest.approx(sum(s.mean_time for s in wide.steps), rel=0.02)


def test_programmes_draw_apart_and_costs_may_overrun_together() -> None:
    steps = tuple(DevelopmentStep(n, 5e3, usd(1e5), 3 * QUARTER, 1.0, cost_high=3.0) for n in ("a", "b"))
    one = Programme("one", steps, usd(0.0), FREE)
    apart = programme_cash(one, seed=5)
    assert np.array_equal(apart.expected, programme_cash(one, seed=5).expected)
    programme_cash(replace(one, name="two"), seed=5)
    assert not np.array_equal(apart.expected, programme_cash(replace(one, name="two"), seed=5).expected)
    longer = programme_cash(replace(one, steps=(*steps, replace(steps[0], name="c"))), seed=5)
    assert apart.expected[:4] == pytest.approx(longer.expected[:4])
    together = programme_cash(one, seed=5, correlations=[Correlation("a: cost", "b: cost", 0.9)])
    assert together.deepest.deviation > 1.2 * apart.deepest.deviation


def test_cash_can_be_stopped_and_no_pass_is_finite() -> None:
    def tick(fraction: float) -> None:
        if fraction > 0.0:
            raise Cancelled("enough")

    with pytest.raises(Cancelled):
        programme_cash(TWO, seed=1, tick=tick)
    never = replace(TWO, steps=(replace(TWO.steps[0], chance=0.0), TWO.steps[1]))
    found = programme_cash(never, seed=1, draws=100)
    assert (found.finished, found.time_to_prize) == (0.0, None)
    assert found.expected.sum() == pytest.approx(-1.0)
    assert not found.if_all_pass.any()


def test_a_later_step_from_the_unit_that_was_built() -> None:
    found = scaled_cost(usd(50e3), 5e3, 1e6, 3, size_exponent=0.7, learning_rate=0.10, built_before=4)
    size, numbers = 200.0**0.7, sum(n ** -learning_exponent(0.10) for n in (5, 6, 7))
    assert found.cost.amount == pytest.approx(50e3 * size * numbers)
    assert found.unit_cost.amount == pytest.approx(found.cost.amount / 3)
    assert found.cost_per_power.amount == pytest.approx(found.unit_cost.amount / 1e6)
    assert (found.size_factor, found.learning_factor) == pytest.approx((size, numbers / 3))


def test_units_of_all_steps_before_teach_the_next() -> None:
    """A model without a unit of its own kind, two river units of 5 kW, one of 1 MW: numbers 1, 2 and 3."""
    model, river = step("model", 10e3, 2.0, 0.8, units=0), step("river", 20e3, 4.0, 0.7, units=2)
    tidal = replace(step("tidal", 500e3, 8.0, 0.5), rated_power=1e6)
    found = with_unit_costs((model, river, tidal), usd(50e3), 5e3, size_exponent=0.7, learning_rate=0.10)
    b = learning_exponent(0.10)
    assert [one.cost.amount for one in found] == pytest.approx(
        [10e3, 20e3 + 50e3 * (1.0 + 2.0**-b), 500e3 + 50e3 * 200.0**0.7 * 3.0**-b]
    )
    with pytest.raises(InputError, match="cannot be joined"):
        with_unit_costs((river,), usd(50e3, BILL), 5e3, size_exponent=0.7, learning_rate=0.10)


@given(st.floats(0.0, 0.4), st.floats(1.0, 100.0), st.floats(1.0, 1e4))
def test_learning_implies_itself(rate: float, then: float, more: float) -> None:
    now = then * (1.0 + more)
    assert implied_learning(100.0, learned_cost(100.0, now, then, rate), then, now) == pytest.approx(rate, abs=1e-9)


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: step("x", -1.0, 1.0, 0.5), "cost of x"),
        (lambda: step("x", 1.0, 0.0, 0.5), "time of x"),
        (lambda: step("x", 1.0, 1.0, 1.5), "chance of x"),
        (lambda: step("x", 1.0, 1.0, 0.5, cost_low=1.5), "low <= 1 <= high"),
        (lambda: step("x", 1.0, 1.0, 0.5, units=-1), "units"),
        (lambda: replace(TWO, steps=()), "0 steps"),
        (lambda: replace(TWO, steps=(TWO.steps[0],) * 2), "named twice"),
        (lambda: replace(TWO, prize=usd(1.0, BILL)), "cannot be joined"),
        (lambda: replace(TWO, rate=Rate(0.05, "nominal")), "real goes with real"),
        (lambda: replace(TWO, rate=Rate(-0.01, "real")), "0 or more"),
        (lambda: programme_value(TWO, replace(TWO.steps[0], cost=usd(1.0, BILL))), "cannot be joined"),
        (lambda: programme_cash(TWO, seed=1, draws=5), "draws"),
        (lambda: programme_cash(TWO, seed=1, correlations=[Correlation("model: cost", "x", 0.5)]), "no input"),
        (lambda: learning_exponent(1.0), "learning rate"),
        (lambda: sized_cost(1.0, 1.0, 1.0, 3.0), "size exponent"),
        (lambda: batch_cost(1.0, -1, 1, 0.1), "built before"),
        (lambda: implied_learning(1.0, 1.0, 2.0, 2.0), "same number"),
    ],
)
def test_bad_programmes_are_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()
