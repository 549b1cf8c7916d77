"""Interpolation between loads."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.flow.response import reach, response_at
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


def test_beyond_the_highest_converged_load_there_is_no_answer(flow: Axisymmetric) -> None:
    with pytest.raises(NoAnswerError, match=r"0\.95"):
        response_at(flow, 0.951)
    shorter = dataclasses.replace(flow, converged=flow.head_coefficient < 0.82)
    assert reach(shorter) == pytest.approx(0.8)
    with pytest.raises(NoAnswerError, match=r"0\.8\b"):
        response_at(shorter, 0.83)


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
