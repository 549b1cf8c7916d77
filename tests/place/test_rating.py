"""Rating curve: there and back, limits."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.place.rating import Rating, discharge_at, level_at


@settings(max_examples=60, deadline=None)
@given(st.floats(0.1, 100.0), st.floats(-10.0, 10.0), st.floats(1.0, 4.0), st.floats(0.01, 1e4))
def test_level_and_discharge_are_inverse(c: float, zero: float, b: float, flow: float) -> None:
    rating = Rating(c, zero, b)
    assert float(discharge_at(rating, level_at(rating, flow))) == pytest.approx(flow, rel=1e-6)


def test_below_the_zero_level_nothing_flows() -> None:
    rating = Rating(6.4, 0.3, 2.3)
    np.testing.assert_array_equal(discharge_at(rating, [-1.0, 0.3]), [0.0, 0.0])
    assert float(level_at(rating, 0.0)) == 0.3


@pytest.mark.parametrize("numbers", [(0.0, 0.0, 2.0), (1.0, np.nan, 2.0), (1.0, 0.0, 0.1), (np.inf, 0.0, 2.0)])
def test_bad_ratings_are_refused(numbers: tuple[float, float, float]) -> None:
    with pytest.raises(InputError, match="rating"):
        Rating(*numbers)


def test_bad_arguments_are_refused() -> None:
    rating = Rating(1.0, 0.0, 2.0)
    for bad in (-1.0, np.nan, np.inf):
        with pytest.raises(InputError):
            level_at(rating, bad)
    with pytest.raises(InputError):
        discharge_at(rating, np.nan)
