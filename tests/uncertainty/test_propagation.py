"""What propagation says when something is missing, correlated, bent or wrong."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.uncertainty import Correlation, Input, propagate, rectangular, type_a


def product(v: Mapping[str, Any]) -> dict[str, Any]:
    return {"y": v["a"] * v["b"], "b_alone": 2.0 * v["b"]}


A, B = Input("a", 2.0, 0.1), Input("b", 3.0, 0.2)


def test_missing_uncertainty_is_blamed_and_never_nought() -> None:
    found = propagate(product, [Input("a", 2.0, None), B], draws=True, seed=1)
    assert not found["y"].complete
    assert found["y"].missing == ("a",)
    assert found["y"].standard_uncertainty is None
    assert found["y"].expanded is None
    assert found["y"].monte_carlo is None
    assert found["y"].known_part == pytest.approx(0.4)
    assert "a is" in found["y"].remarks[0].text
    assert found["y"].budget[0].contribution is None
    assert found["b_alone"].complete
    assert found["b_alone"].standard_uncertainty == pytest.approx(0.4)
    assert found["b_alone"].monte_carlo is not None
    assert found.correlation("y", "b_alone") is None


def test_missing_uncertainty_is_found_where_the_slope_is_nought() -> None:
    square = propagate(lambda v: {"y": v["x"] ** 2}, [Input("x", 0.0, None)])["y"]
    assert square.missing == ("x",)
    crossed = propagate(product, [Input("a", 0.0, 0.1), Input("b", 3.0, None)])["y"]
    assert crossed.budget[1].sensitivity == 0.0
    assert crossed.missing == ("b",)


def test_one_reading_has_no_uncertainty_of_type_a() -> None:
    found = propagate(lambda v: {"y": 2.0 * v["power"]}, [type_a("power", [5.0])])["y"]
    assert found.missing == ("power",)


def test_an_uncertainty_of_nought_that_was_stated_is_taken() -> None:
    found = propagate(product, [Input("a", 2.0, 0.0), B])["y"]
    assert found.complete
    assert found.standard_uncertainty == pytest.approx(0.4)


@pytest.mark.parametrize("r", [-1.0, -0.4, 0.0, 0.7, 1.0])
def test_correlation_in_a_sum(r: float) -> None:
    found = propagate(lambda v: {"y": v["a"] + v["b"]}, [A, B], correlations=[Correlation("a", "b", r)] if r else [])
    exact = math.sqrt(0.01 + 0.04 + 2.0 * r * 0.02)
    assert found["y"].standard_uncertainty == pytest.approx(exact)
    assert sum(line.share or 0.0 for line in found["y"].budget) == pytest.approx(1.0)


def test_correlated_draws() -> None:
    pair = [Correlation("a", "b", 0.8)]
    drawn = propagate(lambda v: {"y": v["a"] - v["b"]}, [A, B], correlations=pair, draws=True, seed=1)["y"]
    assert drawn.monte_carlo is not None
    assert drawn.monte_carlo.standard_uncertainty == pytest.approx(drawn.standard_uncertainty, rel=1e-2)


def test_readings_together_are_drawn_from_one_t() -> None:
    inputs = [Input("a", 2.0, 0.1, 9.0, "t", "A"), Input("b", 3.0, 0.2, 9.0, "t", "A")]
    pair = [Correlation("a", "b", 0.8)]
    drawn = propagate(lambda v: {"y": v["a"] - v["b"]}, inputs, correlations=pair, draws=True, seed=1, cap=400_000)[
        "y"
    ].monte_carlo
    scale = math.sqrt(0.01 + 0.04 - 2.0 * 0.8 * 0.02)
    assert drawn is not None
    assert drawn.standard_uncertainty == pytest.approx(scale * math.sqrt(9.0 / 7.0), rel=2e-2)
    assert 0.5 * (drawn.high - drawn.low) == pytest.approx(2.26216 * scale, rel=2e-2)


def test_same_seed_same_draws_and_another_seed_other_draws() -> None:
    found = [propagate(product, [A, B], draws=True, seed=s)["y"].monte_carlo for s in (5, 5, 6)]
    assert found[0] == found[1]
    assert found[0] != found[2]


def test_draw_by_draw_is_the_same_as_all_at_once() -> None:
    def scalar(v: Mapping[str, Any]) -> dict[str, Any]:
        return {"y": math.exp(v["a"]) * v["b"]}

    def array(v: Mapping[str, Any]) -> dict[str, Any]:
        return {"y": np.exp(v["a"]) * v["b"]}

    one = propagate(scalar, [A, B], draws=True, seed=2, cap=20_000, elementwise=False)["y"].monte_carlo
    two = propagate(array, [A, B], draws=True, seed=2, cap=20_000)["y"].monte_carlo
    assert one is not None
    assert two is not None
    assert one.high == pytest.approx(two.high, rel=1e-12)
    assert not one.settled


def test_the_cap_is_kept_and_said() -> None:
    found = propagate(product, [A, B], draws=True, seed=2, cap=15_000)["y"]
    assert found.monte_carlo is not None
    assert found.monte_carlo.draws <= 15_000
    assert not found.monte_carlo.settled
    assert any("did not settle" in one.text for one in found.remarks)


def test_sensitivities_given_or_found() -> None:
    table = {"y": {"a": 3.0, "b": 2.0}, "b_alone": {"b": 2.0}}
    one, two, three = (
        propagate(product, [A, B], sensitivities=table),
        propagate(product, [A, B]),
        propagate(product, [A, B], derivatives="complex"),
    )
    for other in (two, three):
        assert other["y"].standard_uncertainty == pytest.approx(one["y"].standard_uncertainty, rel=1e-9)
        assert other.correlation("y", "b_alone") == pytest.approx(one.correlation("y", "b_alone"))
    with pytest.raises(InputError, match="sensitivities are wanted"):
        propagate(product, [A, B], sensitivities={"y": {"c": 1.0}})


def test_complex_steps_through_an_absolute_value_are_refused() -> None:
    with pytest.raises(InputError, match="not analytic"):
        propagate(lambda v: {"y": abs(v["a"])}, [A], derivatives="complex")


@pytest.mark.parametrize("power", [1.0, 2.0, 3.0, -1.0, 0.5])
def test_central_differences_are_of_fourth_order(power: float) -> None:
    found = propagate(lambda v: {"y": v["a"] ** power}, [A])["y"]
    assert found.budget[0].sensitivity == pytest.approx(power * 2.0 ** (power - 1.0), rel=1e-6)


def test_curvature_of_a_cube_is_exact() -> None:
    """Y = X^3, X normal (m, s): variance 9 m^4 s^2 + 36 m^2 s^4 + 15 s^6; second order holds the first two."""
    m, s = 2.0, 0.3
    found = propagate(lambda v: {"y": v["x"] ** 3}, [Input("x", m, s)])["y"].second_order
    assert found is not None
    assert found.mean_shift == pytest.approx(3.0 * m * s**2, rel=1e-9)
    assert found.added_variance == pytest.approx(36.0 * m**2 * s**4, rel=1e-6)


@pytest.mark.parametrize("r", [0.0, 0.6, -0.9])
def test_curvature_of_a_product(r: float) -> None:
    """Y = X1 X2: mean r s1 s2 beyond the estimates, added variance s1^2 s2^2 (1 + r^2)."""
    found = propagate(product, [A, B], correlations=[Correlation("a", "b", r)])["y"].second_order
    assert found is not None
    assert found.mean_shift == pytest.approx(r * 0.1 * 0.2, abs=1e-11)
    assert found.added_variance == pytest.approx((0.1 * 0.2) ** 2 * (1.0 + r * r), rel=1e-6)


@pytest.mark.parametrize("order", [("a", "b"), ("b", "a")])
def test_curvature_of_unlike_powers(order: tuple[str, str]) -> None:
    """Y = X1^2 X2, independent: sum H_ij^2/2 + sum g_i f_ijj = 2 x2^2 s1^4 + 4 x1^2 s1^2 s2^2 + 2 x1^2 s1^2 s2^2."""
    first, second = order
    (x1, s1), (x2, s2) = ({"a": (2.0, 0.1), "b": (3.0, 0.2)}[name] for name in order)
    found = propagate(lambda v: {"y": v[first] ** 2 * v[second]}, [A, B])["y"].second_order
    assert found is not None
    assert found.mean_shift == pytest.approx(x2 * s1**2, rel=1e-8)
    assert found.added_variance == pytest.approx(2.0 * x2**2 * s1**4 + 6.0 * x1**2 * s1**2 * s2**2, rel=1e-6)


def test_more_digits_take_more_draws() -> None:
    """Ends of an exponential at two digits: twice the standard error of a 97.5 % quantile within 1 % of u."""

    def squares(v: Mapping[str, Any]) -> dict[str, Any]:
        return {"y": v["a"] ** 2 + v["b"] ** 2}

    inputs = [Input("a", 0.0, 0.005), Input("b", 0.0, 0.005)]
    one, two = (
        propagate(squares, inputs, draws=True, seed=1, digits=digits, cap=3_000_000)["y"].monte_carlo
        for digits in (1, 2)
    )
    assert one is not None
    assert two is not None
    assert one.settled
    assert two.settled
    assert one.draws == 100_000
    assert two.draws > 800_000


@pytest.mark.parametrize(
    ("shape", "low", "high"),
    [
        ("rectangular", 3.0 - math.sqrt(3.0), 3.0 + math.sqrt(3.0)),
        ("triangular", 3.0 - math.sqrt(6.0), 3.0 + math.sqrt(6.0)),
        ("arcsine", 3.0 - math.sqrt(2.0), 3.0 + math.sqrt(2.0)),
        ("exponential", 2.0, math.inf),
        ("normal", -math.inf, math.inf),
    ],
)
def test_shapes_keep_mean_spread_and_bounds(shape: Any, low: float, high: float) -> None:
    from racewright.uncertainty.draws import Draws

    one = Draws([Input("x", 3.0, 1.0, shape=shape)], np.eye(1), seed=1).take(400_000)[0]
    assert one.mean() == pytest.approx(3.0, abs=0.01)
    assert one.std() == pytest.approx(1.0, abs=0.01)
    assert low <= one.min()
    assert one.max() <= high


def test_refusals() -> None:
    with pytest.raises(InputError, match="seed"):
        propagate(product, [A, B], draws=True)
    with pytest.raises(InputError, match="different names"):
        propagate(product, [A, A])
    trio = [Input(n, 1.0, 0.1) for n in "abc"]
    pairs = [Correlation("a", "b", 0.9), Correlation("b", "c", 0.9), Correlation("a", "c", -0.9)]
    with pytest.raises(InputError, match="contradict"):
        propagate(lambda v: {"y": v["a"]}, trio, correlations=pairs)
    with pytest.raises(InputError, match="no input"):
        propagate(product, [A, B], correlations=[Correlation("a", "z", 0.5)])
    odd = [A, rectangular("b", 3.0, 0.2)]
    with pytest.raises(InputError, match="drawn together"):
        propagate(product, odd, correlations=[Correlation("a", "b", 0.5)], draws=True, seed=1)
    with pytest.raises(InputError, match="finite number"):
        Input("a", math.nan, 0.1)
    with pytest.raises(InputError, match="or None"):
        Input("a", 1.0, math.nan)
    with pytest.raises(InputError, match="level"):
        propagate(product, [A, B], level=95.0)
    with pytest.raises(NoAnswerError, match="no finite answer"):
        propagate(lambda v: {"y": math.inf * v["a"]}, [A])


def test_draws_outside_the_model_are_counted() -> None:
    def root(v: Mapping[str, Any]) -> dict[str, Any]:
        with np.errstate(invalid="ignore"):
            return {"y": np.sqrt(v["a"])}

    with pytest.raises(NoAnswerError, match="of 10000 draws"):
        propagate(root, [Input("a", 0.5, 0.2)], draws=True, seed=1)


def test_two_readings_cannot_be_drawn_from_t() -> None:
    with pytest.raises(InputError, match="more readings"):
        propagate(lambda v: {"y": v["x"]}, [type_a("x", [1.0, 2.0, 4.0])], draws=True, seed=1)
