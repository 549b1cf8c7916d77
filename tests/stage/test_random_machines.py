"""Random valid machines from standstill to runaway: the books close, every figure is a number, nothing jumps."""

from __future__ import annotations

import dataclasses
from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray

from tests.external.record import Record
from tests.frame.common import count
from tests.stage.random_machines import (
    Drawn,
    angular_mismatch,
    drawn,
    fastest,
    inside_mismatch,
    not_numbers,
    sweep,
)

Floats = NDArray[np.float64]
SEEDS = range(count(3, 12))


@cache
def made(seed: int) -> Drawn:
    return drawn(seed, 20, 30)


@pytest.fixture(params=SEEDS)
def machine(request: pytest.FixtureRequest) -> Drawn:
    return made(request.param)


@pytest.mark.parametrize("stream_speed", [0.7, 3.0])
def test_books_close_and_every_figure_is_a_number(
    machine: Drawn, stream_speed: float, record_property: Record
) -> None:
    """Standstill, loads between, the design's ratio and runaway."""
    top = fastest(machine, stream_speed)
    ratios = np.sort(np.append(np.linspace(0.0, top, 7), machine.stage.unit.design.tip_speed_ratio))
    found = sweep(machine, stream_speed, ratios)
    assert not found.unanswered
    assert found.points[0].rotor_speed == 0.0
    for point in found.points:
        assert point.converged
        assert not_numbers(point) == []
        assert abs(inside_mismatch(machine, point)) < 1e-8
        assert abs(angular_mismatch(machine, point)) < 1e-8
    record_property("measured", f"{len(machine.refused)} draws refused before this machine")


FIGURES = ("power_coefficient", "thrust_coefficient", "roll_moment", "head_coefficient", "speed_ratio")


def test_nothing_jumps_between_standstill_and_runaway(machine: Drawn) -> None:
    """A step that stands out from its neighbours is asked again in quarters: these share it, a jump would stay."""
    found = sweep(machine, 2.0, np.linspace(0.0, fastest(machine, 2.0), 25))
    assert not found.unanswered
    for name in FIGURES:
        for i in alone(np.array([getattr(point, name) for point in found.points])):
            inner = sweep(machine, 2.0, np.linspace(found.ratio[i], found.ratio[i + 1], 5))
            steps = np.abs(np.diff([getattr(point, name) for point in inner.points]))
            assert steps.size == 4, name
            assert steps.max() < 0.6 * steps.sum(), f"{name} between {inner.ratio[0]:.3f} and {inner.ratio[-1]:.3f}"


def alone(values: Floats) -> list[int]:
    """Steps over 1 % of the range and over 1.5 times both neighbours."""
    step = np.abs(np.diff(values))
    beside = np.maximum(np.append(step[1:], 0.0), np.insert(step[:-1], 0, 0.0))
    return np.flatnonzero((step > 1.5 * beside) & (step > 0.01 * np.ptp(values))).tolist()


def test_a_jump_stands_alone() -> None:
    """The check itself sees a jump of one ordinary step in a smooth curve, and none without it."""
    smooth = np.sin(np.linspace(0.0, 2.0, 25))
    assert alone(smooth) == []
    assert alone(smooth + 0.08 * (np.arange(25) > 12)) == [12]


def test_runaway_is_where_the_torque_ends(machine: Drawn) -> None:
    at_end, held = sweep(machine, 2.0, np.array([fastest(machine, 2.0), 0.0])).points
    assert abs(at_end.torque) < 1e-5 * held.torque
    assert abs(at_end.power_coefficient) < 1e-5


def test_every_refused_draw_says_why() -> None:
    assert all(len(reason) > 10 for seed in SEEDS for reason in made(seed).refused)


def test_numbers_are_looked_for_at_any_depth() -> None:
    """The check itself fails when it should."""
    one = sweep(made(0), 2.0, np.array([1.0])).points[0]
    assert not_numbers(one) == []
    spoiled = dataclasses.replace(one, losses=dataclasses.replace(one.losses, tip_clearance=float("nan")))
    assert not_numbers(spoiled) == ["point.losses.tip_clearance"]
