"""What becomes of logs, on tethers and on a fixed machine; logs across lines and against a line."""

from __future__ import annotations

from dataclasses import replace
from math import radians

import numpy as np
import pytest

from racewright.errors import Cancelled, InputError
from racewright.holding.strike_fixed import beside_fixed
from racewright.holding.strike_line import across_lines, line_points, line_strike
from racewright.holding.strike_outcome import outcome_by_friction, strike_outcome
from racewright.holding.strike_two_phase import two_phase
from tests.holding.machines import strike


def test_endings() -> None:
    """Far off it passes; along a steep guard it glances off; square on a blunt front it stays."""
    assert strike_outcome(strike(offset=3.0)).ending == "passes by"
    glancing = strike_outcome(strike(lean=65.0, friction=0.1))
    assert glancing.ending == "glances off"
    assert glancing.time_to_clear is not None
    assert 0.0 < glancing.time_to_clear < 10.0
    held = strike_outcome(strike(lean=0.0, heading=90.0, offset=0.0), until=30.0)
    assert held.ending == "pinned"
    assert held.time_to_clear is None
    assert held.touch_time > 25.0


def test_held_up_and_cleared() -> None:
    found = strike_outcome(strike(lean=25.0, friction=0.1))
    assert found.ending == "pushed aside and cleared"
    assert found.shift > 0.1
    assert found.slow_tension is not None
    assert found.slow_tension.high > strike().tether.pretension


def test_a_machine_turned_far_is_said() -> None:
    """A log square across and off the middle turns the machine beyond what a stiffness about its rest can tell."""
    found = strike_outcome(strike(heading=90.0, offset=1.0, friction=0.5), until=30.0)
    assert found.yaw > 0.5
    assert [r.about for r in found.remarks] == ["yaw"]
    assert strike_outcome(strike(lean=0.0, heading=90.0, offset=0.0), until=5.0).remarks == ()


def test_friction_decides() -> None:
    """On a guard of 35 degrees friction 0.1 lets the log go and 0.5, nearly its tangent, does not within 30 s."""
    found = outcome_by_friction(strike(lean=35.0), (0.1, 0.5), until=30.0)
    assert [one.friction for one in found.outcomes] == [0.1, 0.5]
    assert found.depends
    assert found.outcomes[0].time_to_clear is not None
    assert found.outcomes[1].time_to_clear is None
    assert found.time_per_friction is None


def test_more_friction_takes_longer() -> None:
    found = outcome_by_friction(strike(lean=65.0), (0.05, 0.15, 0.25))
    times = [one.time_to_clear for one in found.outcomes]
    assert None not in times
    assert np.all(np.diff(np.array(times, dtype=float)) > 0.0)
    assert found.time_per_friction is not None
    assert found.time_per_friction > 0.0


def test_sensitivity_can_be_cancelled() -> None:
    def stop(_done: float) -> None:
        raise Cancelled("stopped")

    with pytest.raises(Cancelled):
        outcome_by_friction(strike(), tick=stop)


def test_beside_a_fixed_machine() -> None:
    free, fixed = beside_fixed(strike(lean=50.0, friction=0.1), until=20.0)
    assert (free.held, fixed.held) == ("on tethers", "rigidly fixed")
    assert free.force.low < fixed.force.low
    assert free.taken_up < fixed.taken_up
    assert free.slow_tension is not None
    assert fixed.slow_tension is None


def test_two_phase_says_parting_and_keeps_answers_apart() -> None:
    found = two_phase(strike())
    assert found.slow_tension.low <= found.slow_tension.high
    assert found.parts is (found.slow_tension.high > 9e3)
    weak = replace(strike(), tether=replace(strike().tether, capacity=3000.0))
    assert two_phase(weak).parts
    assert any(r.about == "parting" for r in two_phase(weak).remarks)


def test_line_struck_square_across() -> None:
    """Energy across the line: m v^2/2 = T0 g y^2/2 + EA g^2 y^4/(8 L), and T = T0 + EA g y^2/(2 L)."""
    hit = line_strike(450.0, 2.0, radians(90.0), 5e3, 20.0, 1e6, 0.9)
    g, y = 4.0 / 20.0, hit.deflection
    assert 0.5 * 5e3 * g * y**2 + 1e6 * g**2 * y**4 / 160.0 == pytest.approx(900.0, rel=1e-9)
    assert hit.tension.high == pytest.approx(5e3 + 1e6 * g * y**2 / 40.0, rel=1e-9)
    assert hit.line_force == pytest.approx(hit.tension.high * g * y, rel=1e-9)
    assert hit.first_force == pytest.approx(2.0 * 2.0 * (5e3 * 0.9) ** 0.5, rel=1e-12)
    assert hit.tension.name == "line tension"
    assert not hit.slides


def test_line_strike_limits() -> None:
    """Near an end a line is stiffer but as tense; along the stream it feels little and the log slides."""
    middle = line_strike(450.0, 2.0, radians(90.0), 5e3, 20.0, 1e6, 0.9)
    near = line_strike(450.0, 2.0, radians(90.0), 5e3, 20.0, 1e6, 0.9, place=0.1)
    assert near.tension.high == pytest.approx(middle.tension.high, rel=1e-12)
    assert near.line_force > middle.line_force
    assert near.deflection < middle.deflection
    along = line_strike(450.0, 2.0, radians(15.0), 5e3, 20.0, 1e6, 0.9, capacity=5e3)
    assert along.tension.high < middle.tension.high
    assert along.slides
    assert along.parts
    with pytest.raises(InputError):
        line_strike(450.0, 2.0, radians(90.0), 5e3, 20.0, 1e6, float("nan"))


def test_where_lines_pass_a_depth() -> None:
    anchor = np.array([[-20.0, -5.0, -6.0], [-20.0, 5.0, -6.0], [-20.0, 0.0, -6.0]])
    fairlead = np.array([[0.0, -0.5, 0.0], [0.0, 0.5, 0.0], [0.0, 0.0, -2.0]])
    points = line_points(anchor, fairlead, 1.0)
    assert points == pytest.approx(np.array([[-10.0 / 3.0, -1.25], [-10.0 / 3.0, 1.25]]))


def test_logs_across_lines() -> None:
    """On two lines it stays with its middle between them; on one it swings off; askew rest lets it slide."""
    two = [[-5.0, -1.0], [-5.0, 1.0]]
    square = radians(90.0)
    caught = across_lines(two, 6.0, 0.3, square, 0.25)
    assert caught.lying == "caught across lines"
    assert caught.share == pytest.approx((0.375, 0.625))
    assert across_lines(two, 6.0, 0.3, square, 1.5).lying == "swings off one line"
    assert across_lines(two, 6.0, 0.3, square, 1.02).lying == "caught across lines"
    assert across_lines(two, 6.0, 0.3, 0.0, 0.0).lying == "clear of the lines"
    assert (
        across_lines([[-5.0, -1.0], [-3.8, 1.0]], 6.0, 0.3, square, 0.0, friction=0.4).lying == "slides off the lines"
    )
    found = strike_outcome(strike(heading=90.0, offset=0.2), lines=two)
    assert found.ending == "caught across lines"
    assert found.run is None
