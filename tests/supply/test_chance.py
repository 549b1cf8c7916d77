"""Uncertain numbers: their shapes, their streams, what errs together."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.supply.chance import Chance, draw, normal, sure
from racewright.supply.quantiles import quantiles
from racewright.supply.streams import stream
from racewright.uncertainty import Correlation

MANY = 200_000
CAPITAL = Chance("capital", 40e3, 50e3, 75e3)


def test_moments_of_the_shapes() -> None:
    even, ratio = Chance("e", 2.0, 5.0, 8.0, "even"), Chance("r", 0.5, 1.0, 2.0, "ratio")
    drawn = draw((CAPITAL, even, ratio, normal("n", 10.0, 2.0)), MANY, 3)
    assert drawn["capital"].mean() == pytest.approx(55e3, rel=2e-3)
    assert drawn["capital"].std() == pytest.approx(7359.80, rel=5e-3)
    assert (drawn["e"].mean(), drawn["e"].std()) == pytest.approx((5.0, 6.0 / math.sqrt(12.0)), rel=5e-3)
    assert (drawn["n"].mean(), drawn["n"].std()) == pytest.approx((10.0, 2.0), rel=5e-3)
    logs = np.log(drawn["r"])
    assert logs.std() == pytest.approx(0.5 * math.log(2.0), rel=5e-3)
    assert drawn["capital"].min() >= 40e3
    assert drawn["capital"].max() <= 75e3


@given(st.floats(-1e6, 1e6), st.floats(0.0, 1e6), st.floats(0.0, 1e6), st.floats(0.001, 0.999))
def test_a_triangle_keeps_its_ends_and_grows(low, left, right, share) -> None:
    one = Chance("x", low, low + left, low + left + right)
    here, there = one.quantile(share), one.quantile(min(share + 0.0005, 0.9999))
    assert one.low - 1e-9 * (1 + abs(low)) <= here <= one.high + 1e-9 * (1 + abs(one.high))
    assert here <= there + 1e-9 * (1 + abs(there))


def test_quantiles_of_a_triangle_by_its_area() -> None:
    """Below the likeliest value lies (value - low)/(high - low) of a triangle; ends of the share are closed forms."""
    turn = (50e3 - 40e3) / 35e3
    assert CAPITAL.quantile(turn) == pytest.approx(50e3)
    assert CAPITAL.quantile(0.1) == pytest.approx(40e3 + math.sqrt(0.1 * 35e3 * 10e3))
    assert CAPITAL.quantile(0.9) == pytest.approx(75e3 - math.sqrt(0.1 * 35e3 * 25e3))
    assert sure("x", 3.0).quantile(0.7) == 3.0


def test_a_name_draws_the_same_whatever_stands_beside_it() -> None:
    alone = draw((CAPITAL,), 1000, 7, case="a")["capital"]
    beside = draw((normal("rate", 0.06, 0.01), CAPITAL, sure("x", 1.0)), 1000, 7, case="a")["capital"]
    assert np.array_equal(alone, beside)
    assert np.array_equal(alone[:10], draw((CAPITAL,), 10, 7, case="a")["capital"])
    for other in (draw((CAPITAL,), 1000, 8, case="a"), draw((CAPITAL,), 1000, 7, case="b")):
        assert not np.array_equal(alone, other["capital"])


def test_an_unrelated_pair_leaves_another_pair_alone() -> None:
    a, b, c, d = (normal(name, 0.0, 1.0) for name in "abcd")
    pair = [Correlation("a", "b", 0.6)]
    one = draw((a, b), 1000, 1, correlations=pair)
    two = draw((c, a, d, b), 1000, 1, correlations=[Correlation("c", "d", 0.6), *pair])
    assert np.array_equal(one["a"], two["a"])
    assert np.array_equal(one["b"], two["b"])


@pytest.mark.parametrize("coefficient", [-0.9, -0.3, 0.5, 1.0])
def test_what_errs_together(coefficient: float) -> None:
    pair = (normal("a", 1.0, 2.0), Chance("b", 0.0, 1.0, 9.0))
    drawn = draw(pair, MANY, 2, correlations=[Correlation("a", "b", coefficient)])
    scores = [np.argsort(np.argsort(drawn[name])) for name in "ab"]
    rank = np.corrcoef(scores[0], scores[1])[0, 1]
    assert rank == pytest.approx(6.0 / math.pi * math.asin(coefficient / 2.0), abs=0.01)
    assert drawn["b"].mean() == pytest.approx(10.0 / 3.0, rel=5e-3)


def test_streams_tell_names_apart() -> None:
    draws = {stream(1, *names).random() for names in (("a", "b"), ("ab",), ("a",), ("b", "a"), (1, "a"), ("1", "a"))}
    assert len(draws) == 6


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: Chance("x", 2.0, 1.0, 3.0), "low <= value <= high"),
        (lambda: Chance("x", 0.0, math.nan, 3.0), "finite"),
        (lambda: Chance("x", 0.0, 1.0, 3.0, "even"), "middle"),
        (lambda: Chance("x", 0.0, 1.0, 3.0, "ratio"), "ratio"),
        (lambda: Chance("x", 0.0, 1.0, 3.0, "bell"), "shape"),
        (lambda: draw((CAPITAL, CAPITAL), 10, 1), "named twice"),
        (lambda: draw((CAPITAL,), 0, 1), "draws"),
        (lambda: draw((CAPITAL,), 10, 1.5), "seed"),
        (lambda: draw((CAPITAL,), 10, 1, correlations=[Correlation("capital", "y", 0.5)]), "no input"),
        (lambda: quantiles([]), "quantiles"),
        (lambda: quantiles([1.0, math.inf]), "finite"),
    ],
)
def test_bad_chances_are_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()


def test_quantiles() -> None:
    found = quantiles(np.arange(101.0))
    assert (found.p10, found.p50, found.p90, found.mean) == (10.0, 50.0, 90.0, 50.0)
    assert quantiles([3.0]).deviation == 0.0
