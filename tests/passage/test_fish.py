"""Fish through the machine and down the river; the machine beside bare rotors."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.duct_contour import duct_contour
from racewright.passage.bare_fast import bare_fast, bare_of_power
from racewright.passage.beside import beside_bare
from racewright.passage.fish import fish_passage, flow_share
from racewright.passage.species import fish_class
from tests.passage.machine import DEPTH, FRESH, UNIT, machine

SMOLT = fish_class("salmonid_smolt")


def passage(fish=SMOLT, length=(0.1, 0.2), **more):
    one = machine()
    return fish_passage(UNIT, one.vanes, one.blades, one.flow, FRESH, one.point, fish, length, DEPTH, **more)


@cache
def beside(length=(0.1, 0.4), **more):
    one = machine()
    return beside_bare(UNIT, one.vanes, one.blades, FRESH, one.point, SMOLT, length, **more)


def test_causes_are_joined_as_independent():
    found = passage()
    want = 1.0 - (1.0 - found.strike.death) * (1.0 - found.pressure_death.value) * (1.0 - found.shear_death.value)
    assert found.death == pytest.approx(want, rel=1e-12)
    assert np.all(found.death_low <= found.death)
    assert np.all(found.death <= found.death_high)
    assert found.left_out == ()


def test_the_river_share_and_avoidance_scale_what_comes_in():
    flow = machine().point.flow_rate
    none, some = passage(discharge=20.0 * flow), passage(discharge=20.0 * flow, avoidance=0.8)
    assert none.flow_share == pytest.approx(0.05)
    assert none.avoidance == 0.0
    assert none.river_strike == pytest.approx(0.05 * none.strike.chance)
    assert none.river_death_high == pytest.approx(0.05 * none.death_high)
    assert some.river_death == pytest.approx(0.2 * none.river_death)
    assert any(one.about == "avoidance" for one in some.remarks)
    assert passage().river_strike is None


def test_a_cause_without_a_value_is_left_out_and_said():
    found = passage(fish_class("sturgeon"), (0.5,))
    assert found.left_out == ("pressure", "shear")
    assert found.death_high == pytest.approx(1.0)
    assert sum("left out" in one.text for one in found.remarks) == 2


def test_eggs_die_of_the_blades_layers():
    """148 1/s is passed on the blades: all that come near them are counted dead, which is the published worst."""
    found = passage(fish_class("river_egg"), (0.003,))
    assert found.shear_death.value == 1.0


def test_refused():
    with pytest.raises(InputError, match="longer than the duct"):
        passage(length=(1.5,))
    with pytest.raises(InputError, match="more discharge"):
        passage(discharge=0.5 * machine().point.flow_rate)
    with pytest.raises(InputError, match="avoidance"):
        passage(avoidance=1.2)
    with pytest.raises(InputError, match="avoidance"):
        passage(avoidance=math.nan)
    with pytest.raises(InputError, match="discharge"):
        flow_share(1.0, math.nan)
    one = machine()
    idle = replace(one.point, shaft_power=-3.0)
    with pytest.raises(InputError, match="compare where the machine works"):
        beside_bare(UNIT, one.vanes, one.blades, FRESH, idle, SMOLT, 0.1)


def test_the_bare_rotors_are_of_equal_power_and_of_equal_diameter():
    found = beside().contenders
    assert found[1].shaft_power == pytest.approx(machine().point.shaft_power, rel=1e-5)
    assert found[2].outer_radius == pytest.approx(float(duct_contour(UNIT.duct)[1].max()))
    assert found[0].name == "two-row machine"


def test_a_bare_rotor_works_as_bare_rotors_do():
    found = bare_fast(FRESH, 2.4, 0.6)
    assert 0.38 < found.power_coefficient < 16.0 / 27.0
    assert found.flow_rate < math.pi * 0.6**2 * 2.4
    assert bare_of_power(FRESH, 2.4, found.shaft_power).radius == pytest.approx(0.6, rel=1e-6)


def test_differences_are_told_whichever_way_they_go():
    """Small fish: fewer and slower strikes. Against equal power, of long fish more of the river's are struck."""
    power, diameter = beside().differences
    assert power.chance[0] < 0.0
    assert power.fastest < -0.3
    assert power.struck_flow[1] > 0.0
    assert "% higher" in power.words
    assert "lower" in diameter.words
    assert power.chance_along[0] > power.chance_axial[0]


def test_a_difference_is_machine_over_bare_less_one():
    found = beside()
    own, other = found.contenders[0], found.contenders[2]
    assert found.differences[1].chance == pytest.approx(own.strike.chance / other.strike.chance - 1.0)
    made = (own.struck_flow / own.shaft_power) / (other.struck_flow / other.shaft_power) - 1.0
    assert found.differences[1].struck_per_energy == pytest.approx(made)


def test_a_faster_bare_rotor_looks_worse():
    slow, fast = (beside(bare_tip_speed_ratio=ratio).contenders[2] for ratio in (4.0, 6.0))
    assert fast.strike.fastest > slow.strike.fastest
    assert fast.strike.chance[0] > slow.strike.chance[0]
