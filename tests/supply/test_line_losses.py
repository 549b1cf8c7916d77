"""Cable and converter: both routes agree, limits, refusals."""

from __future__ import annotations

import math
import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError, NoAnswerError
from racewright.machine.drive_generator import efficiency_of_losses
from racewright.supply.cable import Cable, cable_from_sender, cable_to_taker
from racewright.supply.converter import Converter

LINE = Cable(300.0, 16e-6, 230.0, "single phase")
BRIDGE = Converter(5000.0, 0.01, 0.01, 0.04)


@given(st.floats(0.0, 15e3), st.sampled_from(["direct", "single phase", "three phase"]))
def test_what_is_sent_for_a_power_delivers_it(power: float, kind) -> None:
    line = replace(LINE, kind=kind)
    there = cable_to_taker(line, [power])
    back = cable_from_sender(line, there.sent)
    assert back.received == pytest.approx([power], abs=1e-8)
    assert back.voltage == pytest.approx(there.voltage)
    assert there.sent == pytest.approx(there.received + there.loss)


def test_three_phases_lose_a_sixth_at_the_same_voltage_and_metal_of_one() -> None:
    """2 R against R at the same line voltage."""
    one, three = (cable_from_sender(replace(LINE, kind=kind), [5e3]) for kind in ("single phase", "three phase"))
    assert one.loss == pytest.approx(2.0 * three.loss)


def test_lagging_current_loses_more() -> None:
    even, lagging = (cable_from_sender(replace(LINE, power_factor=f), [3e3]) for f in (1.0, 0.8))
    assert lagging.loss == pytest.approx(even.loss / 0.64)
    assert lagging.drop == pytest.approx(even.drop / 0.8)


def test_more_than_the_cable_carries_is_told_with_the_most_it_does() -> None:
    most = 230.0**2 / (4.0 * 2.0 * LINE.resistance)
    assert cable_to_taker(LINE, [0.999 * most]).voltage[0] < 0.55 * 230.0
    with pytest.raises(NoAnswerError, match=re.escape(f"no more than {most:.4g} W")):
        cable_to_taker(LINE, [1.001 * most])
    with pytest.raises(NoAnswerError, match="whole voltage"):
        cable_from_sender(LINE, [4.1 * most])


def test_cautions_travel() -> None:
    few, many = (cable_from_sender(LINE, [p]).remarks for p in (1e3, 6e3))
    assert [r.about for r in few] == ["cable"]
    assert [r.about for r in many] == ["cable", "voltage drop"]
    assert "licensed" in few[0].text


@given(st.floats(1e-6, 1.0))
def test_the_converter_gives_back_what_its_efficiency_says(x: float) -> None:
    into = 5000.0 * (x + 0.01 + 0.01 * x + 0.04 * x * x)
    assert BRIDGE.output([into]) == pytest.approx([5000.0 * x], abs=1e-8)
    efficiency = efficiency_of_losses(np.array([x]), BRIDGE.fixed, BRIDGE.proportional, BRIDGE.quadratic)
    assert BRIDGE.output([into]) == pytest.approx(into * efficiency, rel=1e-6)


def test_the_converter_stops_at_rated_power_and_below_its_idle_loss() -> None:
    assert BRIDGE.output([0.0, 49.0, 50.0, 1e6]) == pytest.approx([0.0, 0.0, 0.0, 5000.0])
    ideal = Converter(5000.0, 0.0, 0.0, 0.0)
    assert ideal.output([0.0, 1234.0, 6000.0]) == pytest.approx([0.0, 1234.0, 5000.0])


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: replace(LINE, length=-1.0), "length"),
        (lambda: replace(LINE, conductor_area=0.0), "area"),
        (lambda: replace(LINE, voltage=math.nan), "voltage"),
        (lambda: replace(LINE, kind="two phase"), "wanted 'direct'"),
        (lambda: replace(LINE, kind="direct", power_factor=0.9), "power factor"),
        (lambda: replace(LINE, power_factor=0.0), "power factor"),
        (lambda: replace(LINE, temperature=20.0), "150 to 500"),
        (lambda: cable_from_sender(LINE, [-1.0]), "power sent"),
        (lambda: cable_to_taker(LINE, [np.inf]), "power taken"),
        (lambda: cable_to_taker(replace(LINE, power_factor=0.9), [1.0]), "power factor of 1"),
        (lambda: Converter(0.0, 0.0, 0.0, 0.0), "rated power"),
        (lambda: Converter(1.0, 2.0, 0.0, 0.0), "fixed"),
        (lambda: BRIDGE.output([-1.0]), "power into"),
    ],
)
def test_bad_input_is_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()
