"""Equilibria of rotor and drive, and start-up, against closed forms of invented rotors."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.drive_battery import Battery
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_gear import Gear
from racewright.machine.drive_generator import ConstantGenerator
from racewright.machine.drive_magnets import PermanentMagnet
from racewright.stage.control_law import (
    BatteryLaw,
    FixedSpeed,
    TorqueLaw,
    charging_speed,
    law_load,
    law_speed,
    torque_law,
)
from racewright.stage.drive_equilibrium import equilibria
from racewright.stage.drive_start import start_up
from tests.stage.rotors import RADIUS, humped_rotor, shaped_rotor, straight_rotor

STRAIGHT, HUMPED = straight_rotor(), humped_rotor()
PLAIN = DriveChain(Gear(), ConstantGenerator(0.9))


def test_straight_rotor_against_a_straight_load() -> None:
    """100 U^2 (1 - w R/(4 U)) = 10 w at U = 2: w = 400/(10 + 25) = 11.42857 rad/s, stable."""
    found = equilibria(STRAIGHT, 2.0, lambda w: 10.0 * w)
    assert found.rotor_speed == pytest.approx([400.0 / 35.0], rel=1e-12)
    assert list(found.stable) == [True]
    assert found.met == pytest.approx(400.0 / 35.0)
    assert found.remark == ""


def test_several_roots_and_the_one_met_from_standstill() -> None:
    """(10 + 60 x)(1 - x/4) = 40: 15 x^2 - 57.5 x + 30 = 0, x = 0.6227 (unstable) and 3.2107 (stable)."""
    low, high = ((57.5 - s * math.sqrt(57.5**2 - 1800.0)) / 30.0 for s in (1.0, -1.0))
    found = equilibria(HUMPED, 1.0, lambda w: np.full(w.shape, 40.0))
    assert found.rotor_speed == pytest.approx([low / RADIUS, high / RADIUS], rel=2e-4)
    assert list(found.stable) == [False, True]
    assert not found.starts
    assert found.met == 0.0
    assert "does not start by itself" in found.remark


def test_a_low_stable_root_is_where_it_sticks() -> None:
    """A drag hump at low speed makes three roots; from standstill the lowest is met."""
    found = equilibria(HUMPED, 1.0, lambda w: 30.0 * np.exp(-(((w - 0.5) / 0.3) ** 2)))
    assert list(found.stable) == [True, False, True]
    assert found.met == pytest.approx(found.rotor_speed[0])
    assert "could also run at" in found.remark


def test_load_too_small_for_the_map_is_said() -> None:
    short = straight_rotor(fastest=3.0, count=31)
    found = equilibria(short, 1.0, lambda w: 0.0 * w)
    assert found.met is None
    assert "less torque than the water gives up to 57.3 rpm" in found.remark
    with pytest.raises(InputError, match="stream speed"):
        equilibria(short, 9.0, lambda w: w)


def test_torque_law_holds_its_ratio_at_every_speed() -> None:
    law = torque_law(STRAIGHT, 2.0, 1.5)
    assert law.factor == pytest.approx(100.0 * 0.5 * RADIUS**2 / 4.0, rel=1e-12)
    for speed in (0.3, 1.0, 3.7):
        at = law_speed(STRAIGHT, PLAIN, law, speed).rotor_speed
        assert at is not None
        assert at * RADIUS / speed == pytest.approx(2.0, rel=1e-10)


def test_fixed_speed_inside_and_outside_the_map() -> None:
    assert law_speed(STRAIGHT, PLAIN, FixedSpeed(4.0), 1.0).rotor_speed == 4.0
    assert law_speed(STRAIGHT, PLAIN, FixedSpeed(10.0), 1.0).rotor_speed is None


def test_battery_line_equilibrium_in_closed_form() -> None:
    """Gear 5, k = 4, R = 0.8, 50 V: 5 k (5 k w - 50)/R = 100 U^2 - 12.5 U w, current from w = 2.5 rad/s."""
    magnets = PermanentMagnet(4.0, 0.8, 200.0)
    chain = DriveChain(Gear(5.0), magnets)
    law = BatteryLaw(Battery(48.0, 2.0), magnets)
    speed = 1.3
    w = (100.0 * speed**2 + 20.0 * 50.0 / 0.8) / (400.0 / 0.8 + 12.5 * speed)
    assert law_speed(STRAIGHT, chain, law, speed).rotor_speed == pytest.approx(w, rel=1e-10)
    assert charging_speed(law, chain, 20.0) == pytest.approx(2.5, rel=1e-12)
    assert charging_speed(law, chain, 2.0) is None
    assert law_load(law, chain)(np.array([2.0]))[0] == 0.0


def test_battery_line_below_charging_turns_free() -> None:
    magnets = PermanentMagnet(4.0, 0.8, 200.0)
    chain = DriveChain(Gear(5.0), magnets)
    law = BatteryLaw(Battery(300.0, 0.0), magnets)
    assert law_speed(STRAIGHT, chain, law, 1.0).rotor_speed == pytest.approx(8.0, rel=1e-9)


def test_start_of_the_straight_rotor() -> None:
    """100 U^2 = 12 + 4 x 7 = 40 N m at U = 0.632456 m/s; nothing holds it after that."""
    magnets = PermanentMagnet(4.0, 0.8, 40.0, cogging_torque=7.0)
    found = start_up(STRAIGHT, DriveChain(Gear(4.0, standstill_torque=12.0), magnets))
    assert found.breakaway_torque == 40.0
    assert found.starting_speed == pytest.approx(math.sqrt(0.4), rel=1e-9)
    assert found.running_speed == pytest.approx(math.sqrt(0.4), rel=1e-9)
    assert found.sticking_rotor_speed is None
    assert found.remarks == ()


def test_a_rotor_that_starts_and_sticks() -> None:
    """Held by 5 N m it starts at U = sqrt(0.5); a drag of 60 N m near 1.5 rad/s lets it go only in faster water.

    Just below that stream speed drag and rotor touch: net torque and its slope both vanish where it sticks.
    """
    chain = DriveChain(Gear(standstill_torque=5.0), ConstantGenerator(0.9))

    def drag(w):  # type: ignore[no-untyped-def]
        return 60.0 * np.exp(-(((w - 1.5) / 0.5) ** 2))

    found = start_up(HUMPED, chain, load=drag)
    assert found.starting_speed == pytest.approx(math.sqrt(0.5), rel=1e-9)
    assert found.running_speed is not None
    assert found.sticking_rotor_speed is not None
    assert found.running_speed > 0.9
    w = np.linspace(0.0, 3.0, 30001)
    least = np.min(HUMPED.torque_at(found.running_speed, w) - drag(w))
    assert abs(least) < 0.02
    assert "sticks" in found.remarks[0].text


def test_a_rotor_that_never_starts_and_one_that_always_does() -> None:
    stuck = start_up(STRAIGHT, DriveChain(Gear(standstill_torque=1e5), ConstantGenerator(0.9)))
    assert stuck.starting_speed is None
    assert stuck.running_speed is None
    assert "must be set turning" in stuck.remarks[0].text
    eager = start_up(STRAIGHT, PLAIN)
    assert eager.starting_speed == 0.25
    assert "or slower" in eager.remarks[0].text


def test_torque_law_factor_is_guarded() -> None:
    with pytest.raises(InputError, match="factor"):
        TorqueLaw(math.nan)
    with pytest.raises(InputError, match="fixed rotor speed"):
        FixedSpeed(0.0)


def test_the_torque_law_takes_hold_of_the_fast_rotor() -> None:
    """Torque falls to nearly nothing at x = 0.9 and rises again: two stable roots; the drive meets the faster,
    for it takes torque only when the rotor turns freely."""
    rotor = shaped_rotor(
        lambda x: 40.0 * np.exp(-((x / 0.4) ** 2)) + 60.0 * np.exp(-((x - 2.2) ** 2) / 0.18) - x, 89, 4.4, (0.5, 2.0)
    )
    law = TorqueLaw(5.0 * RADIUS**2)
    found = equilibria(rotor, 1.0, law_load(law, PLAIN))
    assert list(found.stable) == [True, False, True]
    assert law_speed(rotor, PLAIN, law, 1.0).rotor_speed == found.rotor_speed[2]
