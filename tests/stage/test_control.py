"""Control over stream speed: laws, the ways of holding rated power, their consequences; closed forms."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.drive_battery import Battery
from racewright.machine.drive_brake import DumpLoad
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_gear import Gear
from racewright.machine.drive_generator import ConstantGenerator
from racewright.machine.drive_magnets import PermanentMagnet
from racewright.stage.control import control_curve, power_curve_of, rated_stream_speed
from racewright.stage.control_hold import Limits
from racewright.stage.control_law import BatteryLaw, FixedSpeed, torque_law
from racewright.stage.control_limits import limits_from_rated
from racewright.stage.control_summary import control_summary
from tests.stage.rotors import RADIUS, humped_rotor, shaped_rotor, straight_rotor

STRAIGHT = straight_rotor()
CHAIN = DriveChain(Gear(), ConstantGenerator(0.8))
LAW = torque_law(STRAIGHT, 2.0, 1.0)
SPEEDS = np.array([0.0, 0.1, 0.4, 0.8, 1.2, 1.6, 2.4, 3.2])
RATED = 0.8 * 200.0 * 1.6**3
"""Electrical power at x = 2 and 1.6 m/s: shaft power is 200 U^3 there [W]."""


def held(speed: float, sign: float) -> float:
    """Ratio x where 0.8 x 200 U^3 x (1 - x/4) is rated power; sign -1 slow side, +1 fast side."""
    share = RATED / (0.8 * 200.0 * speed**3)
    return 2.0 + sign * 2.0 * math.sqrt(1.0 - share)


def test_below_rated_power_the_ratio_is_held() -> None:
    curve = control_curve(STRAIGHT, CHAIN, LAW, SPEEDS, how="dump", limits=Limits(RATED * 1.0001), cut_in_speed=0.5)
    assert curve.status == (
        "not computed",
        "not computed",
        "below cut-in",
        "on law",
        "on law",
        "on law",
        "held",
        "held",
    )
    below = slice(3, 6)
    assert curve.tip_speed_ratio[below] == pytest.approx(2.0, rel=1e-9)
    assert curve.shaft_power[below] == pytest.approx(200.0 * SPEEDS[below] ** 3, rel=1e-9)
    assert curve.electrical_power[below] == pytest.approx(160.0 * SPEEDS[below] ** 3, rel=1e-9)
    assert curve.tip_speed_ratio[2] == pytest.approx(4.0, rel=1e-9)
    assert curve.electrical_power[:3] == pytest.approx(0.0)
    assert list(curve.limited) == [False] * 6 + [True] * 2


@pytest.mark.parametrize(("how", "sign"), [("slow", -1.0), ("speed up", 1.0)])
def test_rated_power_is_held_by_speed(how, sign) -> None:  # type: ignore[no-untyped-def]
    curve = control_curve(STRAIGHT, CHAIN, LAW, SPEEDS, how=how, limits=Limits(RATED * (1 - 1e-9)))
    for i in (6, 7):
        x = held(SPEEDS[i], sign)
        assert curve.status[i] == "held"
        assert curve.tip_speed_ratio[i] == pytest.approx(x, rel=1e-6)
        assert curve.electrical_power[i] == pytest.approx(RATED, rel=1e-6)
        assert curve.shaft_power[i] * 0.8 == pytest.approx(RATED, rel=1e-6)
        assert curve.torque[i] == pytest.approx(100.0 * SPEEDS[i] ** 2 * (1.0 - x / 4.0), rel=1e-6)
        assert curve.strike_speed[i] == pytest.approx(SPEEDS[i] * math.sqrt(1.44 + x**2), rel=1e-6)
        assert curve.unlimited_power[i] == pytest.approx(160.0 * SPEEDS[i] ** 3, rel=1e-9)
        assert curve.dumped_power[i] == 0.0


def test_dumping_makes_all_and_throws_away() -> None:
    curve = control_curve(STRAIGHT, CHAIN, LAW, SPEEDS, how="dump", limits=Limits(RATED))
    assert curve.tip_speed_ratio[7] == pytest.approx(2.0, rel=1e-9)
    assert curve.dumped_power[7] == pytest.approx(160.0 * 3.2**3 - RATED, rel=1e-9)
    assert curve.electrical_power[7] == RATED


def test_torque_limit_and_speed_limit_are_data() -> None:
    limits = Limits(RATED, torque=300.0, rotor_speed=19.0)
    slow = control_curve(STRAIGHT, CHAIN, LAW, SPEEDS, how="slow", limits=limits)
    assert slow.status[7] == "not held"
    assert "above the limit of 300 N m" in slow.reason[7]
    fast = control_curve(STRAIGHT, CHAIN, LAW, SPEEDS, how="speed up", limits=limits)
    assert fast.status[7] == "not held"
    assert "above its limit of 181 rpm" in fast.reason[7]
    dump = control_curve(STRAIGHT, CHAIN, LAW, SPEEDS, how="dump", limits=limits)
    assert "above the limit of 300 N m" in dump.reason[7]


def test_a_stalling_rotor_is_not_held_by_slowing() -> None:
    """Torque of the humped rotor peaks at x = 1.9167; its power at x = 2.711; rated just above 1 m/s."""
    rotor = humped_rotor()
    law = torque_law(rotor, 2.711, 1.0)
    rated = 0.8 * 2.711 / RADIUS * (10.0 + 60.0 * 2.711) * (1.0 - 2.711 / 4.0)
    speeds = np.array([0.9, 1.05, 2.0])
    slow = control_curve(rotor, CHAIN, law, speeds, how="slow", limits=Limits(rated))
    assert slow.status == ("on law", "held", "not held")
    assert "stall" in slow.reason[2]
    assert slow.tip_speed_ratio[2] < 1.9
    assert control_curve(rotor, CHAIN, law, speeds, how="speed up", limits=Limits(rated)).status[2] == "held"


def test_a_generator_out_of_current_is_said() -> None:
    chain = DriveChain(Gear(), PermanentMagnet(8.0, 0.1, 45.0))
    limits = Limits(2500.0)
    slow = control_curve(STRAIGHT, chain, LAW, SPEEDS, how="slow", limits=limits)
    assert slow.status[7] == "not held"
    assert "what the generator takes" in slow.reason[7]
    dump = control_curve(STRAIGHT, chain, LAW, SPEEDS, how="dump", limits=limits)
    assert dump.reason[7] == "the generator cannot take the rotor's power"
    assert control_curve(STRAIGHT, chain, LAW, SPEEDS, how="speed up", limits=limits).status[7] == "held"


def test_fixed_speed_and_battery_cannot_choose_another_speed() -> None:
    limits = Limits(RATED)
    fixed = control_curve(STRAIGHT, CHAIN, FixedSpeed(6.4), SPEEDS[3:], how="slow", limits=limits)
    assert fixed.rotor_speed == pytest.approx(6.4)
    assert fixed.reason[-1] == "the rotor's speed is fixed"
    magnets = PermanentMagnet(8.0, 0.5, 400.0)
    chain = DriveChain(Gear(2.0), magnets)
    law = BatteryLaw(Battery(48.0, 2.0), magnets)
    curve = control_curve(STRAIGHT, chain, law, SPEEDS[3:], how="dump", limits=Limits(1000.0))
    u = SPEEDS[3:]
    w = (100.0 * u**2 + 16.0 * 50.0 / 0.5) / (256.0 / 0.5 + 12.5 * u)
    assert curve.rotor_speed == pytest.approx(w, rel=1e-9)
    current = (16.0 * w - 50.0) / 0.5
    assert curve.unlimited_power == pytest.approx(48.0 * current, rel=1e-8)
    made = chain.output(curve.torque, curve.rotor_speed).electrical_power
    assert made == pytest.approx(48.0 * current + 2.0 * current, rel=1e-8)
    assert (
        control_curve(STRAIGHT, chain, law, u, how="slow", limits=Limits(1000.0)).reason[-1].startswith("the battery")
    )


def test_outside_the_map_there_is_no_answer() -> None:
    curve = control_curve(STRAIGHT, CHAIN, LAW, np.array([0.1, 1.0, 4.5]), how="dump", limits=Limits(RATED))
    assert curve.status == ("no answer", "on law", "no answer")
    assert curve.reason[2] == "the map ends at 4 m/s"
    assert curve.thrust[2] == 0.0


def test_power_curve_for_the_year() -> None:
    curve = control_curve(STRAIGHT, CHAIN, LAW, SPEEDS, how="slow", limits=Limits(RATED))
    year = power_curve_of(curve, RATED)
    assert year.band_low[4] == pytest.approx(0.75 * 160.0 * 1.2**3, rel=1e-9)
    assert year.band_high[4] == pytest.approx(min(RATED, 1.25 * 160.0 * 1.2**3), rel=1e-9)
    assert year.electrical_power[-1] == pytest.approx(RATED)


def test_summary_prefers_slowing_while_the_drive_bears_it() -> None:
    """At 3.2 m/s slowing to x = 0.1292 takes 991 N m; speeding up ends at x = 3.8708."""
    found = control_summary(STRAIGHT, CHAIN, LAW, SPEEDS, limits=Limits(RATED))
    assert found.recommended == "slow"
    assert found.rated_speed == pytest.approx(1.6, rel=1e-9)
    slow, fast, dump = found.ways
    assert slow.torque == pytest.approx(1024.0 * (1.0 - held(3.2, -1.0) / 4.0), rel=1e-6)
    assert fast.strike_speed == pytest.approx(3.2 * math.sqrt(1.44 + held(3.2, 1.0) ** 2), rel=1e-6)
    assert not dump.holds
    assert dump.reason.startswith("no dump load")
    assert slow.strike_speed < dump.strike_speed < fast.strike_speed


def test_summary_falls_back_in_order() -> None:
    tight = Limits(RATED, torque=600.0)
    fast = control_summary(STRAIGHT, CHAIN, LAW, SPEEDS, limits=tight)
    assert fast.recommended == "speed up"
    assert "Slowing fails from 3.20 m/s" in fast.reason
    slow_turning = replace(tight, rotor_speed=14.0)
    big = DumpLoad(1e5, 3600.0)
    assert control_summary(STRAIGHT, CHAIN, LAW, SPEEDS, limits=slow_turning, dump_load=big).recommended == "dump"
    nothing = control_summary(STRAIGHT, CHAIN, LAW, SPEEDS, limits=slow_turning, dump_load=DumpLoad(10.0, 1.0))
    assert nothing.recommended == "none"
    assert "slowing lasts longest, to just below 3.20 m/s" in nothing.reason
    assert "more than the dump load's 10 W" in nothing.reason
    assert control_summary(STRAIGHT, CHAIN, LAW, SPEEDS, limits=Limits(1e6)).recommended == "any"


def test_a_law_off_the_power_peak_makes_slowing_jump() -> None:
    """At x = 2.4 power is 0.96 of its greatest, so the slow side begins at x = 1.6: a jump of a third."""
    law = torque_law(STRAIGHT, 2.4, 1.0)
    found = control_summary(STRAIGHT, CHAIN, law, SPEEDS, limits=Limits(RATED))
    slow, fast, _ = found.ways
    assert slow.holds
    assert slow.jump == pytest.approx(1.0 / 3.0, abs=0.01)
    assert fast.jump < 0.01
    assert found.recommended == "speed up"
    assert "jump of 3" in found.reason
    alone = control_summary(STRAIGHT, CHAIN, law, SPEEDS, limits=Limits(RATED, rotor_speed=16.0))
    assert alone.recommended == "slow"
    assert "jump of 3" in alone.reason


def test_unanswered_fast_water_is_not_held() -> None:
    found = control_summary(STRAIGHT, CHAIN, LAW, np.append(SPEEDS, 5.0), limits=Limits(RATED))
    assert [way.fails_from for way in found.ways[:2]] == [5.0, 5.0]
    assert found.ways[0].reason == "the map ends at 4 m/s"
    assert found.recommended == "none"
    low = control_summary(STRAIGHT, CHAIN, LAW, np.array([1.0, 5.0]), limits=Limits(RATED))
    assert "up to 1.00 m/s" in low.reason


def test_rated_stream_speed() -> None:
    assert rated_stream_speed(STRAIGHT, CHAIN, LAW, RATED, SPEEDS) == pytest.approx(1.6, rel=1e-9)
    assert rated_stream_speed(STRAIGHT, CHAIN, LAW, RATED, SPEEDS[:5]) is None
    assert rated_stream_speed(STRAIGHT, CHAIN, LAW, 1.0, SPEEDS) == 0.4


def test_a_driven_rotor_at_fixed_speed_is_said() -> None:
    curve = control_curve(STRAIGHT, CHAIN, FixedSpeed(6.4), np.array([0.77, 2.0]), how="dump", limits=Limits(1e6))
    assert curve.electrical_power[0] == 0.0
    assert curve.shaft_power[0] < 0.0
    assert "does not drive the rotor" in curve.reason[0]


def test_a_battery_that_takes_more_than_the_generator_has() -> None:
    magnets = PermanentMagnet(8.0, 0.5, 10.0)
    chain = DriveChain(Gear(2.0), magnets)
    law = BatteryLaw(Battery(48.0, 2.0), magnets)
    curve = control_curve(STRAIGHT, chain, law, np.array([0.5, 2.0]), how="dump", limits=Limits(1000.0))
    assert curve.status == ("on law", "no answer")
    assert "the rotor runs away" in curve.reason[1]


def test_points_on_a_closure_are_marked() -> None:
    """Ratios up to 1 rest on a closure, so slowing does."""
    closure = np.broadcast_to(STRAIGHT.tip_speed_ratio <= 1.0, STRAIGHT.answered.shape).copy()
    rotor = replace(STRAIGHT, closure=closure)
    found = control_summary(rotor, CHAIN, LAW, SPEEDS, limits=Limits(RATED))
    assert [way.on_closure for way in found.ways] == [True, False, False]
    assert list(np.flatnonzero(found.ways[0].curve.closure)) == [6, 7]
    assert "Figures of slowing rest in part" in found.reason
    with pytest.raises(InputError, match="closure"):
        replace(STRAIGHT, closure=closure[1:])


def test_limits_from_rated_power() -> None:
    """Rated at 1.6 m/s: 50 x 1.6^2 = 128 N m at 6.4 rad/s."""
    found = limits_from_rated(STRAIGHT, CHAIN, LAW, RATED, SPEEDS)
    assert found.torque == pytest.approx(1.25 * 128.0, rel=1e-8)
    assert found.rotor_speed == math.inf
    given = limits_from_rated(STRAIGHT, CHAIN, LAW, RATED, SPEEDS, speed_margin=1.5)
    assert given.rotor_speed == pytest.approx(1.5 * 6.4, rel=1e-8)
    assert limits_from_rated(STRAIGHT, CHAIN, LAW, 1e7, SPEEDS).torque == math.inf
    with pytest.raises(InputError, match="margin"):
        limits_from_rated(STRAIGHT, CHAIN, LAW, RATED, SPEEDS, torque_margin=0.5)


def test_bad_numbers_are_refused() -> None:
    with pytest.raises(InputError, match="Rated power"):
        control_curve(STRAIGHT, CHAIN, LAW, SPEEDS, how="slow", limits=Limits(math.nan))
    with pytest.raises(InputError, match="limit of torque"):
        Limits(1.0, torque=math.nan)
    with pytest.raises(InputError, match="grow"):
        control_curve(STRAIGHT, CHAIN, LAW, SPEEDS[::-1], how="slow", limits=Limits(1.0))


def test_slowing_takes_the_nearest_speed() -> None:
    """A dip of power about x = 1.2 gives three slower speeds at rated power; the nearest one is taken."""
    rotor = shaped_rotor(
        lambda x: 100.0 * (1.0 - x / 4.0) * (1.0 - 0.6 * np.exp(-(((x - 1.2) / 0.2) ** 2))), 89, 4.4, (1.0, 3.0)
    )
    curve = control_curve(rotor, CHAIN, LAW, np.array([2.17]), how="slow", limits=Limits(RATED))
    assert 1.2 < curve.tip_speed_ratio[0] < 1.6
    assert curve.shaft_power[0] * 0.8 == pytest.approx(RATED, rel=1e-6)
