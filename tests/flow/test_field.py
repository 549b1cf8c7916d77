"""Velocity and stream function around a load."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.flow.axisymmetric import axisymmetric
from racewright.flow.field import pressure, stream_function, velocity
from racewright.flow.result import Axisymmetric
from racewright.flow.surfaces import area_true
from racewright.machine.duct_contour import duct_contour
from tests.flow.conftest import DUCT

LOAD = 9


def test_velocity_is_the_slope_of_the_stream_function(flow: Axisymmetric) -> None:
    x = np.array([-0.4, 0.1, 0.3, 0.9, 0.3, 1.5])
    r = np.array([0.3, 0.3, 0.4, 0.4, 0.9, 0.2])
    d = 1e-5
    axial, radial = velocity(flow, LOAD, x, r)
    by_r = stream_function(flow, LOAD, x, r + d) - stream_function(flow, LOAD, x, r - d)
    by_x = stream_function(flow, LOAD, x + d, r) - stream_function(flow, LOAD, x - d, r)
    assert axial == pytest.approx(by_r / (2 * d * r), rel=1e-6)
    assert radial == pytest.approx(-by_x / (2 * d * r), rel=1e-4, abs=1e-6)


def test_stream_function_is_constant_on_walls_and_sheet(flow: Axisymmetric) -> None:
    edge = flow.speed_ratio[LOAD] * flow.annulus_area / (2.0 * math.pi)
    x, r = area_true(flow.duct_x, flow.duct_r)
    x, r = 0.5 * (x[1:] + x[:-1]), 0.5 * (r[1:] + r[:-1])
    assert stream_function(flow, LOAD, x, r) == pytest.approx(np.full(x.size, edge), rel=1e-7)
    sheet = stream_function(flow, LOAD, flow.wake_x[LOAD, 1:], flow.wake_r[LOAD, 1:])
    assert sheet == pytest.approx(np.full(sheet.size, edge), rel=1e-7)
    assert stream_function(flow, LOAD, flow.hub_x, flow.hub_r) == pytest.approx(np.zeros(flow.hub_x.size), abs=1e-9)


def test_far_away_is_the_stream_and_far_down_the_wake_is_w(flow: Axisymmetric) -> None:
    axial, radial = velocity(flow, LOAD, np.array([-60.0, 40.0, 9.0]), np.array([0.2, 8.0, 0.2]))
    assert axial == pytest.approx([1.0, 1.0, flow.far_wake_speed[LOAD]], abs=3e-3)
    assert radial == pytest.approx([0.0, 0.0, 0.0], abs=1e-3)


def test_axis_and_inside_of_walls(flow: Axisymmetric) -> None:
    axial, radial = velocity(flow, LOAD, np.array([-1.0, 0.3]), np.array([0.0, 0.04]))
    assert radial[0] == 0.0
    assert 0.0 < axial[0] < 1.0
    assert axial[1] == pytest.approx(0.0, abs=0.01)


def test_total_head_drops_by_the_head_coefficient_across_the_sheet(flow: Axisymmetric) -> None:
    """V_out^2 - V_in^2 = CH either side of a wake panel, a few panels off."""
    j = 60
    x, r = flow.wake_x[LOAD, j], flow.wake_r[LOAD, j]
    gap = 0.02
    squares = [sum(v**2 for v in velocity(flow, LOAD, np.array(x), np.array(r + s))) for s in (gap, -gap)]
    assert squares[0] - squares[1] == pytest.approx(flow.head_coefficient[LOAD], rel=0.03)


def test_wrong_points_and_loads_are_refused(flow: Axisymmetric) -> None:
    with pytest.raises(InputError, match="finite"):
        velocity(flow, 0, np.array([float("nan")]), np.array([0.1]))
    with pytest.raises(InputError, match="finite"):
        stream_function(flow, 0, np.array([0.0]), np.array([-0.1]))
    with pytest.raises(InputError, match="one shape"):
        velocity(flow, 0, np.zeros(2), np.zeros(3))
    with pytest.raises(InputError, match="load_index"):
        velocity(flow, 99, np.zeros(1), np.ones(1))


def test_pressure_falls_by_the_head_across_the_disc_and_is_even_across_the_sheet(flow: Axisymmetric) -> None:
    place, load = flow.rotor_x, flow.head_coefficient[LOAD]
    ahead, behind = pressure(flow, LOAD, np.array([place - 1e-7, place + 1e-7]), np.array([0.3, 0.3]))
    assert ahead - behind == pytest.approx(load, abs=1e-5)
    x, r = flow.wake_x[LOAD, 60], flow.wake_r[LOAD, 60]
    inner, outer = pressure(flow, LOAD, np.array([x, x]), np.array([r - 0.02, r + 0.02]))
    assert inner == pytest.approx(outer, abs=0.02)
    far = pressure(flow, LOAD, np.array([-60.0, 5.0, 15.0]), np.array([0.2, 5.0, 0.2]))
    assert far == pytest.approx([0.0, 0.0, 0.0], abs=6e-3)


def test_pressure_needs_the_place_of_the_disc(flow: Axisymmetric) -> None:
    with pytest.raises(InputError, match="rotor_x"):
        pressure(dataclasses.replace(flow, rotor_x=math.nan), LOAD, np.zeros(1), np.zeros(1))


def test_channel_wall_is_a_stream_surface() -> None:
    x, r = duct_contour(DUCT, 30)
    one = axisymmetric(x, r, rotor_x=0.15, head_coefficients=(0.0, 0.4), channel_radius=1.5)
    wall = np.linspace(-3.0, 12.0, 60)
    assert stream_function(one, 1, wall, np.full(60, 1.5)) == pytest.approx(np.full(60, 0.5 * 1.5**2), rel=2e-3)
    axial, _ = velocity(one, 1, np.array([18.0, 18.0]), np.array([1.2, 0.1]))
    assert axial == pytest.approx([one.bypass_speed[1], one.far_wake_speed[1]], abs=3e-3)
    outside, _ = velocity(one, 1, np.array([2.0]), np.array([2.5]))
    assert outside == pytest.approx([1.0], abs=3e-3)
