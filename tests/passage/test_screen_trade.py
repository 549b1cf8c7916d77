"""Screen bars and the trade of speed, counts and sweep."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from racewright.errors import Cancelled, InputError
from racewright.passage.debris import debris_class
from racewright.passage.screen import Screen, fill_time, held_back, screen_loss
from racewright.passage.screen_option import screen_option
from racewright.passage.species import fish_class
from racewright.passage.trade import trade
from racewright.stage.clogging import debris_resistance
from racewright.stage.operating_point import solve_stage
from racewright.stage.stage_ready import ready_stage
from tests.passage.machine import FRESH, UNIT, machine

SCREEN = Screen(0.008, 0.08, 1.2)
SMOLT = fish_class("salmonid_smolt")


def test_clean_bars():
    """1.83 (t/g)^(4/3) sin(slope) of the approach's dynamic head."""
    found = screen_loss(replace(SCREEN, slope=1.0), 1.5, 0.7)
    want = 1.83 * (0.008 / 0.08) ** (4.0 / 3.0) * math.sin(1.0)
    assert found.coefficient == pytest.approx(want, rel=1e-12)
    assert found.head_loss == pytest.approx(0.5 * want * (1.5 / 1.2) ** 2, rel=1e-12)
    assert found.resistance == pytest.approx(want * (0.7 / 1.2) ** 2, rel=1e-12)


def test_fouling_costs_more_and_adds_the_loss_behind():
    losses = [screen_loss(SCREEN, 1.5, 0.7, closed_share=share) for share in (0.0, 0.2, 0.5, 0.8)]
    assert [one.coefficient for one in losses] == sorted(one.coefficient for one in losses)
    clean = losses[0].coefficient
    assert losses[2].coefficient == pytest.approx(4.0 * clean + float(debris_resistance(0.5)), rel=1e-12)
    assert losses[2].open_share == pytest.approx(0.5 * 0.08 / 0.088)


def test_fill_time():
    assert fill_time(SCREEN, 2.0, 1e-6, 0.4) == pytest.approx(0.4 * (0.08 / 0.088) * 1.2 / 2e-6)


def test_fish_that_gaps_hold_back():
    assert not held_back(SCREEN, SMOLT, 0.2)
    assert held_back(replace(SCREEN, bar_gap=0.02), SMOLT, 0.2)


def test_a_screen_warns_of_pinned_fish_and_carries_its_basis():
    found = screen_loss(SCREEN, 1.5, 0.7)
    assert any("pinned" in one.text and one.severity == "warning" for one in found.remarks)
    assert not any("pinned" in one.text for one in screen_loss(SCREEN, 0.1, 0.7).remarks)
    assert "Kirschmer" in found.safety.basis


def test_the_machine_behind_a_screen():
    one = machine()
    stage = ready_stage(UNIT, one.vanes, one.blades, one.flow, FRESH)
    found = screen_option(stage, SCREEN, 2.4, one.point.rotor_speed, closed_share=0.3, arriving_area=1e-6)
    bare = solve_stage(stage, 2.4, one.point.rotor_speed)
    assert found.without.shaft_power == pytest.approx(bare.shaft_power, rel=1e-9)
    assert 0.0 < found.clean_power_share < found.fouled_power_share < 1.0
    assert found.fouled_loss.coefficient > found.clean_loss.coefficient
    assert found.fill_time is not None
    assert found.clean_loss.approach_speed == pytest.approx(found.clean.flow_rate / 1.2)
    assert screen_option(stage, SCREEN, 2.4, one.point.rotor_speed).fill_time is None


@pytest.mark.parametrize(
    "more",
    [{"bar_gap": 0.0}, {"bar_thickness": math.nan}, {"area": -1.0}, {"slope": 2.0}, {"shape": "square"}],
)
def test_refused_screens(more):
    with pytest.raises(InputError):
        replace(SCREEN, **more)


def test_trade():
    """Slower: fewer and slower strikes, more torque. Fewer blades: fewer strikes. Sweep: sheds weed."""
    ticks: list[float] = []
    found = trade(
        UNIT,
        machine().flow,
        FRESH,
        SMOLT,
        0.15,
        tip_speed_ratios=(1.7,),
        vane_counts=(5,),
        blade_counts=(3,),
        sweeps=(0.5,),
        debris=[debris_class("water_weed")],
        tick=ticks.append,
    )
    design, slow, vanes, blades, swept = found
    assert [one.reason for one in found] == [""] * 5
    assert slow.strike_chance < design.strike_chance
    assert slow.fastest < design.fastest
    assert slow.torque > design.torque
    assert vanes.smallest_opening > design.smallest_opening
    assert blades.strike_chance < design.strike_chance
    assert design.fates[0].wrap_chance[0] > swept.fates[0].wrap_chance[0]
    assert swept.shaft_power == pytest.approx(design.shaft_power)
    assert ticks == pytest.approx([0.2, 0.4, 0.6, 0.8, 1.0])


def test_a_variant_that_cannot_be_says_why():
    found = trade(UNIT, machine().flow, FRESH, SMOLT, 0.15, vane_counts=(2,))
    assert found[1].reason
    assert found[1].shaft_power == 0.0


def test_trade_is_refused_or_cancelled():
    with pytest.raises(InputError, match="sweep"):
        trade(UNIT, machine().flow, FRESH, SMOLT, 0.15, sweeps=(math.nan,))
    with pytest.raises(InputError, match="no count"):
        trade(UNIT, machine().flow, FRESH, SMOLT, 0.15, vane_counts=(1,))
    with pytest.raises(InputError, match="longer than the duct"):
        trade(UNIT, machine().flow, FRESH, SMOLT, 1.5)

    def stop(_part: float) -> None:
        raise Cancelled

    with pytest.raises(Cancelled):
        trade(UNIT, machine().flow, FRESH, SMOLT, 0.15, tick=stop)
