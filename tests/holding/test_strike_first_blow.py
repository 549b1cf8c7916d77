"""First blow: range, places, lean, doors; never a slow tension in its place."""

from __future__ import annotations

from dataclasses import fields, replace
from math import atan, degrees, inf, radians

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.holding.contact_table import ContactStiffness
from racewright.holding.log_body import Log
from racewright.holding.strike_figure import SafetyFigure
from racewright.holding.strike_first_blow import first_blow, head_on_blow
from racewright.holding.strike_machine import Outline, StruckMachine, guarded_outline
from racewright.holding.strike_run import integrate_strike
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_slow import SlowResponse, slow_response
from racewright.holding.strike_tether import Tether, front_tether
from racewright.holding.strike_touch import first_touch
from racewright.holding.strike_two_phase import TwoPhase, two_phase
from tests.holding.machines import machine, strike


def test_the_force_is_a_range_without_a_middle() -> None:
    blow = first_blow(strike())
    assert blow.force.value is None
    assert len(blow.blows) == 2
    assert blow.force.low == blow.blows[0].force < blow.blows[1].force == blow.force.high
    assert 4.0 < blow.force.high / blow.force.low < 6.0
    assert all(text for text in (blow.force.safety.caution, blow.force.safety.basis, blow.force.safety.edition))
    assert any(r.about == "contact stiffness" for r in blow.remarks)


def test_the_tether_has_no_part_in_it() -> None:
    one = strike()
    other = replace(one, tether=Tether(1.0))
    assert first_blow(one).force == first_blow(other).force


@pytest.mark.parametrize(
    ("lean", "heading", "offset", "place"),
    [(0.0, 0.0, 0.0, "front"), (0.0, 30.0, 2.0, "lip"), (50.0, 0.0, 0.0, "nose"), (50.0, 0.0, 0.35, "guard face")],
)
def test_places(lean: float, heading: float, offset: float, place: str) -> None:
    blow = first_blow(strike(lean=lean, heading=heading, offset=offset))
    assert blow.place == place


def test_lean_and_angle_of_friction() -> None:
    """On the guard's face the lean is the guard's; the log slides only where it passes atan(friction)."""
    for friction, slides in ((0.3, True), (0.6, False)):
        blow = first_blow(strike(lean=25.0, friction=friction))
        assert degrees(blow.lean) == pytest.approx(25.0, abs=1e-6)
        assert blow.friction_angle == pytest.approx(atan(friction))
        assert blow.slides is slides
        assert any(r.about == "lean" for r in blow.remarks) is not slides


def test_oblique_and_glancing_blows_are_weaker() -> None:
    """A steeper guard and a blow off the log's middle lower the force."""
    end_on = [first_blow(strike(lean=lean)).force.low for lean in (5.0, 25.0, 45.0, 65.0)]
    assert np.all(np.diff(end_on) < 0.0)
    across = [first_blow(strike(lean=0.0, heading=80.0, offset=off)).force.low for off in (0.4, 1.5, 2.5)]
    assert np.all(np.diff(across) < 0.0)


def test_side_on_added_mass_makes_the_middle_worse_than_end_on() -> None:
    """End-on the log's own mass acts, square across with its middle on the nose twice that."""
    one = strike(offset=0.0, friction=0.0)
    m, big = one.log.mass, 500.0
    end, side = first_blow(one), first_blow(replace(one, heading=radians(90.0)))
    assert end.effective_mass == pytest.approx(m * big / (m + big), rel=1e-9)
    assert side.effective_mass == pytest.approx(2.0 * m * big / (2.0 * m + big), rel=1e-9)


def test_an_end_that_rolls_round_the_lip() -> None:
    """Struck 12 cm off the axis, of 15 cm radius, the plain form is 18 % high, the one with turning within 1.6 %."""
    one = strike(lean=0.0, offset=0.72, friction=0.1, restitution=0.9)
    blow = first_blow(one)
    run = integrate_strike(one, 2.4e6, until=0.2)
    plain = (2.0 * 2.4e6 * blow.work) ** 0.5
    assert plain / run.first_peak == pytest.approx(1.18, abs=0.02)
    assert blow.blows[0].force == pytest.approx(run.first_peak, rel=0.016)


def test_two_lips_at_once_share() -> None:
    """Square across a blunt front both lips are struck: the springs add, the force is that of twice the stiffness."""
    blow = first_blow(strike(lean=0.0, heading=90.0, offset=0.0, friction=0.0))
    log = strike().log.mass
    mass = 2.0 * log * 500.0 / (2.0 * log + 500.0)
    assert blow.blows[0].force == pytest.approx(2.5 * (2.0 * 2.4e6 * mass) ** 0.5, rel=1e-9)
    run = integrate_strike(strike(lean=0.0, heading=90.0, offset=0.0, friction=0.0), 2.4e6, until=0.2)
    assert 2.0 * run.first_peak == pytest.approx(blow.blows[0].force, rel=0.01)


def test_another_place_within_the_blow_is_said() -> None:
    blow = first_blow(strike(lean=0.0, heading=89.5, offset=0.0))
    assert 0.0 < blow.next_gap < 0.03
    assert any(r.about == "second place" for r in blow.remarks)


