"""What no machine has is warned of with the channel to blame; a lid has no Froude number; gaps are named."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.ledger.trials_unit_check import unit_remarks
from racewright.trials import Chunk, Rig, Settings, coefficients, reduce
from racewright.trials.impossible import impossible
from racewright.water import properties
from tests.trials.record import RATES, RIG, channels, values

WATER = properties(288.15, "fresh")
SOUND = coefficients(RIG, WATER, 1.5, 15.0, 4.0, 100.0, 1.2)
"""Coefficients of another window, which no warning may touch."""


def blamed(speed: float, rotor: float, torque: float, thrust: float) -> list[str]:
    numbers = coefficients(RIG, WATER, speed, rotor, torque, thrust, 1.2)
    sound, found = impossible([SOUND, numbers], channels())
    assert sound == []
    return [r.text.split("Look at the ")[1].removeprefix("unit and calibration of ") for r in found]


def test_a_wrong_sign_is_told() -> None:
    assert blamed(1.5, 15.0, -4.0, 100.0) == ["signs of torque and rotor_speed."]
    assert blamed(1.5, 15.0, 4.0, -100.0) == ["sign of thrust."]
    assert blamed(1.5, 15.0, -0.05, 100.0) == []  # a rotor let go is near nought, either way


def test_more_than_the_whole_frontal_area_can_take_is_told() -> None:
    most = 16.0 / 27.0 / (1.0 - SOUND.blockage) ** 2
    torque = 4.0 * most / SOUND.frontal_power_coefficient
    assert blamed(1.5, 15.0, 0.99 * torque, 100.0) == []
    (told,) = blamed(1.5, 15.0, 1.01 * torque, 100.0)
    assert told == "units and calibrations of speed and torque."


def test_the_channel_to_blame_is_named() -> None:
    sound = (1.5, 15.0, 4.0, 100.0)
    assert blamed(*sound) == []
    assert blamed(1.5, 15.0, 40.0, 100.0) == ["torque."]
    assert blamed(1.5, 15.0 * 9.55, 4.0 / 9.55, 100.0) == []
    assert blamed(1.5, 15.0 * 30.0, 4.0, 100.0) == ["rotor_speed."]
    assert blamed(1.5, 15.0, 4.0, 1000.0) == ["thrust."]
    assert blamed(0.3, 15.0, 4.0, 100.0) == ["speed."]


def test_a_unit_that_its_calibration_contradicts_is_warned_of() -> None:
    assert unit_remarks("shaft", "rotor_speed", "rpm", np.pi / 30.0) == []
    (told,) = unit_remarks("shaft", "rotor_speed", "rpm", 1.0)
    assert told.severity == "warning"
    assert told.text.startswith(
        "shaft is logged in rpm, of which one is 0.1047 rad/s, but its calibration makes 1 rad/s"
    )
    assert "9.55 times too much" in told.text
    assert unit_remarks("shaft", "torque", "mV", 12.0) == []
    assert unit_remarks("shaft", "torque", "N m", 1.02) == []
    assert len(unit_remarks("flow", "speed", "m/s", 0.01)) == 1
    assert unit_remarks("water", "temperature", "degC", 1.0, 288.15) == []
    assert "kelvin" in unit_remarks("water", "temperature", "degC", 1.0, 15.0)[0].text


def test_under_a_lid_there_is_no_froude_number_and_no_cavitation_number() -> None:
    free = coefficients(RIG, WATER, 1.5, 15.0, 4.0, 100.0, 1.2)
    lid = coefficients(replace(RIG, lid=True), WATER, 1.5, 15.0, 4.0, 100.0, 1.2)
    assert free.froude_number is not None
    assert (lid.froude_number, lid.cavitation_number, lid.cavitation_number_tip) == (None, None, None)
    assert lid.power_coefficient == free.power_coefficient
    share = RIG.annulus_area / (np.pi * RIG.blocked_radius**2)
    assert free.frontal_power_coefficient == pytest.approx(free.power_coefficient * share)


def test_a_rig_is_larger_than_its_model() -> None:
    for change in ({"channel_width": 0.5}, {"depth": 0.5}):
        with pytest.raises(InputError, match="is not inside a channel"):
            replace(RIG, **change)
    assert isinstance(replace(RIG, channel_width=0.51), Rig)


def test_gaps_of_the_series_are_named_with_their_channel() -> None:
    raw = values(180.0, 1)
    chunks = []
    for a in range(0, 180, 10):
        part = {role: v[round(a * RATES[role]) : round((a + 10) * RATES[role])] for role, v in raw.items()}
        missing = {"torque": np.ones(part["torque"].size, bool)} if a in (60, 70) else {}
        chunks.append(Chunk(float(a), part, missing))
    found = reduce(chunks, channels(), RIG, settings=Settings(window=20.0))
    assert [(g.start, g.end, g.channels) for g in found.series.gaps] == [(60.0, 80.0, ("torque",))]
    (told,) = [r.text for r in found.remarks if r.about == "series"]
    assert "gaps of 20 s in all" in told
    assert "60 to 80 s (torque)" in told


def test_gaps_name_their_channels_in_the_order_in_which_they_fail() -> None:
    raw = values(200.0, 1)
    chunks = []
    for a in range(0, 200, 10):
        part = {role: v[round(a * RATES[role]) : round((a + 10) * RATES[role])] for role, v in raw.items()}
        lost = {60: ["torque"], 70: ["rotor_speed", "torque"], 80: ["speed"], 190: ["thrust"]}.get(a, [])
        chunks.append(Chunk(float(a), part, {role: np.ones(part[role].size, bool) for role in lost}))
    gaps = reduce(chunks, channels(), RIG, settings=Settings(window=20.0)).series.gaps
    assert [(g.start, g.end, g.channels) for g in gaps] == [
        (60.0, 90.0, ("torque", "rotor_speed", "speed")),
        (190.0, 200.0, ("thrust",)),
    ]
