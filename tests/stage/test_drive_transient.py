"""Loss of load and braking of the straight rotor, in closed form."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.machine.drive_brake import Brake
from racewright.stage.drive_transient import brake_stop, loss_of_load
from tests.stage.rotors import humped_rotor, straight_rotor

STRAIGHT = straight_rotor()
INERTIA = 25.0


def test_loss_of_load_is_an_exponential() -> None:
    """At 2 m/s torque = 400 (1 - w/16): w = 16 - 8 exp(-t/tau), tau = J 16/400 = 1 s, from 8 rad/s."""
    found = loss_of_load(STRAIGHT, 2.0, 8.0, INERTIA, overspeed_ratio=1.5)
    assert found.runaway_speed == pytest.approx(16.0, rel=1e-10)
    assert found.time_to_overspeed == pytest.approx(math.log(2.0), rel=1e-10)
    assert found.time_to_runaway == pytest.approx(math.log(8.0 / 0.16), rel=1e-10)
    assert found.rotor_speed == pytest.approx(16.0 - 8.0 * np.exp(-found.time), rel=1e-9)


def test_loss_of_load_with_drag_that_stays() -> None:
    """400 (1 - w/16) - 5 w = 400 - 30 w: runs away at 13.333 with tau = 25/30 s."""
    found = loss_of_load(STRAIGHT, 2.0, 8.0, INERTIA, overspeed_ratio=1.5, drag=lambda w: 5.0 * w)
    away = 400.0 / 30.0
    assert found.runaway_speed == pytest.approx(away, rel=1e-10)
    assert found.time_to_overspeed == pytest.approx(25.0 / 30.0 * math.log((away - 8.0) / (away - 12.0)), rel=1e-9)


def test_a_curved_torque_agrees_with_steps_in_time() -> None:
    """The same motion by 4th-order Runge-Kutta, 4000 steps."""
    rotor = humped_rotor()
    found = loss_of_load(rotor, 1.5, 6.0, INERTIA, overspeed_ratio=1.6)
    assert found.time_to_overspeed is not None
    w, n = 6.0, 4000
    h = found.time_to_overspeed / n

    def rate(x: float) -> float:
        return float(rotor.torque_at(1.5, x)) / INERTIA

    for _ in range(n):
        a = rate(w)
        b = rate(w + 0.5 * h * a)
        c = rate(w + 0.5 * h * b)
        d = rate(w + h * c)
        w += h * (a + 2.0 * b + 2.0 * c + d) / 6.0
    assert w == pytest.approx(9.6, rel=1e-9)


def test_overspeed_beyond_runaway_and_beyond_the_map() -> None:
    never = loss_of_load(STRAIGHT, 2.0, 8.0, INERTIA, overspeed_ratio=3.0)
    assert never.time_to_overspeed is None
    assert "below the overspeed" in never.remark
    short = straight_rotor(fastest=3.0, count=31)
    ended = loss_of_load(short, 2.0, 8.0, INERTIA, overspeed_ratio=1.2)
    assert ended.runaway_speed is None
    assert ended.time_to_runaway is None
    assert ended.time_to_overspeed == pytest.approx(math.log(8.0 / 6.4), rel=1e-9)
    assert "before runaway" in ended.remark
    assert loss_of_load(short, 2.0, 8.0, INERTIA, overspeed_ratio=2.0).time_to_overspeed is None


def test_a_braked_or_undriven_rotor_is_refused() -> None:
    with pytest.raises(InputError, match="driven rotor"):
        loss_of_load(STRAIGHT, 2.0, 16.5, INERTIA, overspeed_ratio=1.5)
    with pytest.raises(InputError, match="inertia"):
        loss_of_load(STRAIGHT, 2.0, 8.0, math.nan, overspeed_ratio=1.5)


def test_stop_in_closed_form() -> None:
    """600 N m against 400 (1 - w/16): dw/dt = -(200 + 25 w)/25 = -(8 + w), t = ln((8 + 12)/8) from 12 rad/s.

    Angle = 12 - 8 t, energy = 600 x angle = kinetic energy + work of the water 400 x angle - 25 int w^2 dt.
    """
    found = brake_stop(STRAIGHT, 2.0, 12.0, INERTIA, Brake(600.0, 20000.0))
    t = math.log(2.5)
    angle = 12.0 - 8.0 * t
    assert found.stops
    assert found.time == pytest.approx(t, rel=1e-10)
    assert found.turns == pytest.approx(angle / (2.0 * math.pi), rel=1e-10)
    assert found.energy == pytest.approx(600.0 * angle, rel=1e-10)
    squares = 72.0 - 8.0 * angle
    assert found.energy == pytest.approx(0.5 * INERTIA * 144.0 + 400.0 * angle - 25.0 * squares, rel=1e-9)
    assert found.bears


def test_a_weak_brake_and_a_hot_brake() -> None:
    weak = brake_stop(STRAIGHT, 2.0, 12.0, INERTIA, Brake(300.0, 20000.0))
    assert not weak.stops
    assert weak.stuck_at == pytest.approx(4.0, abs=0.13)
    assert "do not stop the rotor" in weak.remark
    hot = brake_stop(STRAIGHT, 2.0, 12.0, INERTIA, Brake(600.0, 1000.0))
    assert hot.stops
    assert not hot.bears
    assert "into the brake" in hot.remark
