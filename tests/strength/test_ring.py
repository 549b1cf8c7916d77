"""The ring: signs, scaling, pressure, frequencies, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.machine.duct import Duct
from racewright.machine.duct_contour import duct_contour
from racewright.strength.added_mass import strip_added_mass, tube_added_mass
from racewright.strength.duct_ring import duct_ring
from racewright.strength.ring import Ring, rectangular_ring, ring_loads, ring_pressure, tube_buckling_pressure
from racewright.strength.ring_modes import ring_frequency, ring_modes
from tests.strength.shapes import rectangle

RING = rectangular_ring(0.5, 0.05, 0.02, 200e9)
SIZES = st.floats(0.2, 5.0)


@given(st.floats(1.0, 1e6), SIZES, st.integers(2, 50))
def test_load_scaling(load, scale, count):
    """Moment as W R, movement as W R^3/(E I); a ring blown up by s under s^2 times the load has the same stress."""
    one = ring_loads(RING, load, count)
    large = rectangular_ring(0.5 * scale, 0.05 * scale, 0.02 * scale, 200e9)
    other = ring_loads(large, scale**2 * load, count)
    assert other.stress == pytest.approx(one.stress)
    assert other.inward_at_load == pytest.approx(scale * one.inward_at_load)
    assert ring_loads(RING, 2.0 * load, count).moment_at_load == pytest.approx(2.0 * one.moment_at_load)


@given(st.floats(1.0, 1e6), st.integers(2, 100))
def test_signs(load, count):
    found = ring_loads(RING, load, count)
    assert found.moment_at_load > 0.0 > found.moment_between
    assert found.inward_at_load > 0.0
    assert found.outward_between > 0.0
    assert found.hoop_between < 0.0
    outwards = ring_loads(RING, -load, count)
    assert outwards.moment_at_load == pytest.approx(-found.moment_at_load)
    assert outwards.stress == pytest.approx(found.stress)


def test_many_loads_become_a_pressure():
    """200 loads W: hoop force is W n/(2 pi), bending nearly gone."""
    found = ring_loads(RING, 100.0, 200)
    assert found.hoop_between == pytest.approx(-100.0 * 200 / (2.0 * math.pi), rel=1e-4)
    assert found.moment_at_load < 1e-3 * 100.0 * 0.5 * 200


@given(st.floats(0.0, 1e6), st.floats(0.0, 1e6))
def test_only_the_difference_of_pressures_counts(external, internal):
    both = ring_pressure(RING, external, internal)
    low = min(external, internal)
    net = ring_pressure(RING, external - low, internal - low)
    assert both.hoop_stress == pytest.approx(net.hoop_stress, rel=1e-9, abs=1e-3)
    assert both.buckling_use >= 0.0


def test_pressure_by_hand():
    """1 MPa outside: p R/t = 25 MPa; buckles at 160 kN/m over 50 mm: 3.2 MPa."""
    found = ring_pressure(RING, 1e6)
    assert found.hoop_stress == pytest.approx(-25e6)
    assert found.buckling_pressure == pytest.approx(3.2e6)
    assert found.buckling_use == pytest.approx(0.3125)
    assert found.bending_stress == 0.0
    assert ring_pressure(RING, 0.0, 1e6).hoop_stress == pytest.approx(25e6)
    assert ring_pressure(RING, 0.0, 1e6).buckling_use == 0.0


def test_an_oval_ring_bends_more_the_nearer_it_buckles():
    """N w/(1 - use) c/I; internal pressure straightens it."""
    hoop = 1e6 * 0.05 * 0.5
    wanted = hoop * 0.002 / (1.0 - 0.3125) * 0.01 / (0.05 * 0.02**3 / 12.0)
    assert ring_pressure(RING, 1e6, out_of_round=0.002).bending_stress == pytest.approx(wanted)
    assert ring_pressure(RING, 0.0, 1e6, 0.002).bending_stress == pytest.approx(wanted * (1.0 - 0.3125) / 1.3125)


def test_a_ring_that_folds_is_warned_of():
    found = ring_pressure(RING, 4e6)
    assert found.buckling_use == pytest.approx(1.25)
    assert any("it folds" in remark.text for remark in found.remarks)


def test_a_thick_ring_is_warned_of():
    assert any(
        "thick ring" in remark.about for remark in ring_loads(rectangular_ring(0.5, 0.05, 0.1, 1e9), 1.0).remarks
    )
    assert ring_loads(RING, 1.0).remarks == ()


@given(st.floats(0.5, 500.0), st.floats(0.0, 500.0), st.integers(2, 20))
def test_water_lowers_frequencies(mass, water, waves):
    dry, wet = ring_frequency(RING, mass, waves), ring_frequency(RING, mass, waves, water)
    assert wet <= dry
    assert ring_frequency(RING, mass, waves + 1) > dry
    assert ring_frequency(RING, 4.0 * mass, waves) == pytest.approx(0.5 * dry)


def test_modes_in_water():
    found = ring_modes(RING, 7.85, 1000.0, 4)
    assert list(found.waves) == [2, 3, 4, 5]
    assert all(found.in_water < found.in_air)
    strip = strip_added_mass(0.05, 1000.0)
    assert found.added_mass_per_length == pytest.approx(
        [min(strip, tube_added_mass(0.5, 0.05, 1000.0, n)) for n in range(2, 6)]
    )
    assert ring_modes(RING, 7.85, 0.0).in_water == pytest.approx(ring_modes(RING, 7.85, 0.0).in_air)
    assert found.safety.caution


def test_a_duct_s_section_as_a_ring():
    """A rectangle as contour is the rectangular ring; a real duct's section stands about its throat."""
    box = rectangle(0.05, 0.02) + np.array([0.3, 0.5])
    plain, found = rectangular_ring(0.5, 0.05, 0.02, 200e9), duct_ring(box, 200e9)
    for name in ("radius", "width", "area", "second_moment", "fibre"):
        assert getattr(found, name) == pytest.approx(getattr(plain, name))
    x, r = duct_contour(Duct(0.5, 1.6, 0.6, 0.12), 80)
    duct = duct_ring(np.column_stack([x, r]), 70e9)
    assert 0.5 < duct.radius < 0.65
    assert duct.width == pytest.approx(0.6, rel=0.02)
    hollow = duct_ring(box, 200e9, holes=[rectangle(0.04, 0.01) + np.array([0.3, 0.5])])
    assert hollow.second_moment == pytest.approx((0.05 * 0.02**3 - 0.04 * 0.01**3) / 12.0)
    with pytest.raises(InputError, match="reaches the axis"):
        duct_ring(rectangle(1.0, 1.0), 200e9)


