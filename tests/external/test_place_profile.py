"""Algebra of the power-law profile."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.place.profile import RIVER_N, cube_mean_speed, speed_at
from tests.external.record import Record


@pytest.mark.outside(
    source="Power-law algebra: mean over surface speed is n/(n+1); Rantz et al. 1982, USGS "
    "WSP 2175, gives 0.84 to 0.90 in the field (from memory)",
    status="closed form",
    tolerance="1e-9",
)
def test_mean_over_surface() -> None:
    assert 1.0 / float(speed_at(1.0, 2.0, 2.0, 7.0)) == pytest.approx(0.875, rel=1e-9)
    assert 1.0 / float(speed_at(1.0, 2.0, 2.0, 6.0)) == pytest.approx(6.0 / 7.0, rel=1e-9)


@pytest.mark.outside(
    source="Power-law algebra: speed at 0.6 of the depth below the surface, and mean of 0.2 and 0.8, over the mean",
    status="closed form",
    tolerance="1e-6: the reference has seven digits",
)
def test_six_tenths_and_two_point_methods() -> None:
    assert float(speed_at(1.0, 3.0, 1.2, 7.0)) == pytest.approx(1.002636, abs=1e-6)
    assert float(speed_at(1.0, 3.0, 1.2, 6.0)) == pytest.approx(1.001437, abs=1e-6)
    assert float(speed_at(1.0, 3.0, np.array([0.6, 2.4]), 7.0).mean()) == pytest.approx(1.007556, abs=1e-6)


@pytest.mark.outside(
    source="Power-law algebra: depth mean of u^3 over (mean u)^3 is (1 + 1/n)^3 / (1 + 3/n)",
    status="closed form",
    tolerance="1e-6: the reference has seven digits; 2000-point midpoint sum in a stretched height",
)
@pytest.mark.parametrize(("n", "factor"), [(5.0, 1.08), (6.0, 1.058642), (7.0, 1.044898), (10.0, 1.023846)])
def test_cube_mean_over_the_depth(n: float, factor: float, record_property: Record) -> None:
    s = (np.arange(2000) + 0.5) / 2000
    mean_cube = float(np.mean(speed_at(1.0, 1.0, s**3, n) ** 3 * 3.0 * s**2))
    record_property("measured", f"{abs(mean_cube / factor - 1.0):.0e} at n = {n:g}")
    assert mean_cube == pytest.approx(factor, rel=1e-6)


@pytest.mark.outside(
    source="Adaptive quadrature of the 1/7 law over a 1 m disc, axis 2.0 m above the bed in "
    "3 m of water, mean 1.8 m/s",
    status="computed",
    tolerance="1e-6: the reference has seven digits",
)
def test_cube_mean_over_a_disc(record_property: Record) -> None:
    found = float(cube_mean_speed(1.8, 3.0, 2.0, 0.5, 7.0))
    record_property("measured", f"{abs(found / 1.940119 - 1.0):.0e}")
    assert found == pytest.approx(1.940119, rel=1e-6)


@pytest.mark.outside(
    source="Neary, Gunawan & Sale 2013, Renewable and Sustainable Energy Reviews 26:437-445 "
    "(abstract): 1/6 fits 47 measured profiles to first order",
    status="published",
    tolerance="choice of the default, not a number test",
)
def test_default_exponent() -> None:
    assert RIVER_N == 6.0
