"""Many points at once: the map, its bytes, its smoothness, its cost."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import fields

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.stage.curves import speed_ratio_curve
from racewright.stage.design import design_rows
from racewright.stage.operating_point import operating_point
from racewright.stage.performance_map import PerformanceMap, performance_map
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import ready_stage
from tests.external.record import Record
from tests.stage.machines import FRESH
from tests.stage.solved import FLOW, UNIT, solve

Floats = NDArray[np.float64]
VANES, BLADES = design_rows(UNIT, FLOW, FRESH)
SPEEDS, RATIOS = np.linspace(0.6, 3.5, 20), np.linspace(0.0, 5.5, 20)


def _map(speeds: Floats, ratios: Floats) -> PerformanceMap:
    return performance_map(UNIT, VANES, BLADES, FLOW, FRESH, speeds, ratios)


MAP = _map(SPEEDS, RATIOS)
GRIDS = tuple(f.name for f in fields(PerformanceMap))[2:]


def test_every_point_is_the_operating_point() -> None:
    for i, j in ((3, 4), (11, 8), (19, 13)):
        rotor = RATIOS[j] * SPEEDS[i] / float(BLADES.radius[-1])
        point = operating_point(UNIT, VANES, BLADES, FLOW, FRESH, float(SPEEDS[i]), float(rotor))
        for name in ("torque", "shaft_power", "thrust", "roll_moment", "swirl_exit", "lowest_pressure", "flow_rate"):
            assert getattr(MAP, name)[i, j] == getattr(point, name), name
        assert MAP.speed_ratio[i, j] == point.speed_ratio
        assert MAP.hydraulic_efficiency[i, j] == pytest.approx(point.hydraulic_efficiency, rel=1e-12)


def test_points_do_not_depend_on_their_company() -> None:
    """Alone, in a row, in a column, in another order: the same bytes."""
    rng = np.random.default_rng(7)
    for _ in range(6):
        rows = rng.choice(20, int(rng.integers(1, 5)), replace=False)
        columns = rng.choice(20, int(rng.integers(1, 8)), replace=False)
        part = _map(SPEEDS[rows], RATIOS[columns])
        for name in GRIDS:
            assert getattr(part, name).tobytes() == getattr(MAP, name)[np.ix_(rows, columns)].tobytes(), name


def test_points_without_answer_are_nought_and_said() -> None:
    assert not MAP.answered.all()
    assert MAP.answered[:, :8].all()
    for name in GRIDS:
        values = getattr(MAP, name)
        assert np.all(np.isfinite(values)), name
        assert np.all(values[~MAP.answered] == 0), name
    assert np.all(MAP.flow_rate[MAP.answered] > 0.0)


def test_books_close_all_over_the_map() -> None:
    """Inside: shaft + row losses = rho dh Q. Angular momentum: rotor + vanes + what leaves = 0. Flow at both rows."""
    stage = ready_stage(UNIT, VANES, BLADES, FLOW, FRESH)
    speed, ratio = np.repeat(SPEEDS[::4], 10), np.tile(RATIOS[::2], 5)
    debris = np.where(np.arange(speed.size) % 3 == 0, 0.8, 0.0)
    solved = solve_many(stage, speed, ratio * speed / stage.tip_radius, resistance=debris)
    rows = solved.trial.rows
    lost = rows.vane_loss + rows.blade_loss + rows.clearance_loss + rows.end_wall_loss
    taken = rows.torque * solved.rotor_speed / rows.flow_rate
    assert taken + lost == pytest.approx(rows.head_drop, rel=1e-8, abs=1e-8)
    leaving = rows.flow_rate * rows.swirl_exit
    assert np.max(np.abs(rows.torque + rows.vane_torque + leaving) / np.abs(rows.vane_torque)) < 1e-8
    at_vanes = np.sum(rows.vane_speed * stage.annulus.area, axis=1)
    assert at_vanes == pytest.approx(rows.flow_rate, rel=1e-12)
    assert np.max(np.abs(solved.residual)) < 1e-10


def test_smooth_over_the_speed_ratio(record_property: Record) -> None:
    """200 points from held to runaway: second differences of CP below 0.3 % of its maximum."""
    curve = speed_ratio_curve(UNIT, VANES, BLADES, FLOW, FRESH, 2.4, np.linspace(0.0, 4.4, 200))
    assert curve.tip_speed_ratio.size == 200
    bend = np.max(np.abs(np.diff(curve.power_coefficient, 2))) / np.max(curve.power_coefficient)
    record_property("measured", f"{100 * bend:.2f} %")
    assert bend < 0.003


def test_four_hundred_points_cost_no_more_than_twice_the_flow(record_property: Record) -> None:
    """Both timed in this run; the flow at 60 panels a side and its 14 loads."""
    flow_time, map_time = _seconds(lambda: solve(60)), _seconds(lambda: _map(SPEEDS, RATIOS))
    record_property("measured", f"{map_time / flow_time:.2f} of the flow's time")
    assert map_time < 2.0 * flow_time


def _seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def test_refusals() -> None:
    for speeds, ratios in (([0.0], [1.0]), ([1.0], [-1.0]), ([], [1.0]), ([float("nan")], [1.0])):
        with pytest.raises(InputError):
            _map(np.array(speeds), np.array(ratios))
