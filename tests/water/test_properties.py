"""Water properties: refusals, smoothness, direction."""

from __future__ import annotations

import json
import math
import subprocess
import sys

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.water import properties

TEMPERATURES = st.floats(273.15, 313.15)


@pytest.mark.parametrize("temperature", [273.149, 313.151, 15.0, -1.0, math.nan, math.inf])
def test_outside_the_range_is_refused(temperature):
    with pytest.raises(InputError, match=r"0 to 40 degC"):
        properties(temperature, "fresh")


def test_another_kind_is_refused():
    with pytest.raises(InputError, match="'fresh' or 'sea'"):
        properties(288.15, "brackish")


@pytest.mark.parametrize("kind", ["fresh", "sea"])
@pytest.mark.parametrize("temperature", [273.15, 313.15])
def test_the_ends_are_inside(kind, temperature):
    water = properties(temperature, kind)
    assert (water.kind, water.temperature) == (kind, temperature)
    assert 990.0 < water.density < 1030.0


@given(TEMPERATURES)
def test_sea_is_heavier_thicker_and_less_volatile(temperature):
    fresh, sea = properties(temperature, "fresh"), properties(temperature, "sea")
    assert sea.density > fresh.density + 25.0
    assert 1.0 < sea.viscosity / fresh.viscosity < 1.06
    assert 0.980 < sea.vapour_pressure / fresh.vapour_pressure < 0.983


@given(TEMPERATURES, st.sampled_from(["fresh", "sea"]))
def test_warmer_water_is_thinner_and_more_volatile(temperature, kind):
    warmer = min(temperature + 0.01, 313.15)
    cold, warm = properties(temperature, kind), properties(warmer, kind)
    assert warm.viscosity <= cold.viscosity
    assert warm.vapour_pressure >= cold.vapour_pressure


@pytest.mark.parametrize("kind", ["fresh", "sea"])
@pytest.mark.parametrize("name", ["density", "viscosity", "vapour_pressure"])
def test_smooth(kind, name):
    """Fourth differences at 0.5 K steps stay at 2e-6 of the value: no kink, no join between formulas."""
    grid = 273.15 + 0.5 * np.arange(81)
    value = np.array([getattr(properties(float(t), kind), name) for t in grid])
    assert np.abs(np.diff(value, 4)).max() < 2e-6 * value.max()


def test_fresh_water_is_heaviest_at_four_degrees():
    """The density maximum of pure water lies at 3.98 degC; sea water of 35 g/kg has none above freezing."""
    grid = np.arange(273.15, 283.15, 0.01)
    fresh = [properties(float(t), "fresh").density for t in grid]
    assert grid[int(np.argmax(fresh))] - 273.15 == pytest.approx(3.98, abs=0.03)
    sea = np.array([properties(float(t), "sea").density for t in grid])
    assert (np.diff(sea) < 0).all()


def test_import_pulls_no_heavy_library():
    heavy = "('pandas', 'xarray', 'matplotlib', 'scipy', 'numba')"
    code = f"import sys, json, racewright.water; print(json.dumps([m for m in {heavy} if m in sys.modules]))"
    answer = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert json.loads(answer.stdout) == []
