"""The rotor map: exact scaling with speed, order of the interpolation, refusals."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError, NoAnswerError
from racewright.stage.rotor_map import rotor_loads
from tests.stage.rotors import RADIUS, humped_rotor, shaped_rotor, straight_rotor


def test_a_straight_rotor_is_met_everywhere() -> None:
    """Torque 100 U^2 (1 - x/4), thrust 400 U^2 (1 + x/10), roll 50 U^2 (x - 2), axial speed 1.2 U."""
    speed = np.array([0.3, 1.7, 3.9])
    x = np.array([0.0, 1.23, 4.2])
    loads = rotor_loads(straight_rotor(), speed, x * speed / RADIUS)
    assert loads.torque == pytest.approx(100.0 * speed**2 * (1.0 - x / 4.0), rel=1e-12)
    assert loads.thrust == pytest.approx(400.0 * speed**2 * (1.0 + 0.1 * x), rel=1e-12)
    assert loads.roll_moment == pytest.approx(50.0 * speed**2 * (x - 2.0), rel=1e-12)
    assert loads.shaft_power == pytest.approx(loads.torque * x * speed / RADIUS, rel=1e-12)
    assert loads.strike_speed == pytest.approx(speed * np.sqrt(1.44 + x**2), rel=1e-12)


def test_the_error_between_speeds_is_no_larger_than_between_ratios() -> None:
    """A coefficient that does not change with speed is scaled exactly: torque / U^2 is the same at any speed."""
    rotor = humped_rotor()
    ratio = np.linspace(0.0, 4.3, 37)
    at = [rotor_loads(rotor, u, ratio * u / RADIUS).torque / u**2 for u in (0.25, 0.6, 3.3)]
    assert at[1] == pytest.approx(at[0], rel=1e-12, abs=1e-10)
    assert at[2] == pytest.approx(at[0], rel=1e-12, abs=1e-10)


def test_halving_the_steps_divides_the_error_by_more_than_four() -> None:
    """Exact: c(x) = 80 exp(-x/2) - 5, monotone. Monotone slopes leave an error of third order inside."""
    worst = []
    for count in (12, 23, 45):
        rotor = shaped_rotor(lambda x: 80.0 * np.exp(-0.5 * x) - 5.0, count, 4.4, (1.0, 2.0))
        x = np.linspace(0.5, 4.0, 301)
        worst.append(np.max(np.abs(rotor.torque_at(1.5, 3.0 * x) / 2.25 - (80.0 * np.exp(-0.5 * x) - 5.0))))
    orders = np.log2(np.array(worst[:-1]) / worst[1:])
    assert np.all(orders > 2.5), orders
    assert worst[-1] < 2e-4 * 80.0


def test_outside_and_unanswered_are_refused_with_the_span() -> None:
    rotor = straight_rotor()
    for speed, turning in ((0.2, 1.0), (4.1, 1.0), (1.0, 8.9)):
        with pytest.raises(NoAnswerError, match=r"spans 0\.25 to 4 m/s and ratios 0 to 4\.4"):
            rotor_loads(rotor, speed, turning)
    known = rotor.answered.copy()
    known[:, :10] = False
    clogged = replace(rotor, answered=known, torque=np.where(known, rotor.torque, np.nan))
    with pytest.raises(NoAnswerError):
        rotor_loads(clogged, 1.0, 1.0 / RADIUS)
    assert rotor_loads(clogged, 1.0, 1.5 / RADIUS).torque[0] == pytest.approx(62.5, rel=1e-12)
    assert np.isnan(clogged.torque_at(1.0, 1.0 / RADIUS))


def test_bad_maps_and_speeds_are_refused() -> None:
    rotor = straight_rotor()
    with pytest.raises(InputError, match="torque"):
        replace(rotor, torque=rotor.torque[:, 1:])
    with pytest.raises(InputError, match="grow"):
        replace(rotor, stream_speed=rotor.stream_speed[::-1])
    with pytest.raises(InputError, match="answered"):
        replace(rotor, answered=rotor.answered[1:])
    with pytest.raises(InputError, match="stream speeds above 0"):
        rotor_loads(rotor, np.nan, 1.0)
