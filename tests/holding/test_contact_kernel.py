"""The plane's kernel: symmetry, energy, order of convergence, sticking."""

from __future__ import annotations

from dataclasses import replace
from math import radians

import numpy as np
import pytest

from racewright.holding import contact_kernel as kernel
from racewright.holding.log_body import Log
from racewright.holding.strike_run import integrate_strike, run_from, steps_for
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_touch import first_touch
from tests.holding.machines import machine, strike


def places(one: Strike, x: float) -> np.ndarray:
    z = one.start()
    z[0] = x
    plane = one.plane(1.0)
    out = np.empty((plane.machine.corner.shape[0] + 2, 5))
    kernel.places_of(z, plane.log, plane.machine, out)
    return out


def test_depth_is_continuous_as_an_end_passes_a_corner() -> None:
    """The sum of depths changes by less than twice the way moved, however the end goes round the lip."""
    one = strike(lean=0.0, heading=20.0)
    before = None
    for offset in np.linspace(0.3, 2.2, 400):
        moved = replace(one, offset=float(offset))
        out = places(moved, -3.1)
        total = np.maximum(out[:, 0], 0.0).sum()
        if before is not None:
            assert abs(total - before) < 2.0 * (1.9 / 399)
        before = total


@pytest.mark.parametrize("offset", [0.57, 0.58, 0.6, 0.62])
def test_an_end_at_a_corner_is_one_touch(offset: float) -> None:
    """A log end that meets lip and front together is pressed in once, not by corner and face both."""
    one = strike(lean=0.0, offset=offset)
    touch = first_touch(one)
    assert touch is not None
    out = places(one, float(touch.state[0]) + 0.02)
    assert np.maximum(out[:, 0], 0.0).sum() == pytest.approx(0.02, rel=0.05)


def test_mirror_image() -> None:
    """Heading and offset turned over give the same forces, with sway and yaw turned over."""
    one = strike(heading=25.0, offset=0.4)
    other = replace(one, heading=-one.heading, offset=-one.offset)
    a, b = (integrate_strike(s, 2.4e6, until=1.0) for s in (one, other))
    assert b.first_peak == pytest.approx(a.first_peak, rel=1e-9)
    assert b.slow_tension.high == pytest.approx(a.slow_tension.high, rel=1e-7)
    turned = np.array([1, -1, -1, 1, -1, -1, 1, -1, -1, 1, -1, -1])
    assert b.state[:12] == pytest.approx(turned * a.state[:12], rel=1e-4, abs=1e-5)


def test_elastic_contact_without_friction_gives_all_work_back() -> None:
    run = integrate_strike(strike(heading=30.0, friction=0.0, restitution=1.0), 2.4e6, until=0.5)
    assert run.touches >= 1
    energy = 0.5 * strike().log.mass * 2.5**2
    assert run.work.friction == 0.0
    assert abs(run.work.contact) < 1e-3 * energy


def test_contact_and_friction_only_take() -> None:
    run = integrate_strike(strike(heading=30.0, friction=0.4, restitution=0.4), 2.4e6, until=0.5)
    assert run.work.contact < 0.0
    assert run.work.friction < 0.0


def test_restitution_of_a_central_blow() -> None:
    """Speeds part at e times the closing speed; from the trace before drag matters."""
    one = strike(lean=0.0, offset=0.0, friction=0.0, restitution=0.5)
    run = integrate_strike(one, 61e6, until=0.0055, steps_in_contact=400)
    log = one.log.in_plane()
    parting = run.state[9] - (log.along * run.state[3] + 2.5)
    assert run.end == "time up"
    assert parting == pytest.approx(0.5 * 2.5, rel=0.02)


def test_order_of_convergence() -> None:
    """Nearly of second order: the release falls within a step, which the fourth order of the rest cannot mend."""
    one = strike(lean=0.0, offset=0.0, friction=0.0, restitution=1.0)
    touch = first_touch(one)
    assert touch is not None
    ends = []
    for count in (50, 100, 200, 3200):
        steps = steps_for(one, 2.4e6, count, 0.06)
        run = run_from(one, touch, touch.state, one.plane(2.4e6), steps._replace(coarse=steps.fine))
        ends.append(run.state[9])
    errors = np.abs(np.array(ends[:3]) - ends[3])
    assert errors[0] / errors[2] > 4.0**1.4
    assert errors[0] < 2e-5


def test_work_balances_in_still_water_and_stream() -> None:
    for speed, through in ((0.0, 2.0), (2.5, 2.5), (2.5, 1.8)):
        one = replace(strike(heading=40.0), stream_speed=speed, speed=through)
        assert abs(integrate_strike(one, 2.4e6, until=2.0).work.off) < 1e-3


def test_a_pressed_log_sticks_below_the_angle_of_friction() -> None:
    """On a fixed face that leans 15 degrees, friction 0.5 holds an end that 0.1 lets go."""
    held, free = (
        integrate_strike(strike(lean=15.0, fixed=True, friction=mu, restitution=0.1), 2.4e6, until=3.0)
        for mu in (0.5, 0.1)
    )
    assert np.ptp(held.trace_log[held.trace_time > 1.0, 1]) < 0.35 * np.ptp(free.trace_log[:, 1])


def test_a_free_log_keeps_drifting() -> None:
    """Far from the machine, at the stream's speed, nothing acts."""
    one = strike(offset=0.0)
    z, plane = one.start(), one.plane(2.4e6)
    z[0] = -50.0
    notes, trace = np.empty(kernel.NOTES), np.empty((10, kernel.TRACE))
    kernel.run(z, plane, steps_for(one, 2.4e6, 60, 2.0), trace, notes)
    assert z[0] == pytest.approx(-45.0, abs=1e-9)
    assert notes[kernel.TOUCHES] == 0.0
    assert np.max(np.abs(z[6:12])) < 1e-12


def test_a_log_turns_broadside_in_a_stream() -> None:
    """Held back slightly askew, the ideal-flow moment turns it away from the stream."""
    one = replace(strike(heading=20.0), speed=0.5)
    z, plane = one.start(), one.plane(2.4e6)
    z[0] = -100.0
    kernel.run(z, plane, steps_for(one, 2.4e6, 60, 1.0), np.empty((5, kernel.TRACE)), np.empty(kernel.NOTES))
    assert z[2] > radians(20.0)


def test_upright_log_is_lighter_away_from_its_middle() -> None:
    log = Log(4.0, 0.3, 950.0, "upright")
    middle, top = log.in_plane(2.0), log.in_plane(0.2)
    assert 1.0 / middle.across == pytest.approx(log.mass + log.displaced_mass, rel=1e-12)
    turning = (log.mass + log.displaced_mass) * 16.0 / 12.0 + log.mass * 0.09 / 16.0
    assert top.across - middle.across == pytest.approx(1.8**2 / turning, rel=1e-12)
    assert machine().span > 0.6
