"""Interpolation between loads."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.flow.closure import HELD, JOIN, open_slope, open_speed
from racewright.flow.response import limit, reach, response_at
from racewright.flow.result import Axisymmetric
from tests.flow.conftest import DUCT, HUB, solve


def test_solved_loads_come_back(flow: Axisymmetric) -> None:
    for i, load in enumerate(flow.head_coefficient):
        at = response_at(flow, float(load))
        assert at.speed_ratio == pytest.approx(flow.speed_ratio[i], rel=1e-12)
        assert at.exit_speed_ratio == pytest.approx(flow.exit_speed_ratio[i], rel=1e-12)
        assert at.profile == pytest.approx(flow.profile[i], rel=1e-12)
        assert at.far_wake_speed == pytest.approx(flow.far_wake_speed[i])


def test_between_loads_it_is_what_the_solver_gives(flow: Axisymmetric) -> None:
    loads = (0.0, 0.15, 0.45, 0.65, 0.825, 0.935)
    exact = solve(DUCT, HUB, 40, loads)
    for i, load in enumerate(loads):
        at = response_at(flow, load)
        assert at.speed_ratio == pytest.approx(exact.speed_ratio[i], rel=5e-5)
        assert at.profile == pytest.approx(exact.profile[i], rel=2e-3)


def test_power_over_load_is_smooth_and_speed_falls_throughout(flow: Axisymmetric) -> None:
    """Second differences of CP = CH u keep their sign and change by little from one to the next."""
    loads = np.linspace(0.0, reach(flow), 401)
    speed = np.array([response_at(flow, float(ch)).speed_ratio for ch in loads])
    assert np.all(np.diff(speed) < 0.0)
    bend = np.diff(loads * speed, 2)
    assert np.all(bend < 0.0)
    assert np.max(np.abs(np.diff(bend))) < 0.08 * np.max(np.abs(bend))


def _cut(flow: Axisymmetric, load: float) -> Axisymmetric:
    return dataclasses.replace(flow, converged=flow.head_coefficient < load)


@pytest.mark.parametrize("load", [0.96, 0.82, 0.55])
def test_closure_goes_on_in_value_and_slope(flow: Axisymmetric, load: float) -> None:
    """Speed, exit speed, power CH u and thrust: no jump, and the slope of the solved side, to 0.5 %."""
    one = _cut(flow, load)
    start, step = reach(one), 1e-4
    below, at, above = (response_at(one, ch) for ch in (start - step, start, start + step))
    assert (at.state, above.state) == ("solved", "closure")
    beyond = response_at(one, start * (1.0 + 1e-12))
    assert beyond.state == "closure"
    assert beyond.profile == pytest.approx(at.profile)
    for name in ("speed_ratio", "exit_speed_ratio", "total_thrust"):
        old, mid, new = (float(getattr(state, name)) for state in (below, at, above))
        assert getattr(beyond, name) == pytest.approx(mid, rel=1e-9)
        if name != "exit_speed_ratio":
            assert new - mid == pytest.approx(mid - old, rel=5e-3, abs=2e-6), name


def test_closure_slows_the_flow_to_nothing_and_the_thrust_to_that_of_a_bluff_body(flow: Axisymmetric) -> None:
    top = limit(flow)
    assert 1.0 < top < 2.0
    loads = np.linspace(reach(flow), top, 60)
    states = [response_at(flow, float(ch)) for ch in loads]
    speed = np.array([state.speed_ratio for state in states])
    assert np.all(np.diff(speed) < 0.0)
    assert speed[-1] == pytest.approx(0.0, abs=1e-9)
    frontal = math.pi * float(flow.duct_r.max()) ** 2 / flow.annulus_area
    assert states[-1].total_thrust == pytest.approx(1.17 * frontal)
    assert all(math.isfinite(state.total_thrust) and state.total_thrust > 0.0 for state in states)
    assert states[-1].far_wake_speed == 0.0
    with pytest.raises(NoAnswerError, match=r"0\.95 and closed to"):
        response_at(flow, top + 1e-6)


def test_open_disc_curve_is_smooth_where_its_parts_meet() -> None:
    assert open_speed(JOIN) == pytest.approx(0.6)
    assert open_speed(JOIN + 1e-9) == pytest.approx(0.6, abs=1e-8)
    assert open_slope(JOIN) == pytest.approx(open_slope(JOIN + 1e-9), rel=1e-6)
    assert open_speed(HELD) == pytest.approx(0.0, abs=1e-12)
    for load in (0.3, 0.9, 1.0, 1.5):
        slope = (open_speed(load + 1e-6) - open_speed(load - 1e-6)) / 2e-6
        assert open_slope(load) == pytest.approx(slope, rel=1e-6)


def test_a_ladder_cut_short_is_not_closed(flow: Axisymmetric) -> None:
    """Loads that were never asked for, and a last load below 0.5, are no ground to go on from."""
    short = solve(DUCT, None, 20, (0.0, 0.4, 0.8))
    assert limit(short) == reach(short) == pytest.approx(0.8)
    with pytest.raises(NoAnswerError, match=r"0\.8\b"):
        response_at(short, 0.83)
    assert limit(_cut(flow, 0.45)) == pytest.approx(0.4)


def test_total_thrust_of_the_solved_loads_is_that_of_momentum(flow: Axisymmetric) -> None:
    """CT = 2 u (1 - w), here from surface pressures."""
    for load in (0.2, 0.65, 0.9):
        at = response_at(flow, load)
        assert at.total_thrust == pytest.approx(2.0 * at.speed_ratio * (1.0 - at.far_wake_speed), abs=0.004)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), -0.1])
def test_wrong_loads_are_refused(flow: Axisymmetric, value: float) -> None:
    with pytest.raises(InputError, match="head_coefficient"):
        response_at(flow, value)


def test_few_loads_are_joined_without_overshoot() -> None:
    two = solve(DUCT, None, 20, (0.0, 0.4))
    middle = response_at(two, 0.2).speed_ratio
    assert two.speed_ratio[1] < middle < two.speed_ratio[0]
    one = solve(DUCT, None, 20, (0.0,))
    assert response_at(one, 0.0).speed_ratio == one.speed_ratio[0]
