"""Calibrations: the fit, its covariance, what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.trials import Calibration, exact, fit_calibration


def test_a_cubic_comes_back_from_its_own_points():
    x = np.linspace(-3.0, 50.0, 9)
    y = 2.0 - 0.3 * x + 0.01 * x**2 + 1e-4 * x**3
    law = fit_calibration(x, y, 3)
    assert law.coefficients == pytest.approx([2.0, -0.3, 0.01, 1e-4], rel=1e-9)
    assert (law.raw_low, law.raw_high, law.degrees_of_freedom) == (-3.0, 50.0, 5.0)
    assert law.value([10.0, 20.0]) == pytest.approx([0.1 + 2.0 - 2.0 - 0.0, 2.0 - 6.0 + 4.0 + 0.8])


def test_the_fit_uncertainty_is_the_scatter_of_many_fits():
    """Standard deviation of the fitted value at a reading over 2000 calibrations with known noise."""
    rng = np.random.default_rng(5)
    x, noise = np.linspace(0.0, 10.0, 12), 0.05
    fits = [fit_calibration(x, 1.0 + 2.0 * x + noise * rng.standard_normal(12), 2) for _ in range(2000)]
    values = np.array([float(law.value(8.0)) - float(law.value(1.0)) for law in fits])
    believed = math.sqrt(np.mean([law.fit_uncertainty(8.0, 1.0) ** 2 for law in fits]))
    assert believed == pytest.approx(values.std(), rel=0.05)
    assert fits[0].fit_uncertainty(1.0, 1.0) == 0.0


@pytest.mark.parametrize(
    ("raw", "value", "degree", "words"),
    [
        ([1.0, 2.0], [1.0, 2.0], 1, "cannot fix a polynomial"),
        ([1.0, 1.0, 1.0], [1.0, 2.0, 3.0], 1, "same raw reading"),
        ([1.0, 1.0, 2.0, 2.0], [1.0, 1.0, 2.0, 2.0], 2, "too few distinct"),
        ([1.0, 2.0, math.nan], [1.0, 2.0, 3.0], 1, "finite"),
        ([1.0, 2.0, 3.0], [1.0, 2.0], 1, "as many"),
    ],
)
def test_points_that_do_not_fix_a_calibration_are_refused(raw, value, degree, words):
    with pytest.raises(InputError, match=words):
        fit_calibration(raw, value, degree)


def test_what_is_no_calibration_is_refused():
    with pytest.raises(InputError, match="p x p"):
        Calibration(np.zeros(2), np.zeros((3, 3)))
    with pytest.raises(InputError, match="finite"):
        exact(math.nan, 1.0)
    with pytest.raises(InputError, match="reference"):
        Calibration(np.zeros(2), np.zeros((2, 2)), reference=-0.1)
