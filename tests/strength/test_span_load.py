"""Loads over the span and at the root: balance, scaling, the stage's own torque."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from racewright.errors import InputError
from racewright.stage.design import design_rows
from racewright.stage.free_vortex import free_vortex
from racewright.stage.operating_point import operating_point
from racewright.strength.span_load import SpanLoad, centrifugal_pull, root_loads, row_span_load
from tests.stage.machines import FRESH, flow, unit

RADIUS = np.array([0.15, 0.22, 0.30, 0.41, 0.50])
FORCE = arrays(np.float64, 5, elements=st.floats(-1e4, 1e4))


@given(FORCE, FORCE, st.floats(0.0, 0.15), st.floats(0.5, 0.6))
def test_both_ends_balance_the_load(axial, tangential, root, outer):
    """Forces add up to the load's; moments about the inner end too."""
    load = SpanLoad(RADIUS, axial, tangential)
    one = root_loads(load, root)
    both = root_loads(load, root, support="both ends", outer_radius=outer)
    size = 1.0 + float(np.abs(axial).max())
    assert both.axial_force + both.outer_axial_force == pytest.approx(one.axial_force, abs=1e-9 * size)
    lever = both.outer_axial_force * (outer - root) + both.axial_bending - both.outer_axial_bending
    assert lever == pytest.approx(one.axial_bending, abs=1e-9 * size)


@given(FORCE, FORCE)
def test_axial_and_tangential_are_alike(axial, tangential):
    one, other = (
        root_loads(SpanLoad(RADIUS, axial, tangential), 0.1),
        root_loads(SpanLoad(RADIUS, tangential, axial), 0.1),
    )
    assert one.axial_bending == pytest.approx(other.tangential_bending)
    assert one.tangential_force == pytest.approx(other.axial_force)


@given(FORCE, st.floats(0.1, 10.0))
def test_scaling(axial, scale):
    """Twice the force per span: twice all; twice the size at the same force per span: moments fourfold."""
    zero = np.zeros(5)
    one = root_loads(SpanLoad(RADIUS, axial, zero), 0.15)
    more = root_loads(SpanLoad(RADIUS, scale * axial, zero), 0.15)
    large = root_loads(SpanLoad(scale * RADIUS, axial, zero), scale * 0.15)
    assert more.axial_bending == pytest.approx(scale * one.axial_bending, abs=1e-9)
    assert large.axial_bending == pytest.approx(scale**2 * one.axial_bending, abs=1e-9)
    assert large.axial_force == pytest.approx(scale * one.axial_force, abs=1e-9)


def test_a_neck_without_load_lengthens_the_lever():
    load = SpanLoad(RADIUS, np.full(5, 100.0), np.zeros(5))
    near, far = root_loads(load, 0.15), root_loads(load, 0.05)
    assert far.axial_bending == pytest.approx(near.axial_bending + 0.1 * near.axial_force)


def test_clamped_at_both_ends_is_gentler():
    """Even load F: F b/12 at each end beside F b/2."""
    load = SpanLoad(RADIUS, np.full(5, 100.0), np.zeros(5))
    both, one = root_loads(load, 0.15, support="both ends"), root_loads(load, 0.15)
    assert both.axial_bending == pytest.approx(one.axial_bending / 6.0)
    assert both.outer_axial_bending == pytest.approx(both.axial_bending)


@pytest.fixture(scope="module")
def machine():
    built, water = unit(), flow(sheared=True)
    vanes, blades = design_rows(built, water, FRESH)

    def at(tip_speed_ratio):
        turning = tip_speed_ratio * 2.5 / float(blades.radius[-1])
        return operating_point(built, vanes, blades, water, FRESH, 2.5, turning), vanes, blades

    return at