def test_a_long_duct_takes_the_tube_s_water():
    long_ring = rectangular_ring(0.5, 2.0, 0.02, 200e9)
    assert ring_modes(long_ring, 300.0, 1000.0, 1).added_mass_per_length[0] == pytest.approx(1000.0 * 0.5 * 2.0)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_bad_numbers(bad):
    with pytest.raises(InputError, match="radius"):
        rectangular_ring(bad, 0.05, 0.02, 200e9)
    with pytest.raises(InputError, match="thickness"):
        rectangular_ring(0.5, 0.05, bad, 200e9)
    with pytest.raises(InputError, match="elasticity"):
        tube_buckling_pressure(0.01, 0.5, bad)
    with pytest.raises(InputError, match="external pressure"):
        ring_pressure(RING, bad)
    with pytest.raises(InputError, match="mass per length"):
        ring_frequency(RING, bad, 2)
    with pytest.raises(InputError, match="departure"):
        ring_pressure(RING, 1.0, out_of_round=bad)


def test_more_bad_numbers():
    with pytest.raises(InputError, match="load on the ring"):
        ring_loads(RING, math.nan)
    with pytest.raises(InputError, match="number of loads"):
        ring_loads(RING, 1.0, 1)
    with pytest.raises(InputError, match="number of waves"):
        ring_frequency(RING, 1.0, 1)
    with pytest.raises(InputError, match="fibre"):
        Ring(0.5, 0.05, 1e-3, 1e-8, 0.6, 200e9)
    with pytest.raises(InputError, match="Poisson"):
        rectangular_ring(0.5, 0.05, 0.02, 200e9, 0.6)
