"""Duration curve: ranks, weights, refusal to extrapolate."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.place import duration_curve, quantile


@settings(max_examples=50, deadline=None)
@given(st.lists(st.floats(0.0, 1e4), min_size=1, max_size=40), st.floats(0.1, 1e3))
def test_equal_weights_give_the_unweighted_curve(values: list[float], weight: float) -> None:
    plain = duration_curve(values)
    weighted = duration_curve(values, np.full(len(values), weight))
    ranks = np.arange(1, len(values) + 1) / (len(values) + 1)
    np.testing.assert_allclose(plain.exceedance, ranks, rtol=1e-12)
    np.testing.assert_allclose(weighted.exceedance, ranks, rtol=1e-9)
    np.testing.assert_array_equal(weighted.value, sorted(values, reverse=True))


def test_a_value_that_stands_for_longer_moves_the_quantile() -> None:
    """Nine days at 1 and one at 2 in one stamp each: half the time is at 1, not halfway between."""
    plain = quantile(duration_curve([2.0, 1.0]), 0.5)
    weighted = quantile(duration_curve([2.0, 1.0], [1.0, 9.0]), 0.5)
    assert plain == pytest.approx(1.5)
    assert weighted < 1.2


def test_ranks_are_exact_and_between_them_linear() -> None:
    curve = duration_curve([10.0, 30.0, 20.0])
    assert quantile(curve, 0.25) == 30.0
    assert quantile(curve, 0.75) == 10.0
    assert quantile(curve, 0.375) == pytest.approx(25.0)


@pytest.mark.parametrize("exceedance", [0.2, 0.8, 0.0, 1.0, float("nan")])
def test_nothing_is_extrapolated(exceedance: float) -> None:
    with pytest.raises(InputError, match="longer record"):
        quantile(duration_curve([10.0, 30.0, 20.0]), exceedance)


@pytest.mark.parametrize("bad", [[], [1.0, np.nan], [np.inf], [[1.0, 2.0]]])
def test_bad_values_are_refused(bad: list[float]) -> None:
    with pytest.raises(InputError):
        duration_curve(bad)


@pytest.mark.parametrize("weights", [[1.0], [1.0, 0.0], [1.0, -1.0], [1.0, np.nan]])
def test_bad_weights_are_refused(weights: list[float]) -> None:
    with pytest.raises(InputError, match="weights"):
        duration_curve([1.0, 2.0], weights)
