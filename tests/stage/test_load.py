"""What the flow sees: friction, swirl, debris, and the closure above the solved loads."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.flow.response import FlowTable
from racewright.stage.clogging import debris_resistance
from racewright.stage.design import design_rows
from racewright.stage.friction import plate_friction, transition_reynolds
from racewright.stage.operating_point import operating_point, solve_stage
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import ready_stage
from racewright.stage.wall_friction import WallFriction
from tests.stage.machines import FRESH
from tests.stage.solved import FLOW, UNIT

VANES, BLADES = design_rows(UNIT, FLOW, FRESH)
STAGE = ready_stage(UNIT, VANES, BLADES, FLOW, FRESH)
DESIGN_TURN = 2.2 * 2.4 / STAGE.tip_radius


def test_design_point_returns_the_intent_with_walls() -> None:
    point = solve_stage(STAGE, 2.4, DESIGN_TURN)
    assert point.head_coefficient == pytest.approx(0.6, abs=1e-10)
    assert point.load == pytest.approx(point.head_coefficient + point.friction_load + point.swirl_load, abs=1e-10)
    assert 0.01 < point.friction_load < 0.03
    assert point.swirl_load < 1e-4
    assert point.flow_state == "solved"


def test_friction_is_that_of_a_plate_at_the_wall_speed() -> None:
    """Even water along a wall L long and S large: cf(Re) v^3 S over the flow through the annulus."""
    even = replace(
        FLOW,
        duct_speed=np.ones_like(FLOW.duct_speed),
        hub_speed=np.zeros_like(FLOW.hub_speed),
    )
    table = FlowTable(even)
    load = np.array([0.4])
    found = WallFriction(table, 0.0).at(table.at(load), np.array([2.0]), 1e-6)
    inner = slice(0, int(np.argmin(FLOW.duct_x)) + 1)
    x, r = FLOW.duct_x[inner], FLOW.duct_r[inner]
    step = np.hypot(np.diff(x), np.diff(r))
    area = np.sum(np.pi * (r[1:] + r[:-1]) * step)
    reynolds = np.array([2.0 * np.sum(step) / 1e-6])
    line = plate_friction(reynolds, transition_reynolds(0.10), np.zeros(1))[0]
    u = float(table.at(load).speed_ratio[0])
    assert found.duct_load[0] == pytest.approx(line * area / (FLOW.annulus_area * u), rel=1e-3)
    assert found.hub_load[0] == 0.0
    assert found.outer_drag[0] > 0.0


def test_friction_takes_power_and_falls_with_reynolds_number() -> None:
    rough = operating_point(replace(UNIT, roughness=1e-3), VANES, BLADES, FLOW, FRESH, 2.4, DESIGN_TURN)
    smooth, slow = solve_stage(STAGE, 2.4, DESIGN_TURN), solve_stage(STAGE, 0.6, DESIGN_TURN / 4.0)
    assert rough.friction_load > 1.3 * smooth.friction_load
    assert slow.friction_load > 1.1 * smooth.friction_load
    assert rough.speed_ratio < smooth.speed_ratio


def test_debris_leads_through_the_closure_without_a_step() -> None:
    """From no resistance to one that all but stops the flow: it falls evenly, past the last solved load."""
    resistance = np.concatenate([[0.0], np.geomspace(0.05, 300.0, 160)])
    speed = np.full(resistance.size, 2.4)
    solved = solve_many(STAGE, speed, np.full(resistance.size, 3.0), resistance=resistance)
    assert solved.answered.all()
    closed = solved.trial.flow.closed
    assert closed.any()
    assert not closed.all()
    assert np.all(np.diff(solved.load) > 0.0)
    assert np.all(np.diff(solved.trial.rows.flow_rate) < 0.0)
    step = np.abs(np.diff(solved.load))
    assert np.max(step) < 0.06
    assert np.max(np.abs(solved.residual)) < 1e-10
    point = solve_stage(STAGE, 2.4, 3.0, resistance=30.0)
    assert point.flow_state == "closure"
    assert any(r.about == "closure" and r.severity == "warning" for r in point.remarks)
    assert point.forces.debris > 0.5 * point.thrust


def test_no_debris_no_loss() -> None:
    assert debris_resistance(np.array([0.0]))[0] == pytest.approx(0.0, abs=1e-30)
    assert debris_resistance(np.array([0.5]))[0] == pytest.approx((1.0 / (0.5 * 0.67625) - 1.0) ** 2)
