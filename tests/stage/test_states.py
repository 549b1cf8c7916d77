"""On load, runaway, held, parked, clogged; the stream speed where rated power begins; starting."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from racewright.flow.closure import BLUFF
from racewright.machine.drive import Drive
from racewright.machine.unit import RowIntent
from racewright.stage.design import design_rows
from racewright.stage.operating_point import operating_point, ready_stage
from racewright.stage.result import State
from racewright.stage.states import ORDER, machine_states, rated_speed, runaway_ratio
from tests.external.record import Record
from tests.stage.machines import DRIVE, FRESH, flow, unit
from tests.stage.solved import FLOW as SOLVED
from tests.stage.solved import UNIT as BUILT

UNIT, FLOW = unit(), flow()
VANES, BLADES = design_rows(UNIT, FLOW, FRESH)
BUILT_ROWS = design_rows(BUILT, SOLVED, FRESH)
SPEED = BUILT.design.stream_speed


@cache
def _states() -> dict[tuple[float, str], State]:
    """On load and beside it, at two speeds; solved by the first test that asks."""
    found = machine_states(BUILT, *BUILT_ROWS, SOLVED, FRESH, np.array([SPEED, 1.2]))
    return {(s.stream_speed, s.name): s for s in found}


def _at(name: str, speed: float = SPEED) -> State:
    return _states()[(speed, name)]


def test_states_come_by_speed_and_name() -> None:
    assert list(_states()) == [(speed, name) for speed in (SPEED, 1.2) for name in ORDER]
    assert all(np.isfinite(s.thrust) and s.thrust > 0.0 for s in _states().values())


def test_runaway_has_no_torque_turns_faster_and_leaves_the_swirl_of_the_vanes() -> None:
    """The vanes' swirl is not taken out, so the roll moment is about twice the torque on load."""
    on_load, runaway = _at("on load"), _at("runaway")
    assert abs(runaway.torque) < 1e-6 * on_load.torque
    assert 1.3 * on_load.rotor_speed < runaway.rotor_speed < 4.0 * on_load.rotor_speed
    assert 1.6 * on_load.torque < runaway.roll_moment < 2.8 * on_load.torque
    assert abs(on_load.roll_moment) < 0.05 * on_load.torque
    assert runaway.lowest_pressure < on_load.lowest_pressure < 0.0


def test_roll_moment_is_the_leaving_swirl() -> None:
    for state in _states().values():
        asked = FRESH.density * state.flow_rate * state.swirl_exit
        assert state.roll_moment == pytest.approx(asked, rel=1e-8, abs=1e-8)


def test_runaway_speed_is_nearly_proportional_to_the_stream() -> None:
    """Only the Reynolds number differs."""
    assert _at("runaway", 1.2).rotor_speed == pytest.approx(0.5 * _at("runaway").rotor_speed, rel=0.02)


def test_held_and_parked_are_one_flow() -> None:
    held, parked = _at("held"), _at("parked")
    assert held.rotor_speed == held.shaft_power == 0.0
    assert (held.torque, held.thrust) == (parked.torque, parked.thrust)
    assert "brake" in parked.remark
    assert "stalled" in held.remark


def test_debris_takes_flow_and_power_and_turns_the_machine_into_a_bluff_body() -> None:
    names = ("on load", "clogged 25 %", "clogged 50 %", "clogged 75 %", "clogged 100 %")
    for field in ("flow_rate", "shaft_power", "torque", "rotor_speed"):
        assert np.all(np.diff([getattr(_at(name), field) for name in names]) < 0.0), field
    shut = _at("clogged 100 %")
    frontal = np.pi * float(SOLVED.duct_r.max()) ** 2
    assert shut.thrust == pytest.approx(0.5 * FRESH.density * SPEED**2 * BLUFF * frontal)
    assert not shut.solved
    assert _at("clogged 25 %").solved
    law = _at("on load").torque / _at("on load").rotor_speed ** 2
    quarter = _at("clogged 25 %")
    assert quarter.torque == pytest.approx(law * quarter.rotor_speed**2, rel=1e-6)


@pytest.mark.parametrize(
    ("tip_chord", "hub_chord", "low", "high"), [(0.24, 0.13, -1.5, 0.0), (0.72, 0.24, -8.0, -2.5)]
)
def test_held_roll_moment(
    tip_chord: float, hub_chord: float, low: float, high: float, record_property: Record
) -> None:
    """Over the rated torque, the other way: little for sparse rows, several times it for dense ones."""
    dense = replace(BUILT, blades=RowIntent(5, 0.36, hub_chord, tip_chord, 0.12, 0.008))
    vanes, blades = design_rows(dense, SOLVED, FRESH)
    solidity = float((blades.chord * blades.count / (2.0 * np.pi * blades.radius))[2])
    rated = operating_point(dense, vanes, blades, SOLVED, FRESH, SPEED, 2.2 * SPEED / float(blades.radius[-1]))
    held = operating_point(dense, vanes, blades, SOLVED, FRESH, SPEED, 0.0)
    ratio = held.roll_moment / rated.torque
    record_property("measured", f"{ratio:.2f} at chord/pitch {solidity:.2f}")
    assert low < ratio < high
    assert held.converged


def test_rated_speed_gives_rated_power() -> None:
    stage = ready_stage(UNIT, VANES, BLADES, FLOW, FRESH)
    speed = rated_speed(stage, DRIVE, 4.0)
    assert speed is not None
    turning = UNIT.design.tip_speed_ratio * speed / stage.tip_radius
    power = operating_point(UNIT, VANES, BLADES, FLOW, FRESH, speed, turning).shaft_power
    assert power * DRIVE.gear_efficiency * DRIVE.generator_efficiency == pytest.approx(DRIVE.rated_power, rel=1e-6)
    assert rated_speed(stage, DRIVE, 1.0) is None
    assert rated_speed(stage, Drive(1.0, 1.0, 1.0, 1.0), 4.0) == 1.0


def test_runaway_ratio_is_that_of_the_state() -> None:
    stage = ready_stage(BUILT, *BUILT_ROWS, SOLVED, FRESH)
    found = runaway_ratio(stage, SPEED, BUILT.design.tip_speed_ratio)
    assert found * SPEED / stage.tip_radius == pytest.approx(_at("runaway").rotor_speed, rel=1e-6)