@pytest.mark.parametrize("tip_speed_ratio", [0.0, 1.2, 2.0, 2.6])
def test_blades_bear_the_stage_s_torque_and_force(machine, tip_speed_ratio):
    """Five stations, straight between: torque within 0.5 % of the stage's; the lift alone leaves 6 to 12 % of the
    axial force out, and all of it when the rotor is held.
    """
    found, _vanes, blades = machine(tip_speed_ratio)
    lift = row_span_load(found.triangles, FRESH.density, blades.count, "blades")
    whole = row_span_load(found.triangles, FRESH.density, blades.count, "blades", row_force=found.forces.rotor)
    loads = root_loads(whole, 0.0)
    assert blades.count * loads.tangential_bending == pytest.approx(found.torque, rel=0.005)
    assert blades.count * loads.axial_force == pytest.approx(found.forces.rotor, rel=1e-9)
    part = blades.count * root_loads(lift, 0.0).axial_force / found.forces.rotor
    assert (-0.05 < part < 0.05) if tip_speed_ratio == 0.0 else (0.85 < part < 0.97)
    assert np.all(whole.axial > lift.axial)
    assert np.array_equal(whole.tangential, lift.tangential)


def test_vanes_are_pushed_downstream_and_against_the_swirl(machine):
    found, vanes, blades = machine(2.0)
    load = row_span_load(found.triangles, FRESH.density, vanes.count, "vanes")
    assert np.all(load.axial > 0.0)
    assert np.all(load.tangential < 0.0)
    reaction = vanes.count * root_loads(load, 0.0).tangential_bending
    torque = (
        blades.count
        * root_loads(row_span_load(found.triangles, FRESH.density, blades.count, "blades"), 0.0).tangential_bending
    )
    assert reaction == pytest.approx(-torque, rel=0.01), "at the design point nothing swirls behind the rotor"


def test_centrifugal_pull():
    """A rod of 2 kg/m from 0 to 0.5 m at 10 rad/s: m w^2 R^2/2."""
    assert centrifugal_pull([0.0, 0.5], [2.0, 2.0], 10.0) == pytest.approx(25.0)
    assert centrifugal_pull([0.0, 0.5], [2.0, 2.0], -20.0) == pytest.approx(100.0)


@pytest.mark.parametrize("bad", [math.nan, math.inf])
def test_bad_numbers(bad):
    with pytest.raises(InputError, match="axial force"):
        SpanLoad(RADIUS, np.array([bad, 0, 0, 0, 0]), np.zeros(5))
    with pytest.raises(InputError, match="radius"):
        SpanLoad(np.array([0.1, bad, 0.3, 0.4, 0.5]), np.zeros(5), np.zeros(5))
    with pytest.raises(InputError, match="rotor speed"):
        centrifugal_pull([0.0, 0.5], [2.0, 2.0], bad)
    with pytest.raises(InputError, match="row's force"):
        row_span_load(free_vortex(RADIUS, 10.0, 3.0, 0.3), 1000.0, 5, "blades", row_force=bad)
    with pytest.raises(InputError, match="root's radius"):
        root_loads(SpanLoad(RADIUS, np.zeros(5), np.zeros(5)), bad)


def test_bad_places():
    load = SpanLoad(RADIUS, np.zeros(5), np.zeros(5))
    with pytest.raises(InputError, match="above the first radius"):
        root_loads(load, 0.2)
    with pytest.raises(InputError, match="below the last radius"):
        root_loads(load, 0.1, support="both ends", outer_radius=0.4)
    with pytest.raises(InputError, match="support"):
        root_loads(load, 0.1, support="glued")  # type: ignore[arg-type]
    with pytest.raises(InputError, match="give one each"):
        SpanLoad(RADIUS, np.zeros(4), np.zeros(5))
    with pytest.raises(InputError, match="must grow"):
        SpanLoad(RADIUS[::-1], np.zeros(5), np.zeros(5))
    with pytest.raises(InputError, match="mass per length holds a number below"):
        centrifugal_pull([0.0, 0.5], [2.0, -2.0], 1.0)