def test_energy_lost() -> None:
    """Without friction (1 - e^2) of the work stored is lost."""
    blow = first_blow(strike(friction=0.0, restitution=0.3))
    assert blow.lost == pytest.approx((1.0 - 0.09) * blow.work, rel=1e-9)
    assert blow.blows[0].duration == pytest.approx(0.65 * blow.blows[0].half_period, rel=1e-12)


def test_a_log_that_passes_by() -> None:
    one = strike(offset=3.0)
    assert first_touch(one) is None
    with pytest.raises(NoAnswerError, match="without touching"):
        first_blow(one)
    with pytest.raises(NoAnswerError, match="without touching"):
        integrate_strike(one, 2.4e6)


def test_slow_tension_is_never_called_a_force_of_the_blow() -> None:
    slow = slow_response(450.0, 500.0, 2.5, Tether(20e3, 3e3, 9e3))
    both = two_phase(strike())
    for figure in (slow.tension, both.slow_tension):
        assert figure.name == "slow line tension"
        assert "not the force at the place struck" in figure.safety.caution
    assert both.first.force.name == "first-blow force"
    assert both.first.force.low > 3.0 * both.slow_tension.high
    for kind in (SlowResponse, TwoPhase):
        names = " ".join(f.name for f in fields(kind))
        assert "impact" not in names
        assert "slow_force" not in names


def test_slow_response_says_when_the_line_parts() -> None:
    slow = slow_response(450.0, 500.0, 2.5, Tether(20e3, 3e3, 9e3))
    assert slow.tension.low == pytest.approx(3e3 + slow.plastic.rise)
    assert slow.parts
    assert slow.remarks[0].severity == "warning"
    assert not slow_response(450.0, 500.0, 2.5, Tether(20e3, 3e3)).parts


@pytest.mark.parametrize("bad", [float("nan"), inf, -1.0])
def test_doors(bad: float) -> None:
    with pytest.raises(InputError):
        head_on_blow(bad, 500.0, 2.5)
    with pytest.raises(InputError):
        head_on_blow(450.0, 500.0, bad)
    with pytest.raises(InputError):
        Log(6.0, bad, 800.0)
    with pytest.raises(InputError):
        replace(strike(), friction=bad)
    with pytest.raises(InputError):
        replace(strike(), stream_speed=bad)
    with pytest.raises(InputError):
        replace(machine(), surge_mass=bad)
    with pytest.raises(InputError):
        Tether(bad)
    with pytest.raises(InputError):
        integrate_strike(strike(), bad)
    with pytest.raises(InputError):
        first_blow(strike(), stiffnesses=(ContactStiffness("x", bad, "", "", "", ""),))
    with pytest.raises(InputError):
        front_tether(2e4, bad, 20.0, 0.3)


def test_outline_must_be_convex_and_anticlockwise() -> None:
    good = guarded_outline(0.6, 0.7, radians(50.0))
    with pytest.raises(InputError, match="anticlockwise"):
        Outline(good.corner[::-1], good.corner_name, good.face_name)
    with pytest.raises(InputError, match="lean"):
        guarded_outline(0.6, 0.7, radians(89.0))
    with pytest.raises(InputError, match="attitude"):
        Log(6.0, 0.3, 800.0, "sideways")  # type: ignore[arg-type]


def test_tether_forms() -> None:
    """A line goes slack when its pretension is used up; a law rules the stream's direction; a matrix couples."""
    x, force = Tether(1e4, 2e3).law_rows()
    assert np.interp([-0.5, -0.2, 0.3], x, force) == pytest.approx([-2e3, -2e3, 3e3])
    law = np.array([[-1.0, -500.0], [0.0, 0.0], [0.5, 1e3], [1.0, 5e3]])
    assert Tether(1e4, law=law).along == pytest.approx(2e3)
    with pytest.raises(InputError, match="law"):
        Tether(1e4, law=law[:, ::-1][::-1])
    with pytest.raises(InputError, match="symmetric"):
        Tether(np.array([[1e4, 0.0, 5.0], [0.0, 1e2, 0.0], [0.0, 0.0, 1e2]]))
    one = front_tether(2e4, 1e3, 20.0, 0.5)
    assert np.asarray(one.stiffness)[1:, 1:] == pytest.approx(np.array([[50.0, -25.0], [-25.0, 512.5]]))


def test_too_many_steps_are_refused() -> None:
    with pytest.raises(InputError, match="steps"):
        integrate_strike(strike(), 1e9, until=3600.0, steps_in_contact=5000)


def test_an_integrated_force_carries_its_caution() -> None:
    run = integrate_strike(strike(), 2.4e6, until=0.2)
    assert run.first_force.high == run.first_peak
    assert "factor of 25" in run.first_force.safety.basis
    assert run.first_force.safety.caution
    assert run.slow_tension.safety.caution != run.first_force.safety.caution


def test_a_struck_figure_is_frozen() -> None:
    figure = first_blow(strike()).force
    assert isinstance(figure, SafetyFigure)
    with pytest.raises(AttributeError):
        figure.low = 0.0  # type: ignore[misc]
    assert isinstance(machine(), StruckMachine)
    assert isinstance(strike(), Strike)
