"""Cavitation number at the tip: the example by hand, and what low cover does."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from racewright.ledger.findings import MachineFindings
from racewright.ledger.place_inputs import outer_radius
from racewright.ledger.tip_cavitation import WANTED, cavitation_remarks, tip_cavitation, vapour_remarks
from racewright.place.result import Standing
from tests.dossier import sample

LOW = Standing("low water (Q95)", 8.1, 0.9, 2.2, 0.6, 0.2, 1.12)


def _machine() -> MachineFindings:
    return sample.machine()


def test_by_hand() -> None:
    machine = _machine()
    found = tip_cavitation(machine, (LOW, replace(LOW, cover=2.0)))
    state, water = machine.states[0], machine.water
    tip = float(machine.blades.radius[-1])
    depth = 0.6 + outer_radius(machine.unit.duct) - tip
    half = 0.5 * water.density * state.stream_speed**2
    pressure = 101325.0 + water.density * 9.80665 * depth - water.vapour_pressure
    pressure -= half * (state.speed_ratio**2 - 1.0 + state.head_coefficient)
    relative = math.hypot(state.speed_ratio * state.stream_speed, state.rotor_speed * tip)
    assert [f.state for f in found] == ["on load", "runaway"]
    assert found[0].number == pytest.approx(pressure / (0.5 * water.density * relative**2), rel=1e-12)
    assert found[0].depth == pytest.approx(depth, rel=1e-12)


def test_less_cover_less_number_and_a_caution_at_last() -> None:
    machine = _machine()
    numbers = [tip_cavitation(machine, (replace(LOW, cover=c),))[0].number for c in (0.0, 1.0, 5.0)]
    assert numbers == sorted(numbers)
    fast = replace(machine, states=tuple(replace(s, rotor_speed=6.0 * s.rotor_speed) for s in machine.states))
    worst = tip_cavitation(fast, (LOW,))
    assert min(f.number for f in worst) < WANTED
    assert "cavitation number" in cavitation_remarks(worst)[0].text
    assert cavitation_remarks(tip_cavitation(machine, ())) == ()


def test_aground_or_without_standings_nothing_is_said() -> None:
    assert tip_cavitation(_machine(), (replace(LOW, cover=-0.1),)) == ()


def test_the_remedy_is_depth_only_where_depth_can_do_it() -> None:
    """More depth = (wanted - number) W^2/(2g); by hand 0.31 m for a number 0.1 short at 7.8 m/s."""
    found = tip_cavitation(_machine(), (LOW,))[0]
    near = replace(found, number=WANTED - 0.1, relative_speed=7.8)
    assert "0.3 m deeper" in cavitation_remarks((near,))[0].text
    far = replace(near, state="runaway", number=0.2, relative_speed=17.0)
    told = cavitation_remarks((far,))[0].text
    assert "19 m more water" in told
    assert "brake" in told


def test_a_through_flow_below_vapour_pressure_is_warned_of() -> None:
    machine = _machine()
    found = tip_cavitation(machine, (LOW,))
    assert vapour_remarks(machine, found) == ()
    torn = replace(machine, states=(replace(machine.states[0], lowest_pressure=-2e5), *machine.states[1:]))
    assert vapour_remarks(torn, found)[0].severity == "warning"
    assert "below vapour pressure" in vapour_remarks(torn, found)[0].text
    assert vapour_remarks(torn, ()) == ()
