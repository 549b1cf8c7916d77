"""Shaft and bolt group: scaling, parts, balance, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.strength.flange import bolt_circle, bolt_loads
from racewright.strength.shaft import shaft_stress, shaft_torque

MOMENT = st.floats(-1e5, 1e5)


@given(MOMENT, MOMENT, st.floats(-1e6, 1e6), st.floats(0.1, 10.0))
def test_shaft_scaling(torque, bending, thrust, scale):
    """A shaft blown up by s bears s^3 times the moments and s^2 times the thrust at the same stress."""
    one = shaft_stress(0.05, torque, bending, thrust, bore=0.02)
    other = shaft_stress(0.05 * scale, scale**3 * torque, scale**3 * bending, scale**2 * thrust, bore=0.02 * scale)
    assert other.von_mises == pytest.approx(one.von_mises, rel=1e-9, abs=1e-6)


@given(MOMENT, MOMENT, st.floats(-1e6, 1e6))
def test_shaft_stresses_are_ordered(torque, bending, thrust):
    """Von Mises lies between sqrt 3 and 2 times the largest shear, and signs of moments do not matter."""
    found = shaft_stress(0.05, torque, bending, thrust)
    assert math.sqrt(3.0) * found.largest_shear <= found.von_mises * (1.0 + 1e-12)
    assert found.von_mises <= 2.0 * found.largest_shear * (1.0 + 1e-12)
    assert shaft_stress(0.05, -torque, -bending, thrust).von_mises == found.von_mises


def test_thrust_adds_to_bending_by_size():
    found = shaft_stress(0.04, 0.0, 100.0, -5000.0)
    assert found.thrust == pytest.approx(-5000.0 / (math.pi * 4e-4))
    assert found.von_mises == pytest.approx(found.bending - found.thrust)


def test_notch_factors():
    plain, keyed = shaft_stress(0.04, 200.0), shaft_stress(0.04, 200.0, torsion_factor=2.0)
    assert keyed.torsion == pytest.approx(2.0 * plain.torsion)
    assert any("keyway" in remark.text for remark in plain.remarks)
    assert not any("keyway" in remark.text for remark in keyed.remarks)
    bent = shaft_stress(0.04, 200.0, 100.0, 1000.0, bending_factor=1.5, thrust_factor=1.5)
    assert bent.bending == pytest.approx(1.5 * shaft_stress(0.04, 0.0, 100.0).bending)
    assert any("at every turn" in remark.text for remark in bent.remarks)


def test_a_bore_takes_little():
    """Bore of half the diameter: 1/(1 - 1/16)."""
    assert shaft_stress(0.04, 200.0, bore=0.02).torsion == pytest.approx(
        shaft_stress(0.04, 200.0).torsion * 16.0 / 15.0
    )


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_bad_shafts(bad):
    with pytest.raises(InputError, match="diameter"):
        shaft_stress(bad, 1.0)
    with pytest.raises(InputError, match="bore"):
        shaft_stress(0.04, 1.0, bore=bad)
    with pytest.raises(InputError, match="notch factor of torsion"):
        shaft_stress(0.04, 1.0, torsion_factor=bad)
    with pytest.raises(InputError, match="power"):
        shaft_torque(bad, 10.0)
    with pytest.raises(InputError, match="rotor speed"):
        shaft_torque(10.0, bad)


@pytest.mark.parametrize("place", range(3))
def test_nan_loads_on_a_shaft(place):
    loads = [1.0, 1.0, 1.0]
    loads[place] = math.nan
    with pytest.raises(InputError, match="the shaft's"):
        shaft_stress(0.04, *loads)


@given(st.integers(3, 30), MOMENT, MOMENT, st.floats(-1e5, 1e5), MOMENT, MOMENT, st.floats(-1e4, 1e4))
def test_bolts_balance_what_is_given(count, mx, my, pull, sx, sy, torque):
    places = bolt_circle(count, 0.2, 0.3)
    found = bolt_loads(places, 1e-4, pull=pull, bending_x=mx, bending_y=my, shear_x=sx, shear_y=sy, torque=torque)
    assert found.tension.sum() == pytest.approx(pull, abs=1e-4)
    assert -(found.tension @ places[:, 0]) == pytest.approx(mx, abs=1e-4)
    assert -(found.tension @ places[:, 1]) == pytest.approx(my, abs=1e-4)
    assert found.largest_tension == found.tension.max()


def test_torque_is_shared_evenly_on_a_circle():
    found = bolt_loads(bolt_circle(8, 0.2), 1e-4, torque=1600.0)
    assert found.shear == pytest.approx(np.full(8, 1000.0))
    assert found.largest_stress == pytest.approx(math.sqrt(3.0) * 1000.0 / 1e-4)


def test_shear_and_torque_meet_at_one_bolt():
    """Four bolts on the axes: shear 250 each along y; torque 250 each; the bolt on +x has both."""
    found = bolt_loads(bolt_circle(4, 0.1), 1e-4, shear_y=1000.0, torque=100.0)
    assert found.largest_shear == pytest.approx(500.0)
    assert int(np.argmax(found.shear)) == 0


def test_compression_makes_no_bolt_stress():
    assert bolt_loads(bolt_circle(4, 0.1), 1e-4, pull=-1e4).largest_stress == 0.0


def test_opening():
    places = bolt_circle(4, 0.1)
    assert bolt_loads(places, 1e-4, pull=4000.0).opens is None
    assert bolt_loads(places, 1e-4, pull=4000.0, preload=900.0).opens is True
    assert bolt_loads(places, 1e-4, pull=4000.0, preload=1100.0).opens is False
    assert any("Prying" in remark.text for remark in bolt_loads(places, 1e-4).remarks)


def test_bad_bolts():
    with pytest.raises(InputError, match="on one line"):
        bolt_loads([[0.0, 0.0], [1.0, 0.0], [2.0, 0.0]], 1e-4, bending_y=1.0)
    with pytest.raises(InputError, match="at one place"):
        bolt_loads([[1.0, 1.0], [1.0, 1.0]], 1e-4)
    with pytest.raises(InputError, match="two or more finite places"):
        bolt_loads([[math.nan, 0.0], [1.0, 0.0]], 1e-4)
    with pytest.raises(InputError, match="flange's torque"):
        bolt_loads(bolt_circle(4, 0.1), 1e-4, torque=math.nan)
    with pytest.raises(InputError, match="stress area"):
        bolt_loads(bolt_circle(4, 0.1), -1e-4)
    with pytest.raises(InputError, match="preload"):
        bolt_loads(bolt_circle(4, 0.1), 1e-4, preload=-1.0)
    with pytest.raises(InputError, match="number of bolts"):
        bolt_circle(2, 0.1)
