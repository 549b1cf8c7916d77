"""On load, runaway and held; the stream speed where rated power begins."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.machine.drive import Drive
from racewright.stage.design import design_rows
from racewright.stage.operating_point import operating_point, ready_stage
from racewright.stage.states import machine_states, rated_speed
from tests.stage.machines import DRIVE, FRESH, flow, unit

UNIT, FLOW = unit(), flow()
VANES, BLADES = design_rows(UNIT, FLOW, FRESH)
STATES = machine_states(UNIT, VANES, BLADES, FLOW, FRESH, np.array([2.5, 1.25]))


def test_states_come_by_speed_and_name() -> None:
    assert [(s.stream_speed, s.name) for s in STATES[:3]] == [(2.5, "on load"), (2.5, "runaway"), (2.5, "held")]
    assert len(STATES) == 6


def test_runaway_has_no_torque_turns_faster_and_leaves_the_swirl_of_the_vanes() -> None:
    """The vanes' swirl is not taken out, so the roll moment is of the order of the torque on load and more."""
    on_load, runaway, held = STATES[:3]
    assert abs(runaway.torque) < 1e-6 * on_load.torque
    assert 1.3 * on_load.rotor_speed < runaway.rotor_speed < 4.0 * on_load.rotor_speed
    assert runaway.roll_moment > on_load.torque
    assert held.rotor_speed == 0.0
    assert held.shaft_power == 0.0
    assert abs(on_load.roll_moment) < 0.05 * on_load.torque


def test_runaway_speed_is_nearly_proportional_to_the_stream() -> None:
    """Only the Reynolds number differs."""
    assert STATES[4].rotor_speed == pytest.approx(0.5 * STATES[1].rotor_speed, rel=0.02)


def test_rated_speed_gives_rated_power() -> None:
    stage = ready_stage(UNIT, VANES, BLADES, FLOW, FRESH)
    speed = rated_speed(stage, DRIVE, 4.0)
    assert speed is not None
    turning = UNIT.design.tip_speed_ratio * speed / stage.tip_radius
    power = operating_point(UNIT, VANES, BLADES, FLOW, FRESH, speed, turning).shaft_power
    assert power * DRIVE.gear_efficiency * DRIVE.generator_efficiency == pytest.approx(DRIVE.rated_power, rel=1e-6)
    assert rated_speed(stage, DRIVE, 1.0) is None
    assert rated_speed(stage, Drive(1.0, 1.0, 1.0, 1.0), 4.0) == 1.0
