"""Channel potential: order of the time steps, scaling, ends of the range, bad input."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place import channel_flow, channel_potential
from racewright.place.channel import quick_potential
from racewright.place.channel_flow import loaded

CHANNEL = {"length": 2e4, "area": 4e4, "depth": 40.0, "density": 1025.0}


def test_time_steps_converge_fast(monkeypatch):
    """Mean cube at l0 = 3 without machines: errors fall at third order or better (|Q| has a kink)."""
    found = []
    for steps in (60, 120, 240, 1920):
        monkeypatch.setattr(channel_flow, "STEPS", steps)
        found.append(float(loaded(3.0)[2][0]))
    error = np.abs(np.array(found[:3]) - found[3])
    assert error[2] < 1e-6
    assert math.log2(error[0] / error[2]) / 2.0 > 2.5


def test_flow_without_drag_is_a_sine():
    load, peak, cube = loaded(0.0)
    assert load[0] == 0.0
    assert peak[0] == pytest.approx(1.0, abs=1e-6)
    assert cube[0] == pytest.approx(4.0 / (3.0 * math.pi), rel=1e-4)


def test_peak_flow_falls_with_every_machine_and_power_has_one_top():
    found = channel_potential(1.0, **CHANNEL)
    assert (np.diff(found.flow) < 0.0).all()
    top = int(np.argmax(found.power))
    assert (np.diff(found.power[: top + 1]) > 0.0).all()
    assert (np.diff(found.power[top:]) < 0.0).all()
    assert found.potential == found.power[top]
    assert "MW" in found.remarks[0].text


def test_without_friction_potential_goes_with_head_squared():
    free = CHANNEL | {"drag_coefficient": 0.0, "exit_loss": 0.0}
    one, two = (channel_potential(a, **free).potential for a in (1.0, 2.0))
    assert two == pytest.approx(4.0 * one, rel=1e-6)


def test_quick_rule_brackets_the_channel():
    found = channel_potential(1.0, **CHANNEL)
    low, _, high = quick_potential(1.0, found.natural_flow, 1025.0)
    assert low <= found.potential <= high


@pytest.mark.parametrize("bad", [{"length": 0.0}, {"depth": math.nan}, {"density": 1.0}, {"period": 60.0}])
def test_bad_numbers_are_refused(bad):
    with pytest.raises(InputError):
        channel_potential(1.0, **(CHANNEL | bad))
    with pytest.raises(InputError):
        quick_potential(math.inf, 1e5, 1025.0)
