"""Auditory groups: never without an edition."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.sound.hearing import auditory_group, editions, pressure_thresholds, weighting


@pytest.mark.parametrize("edition", ["", "HF", None, 2018, "2019", math.nan])
def test_a_group_without_an_edition_is_refused(edition):
    with pytest.raises(InputError, match="edition"):
        auditory_group(edition, "HF")


def test_a_group_of_another_edition_is_refused():
    with pytest.raises(InputError, match="no group 'VHF'"):
        auditory_group("2018", "VHF")
    with pytest.raises(InputError, match="no group 'MF'"):
        auditory_group("2024", "MF")


def test_the_same_letters_are_other_animals():
    old, new = auditory_group("2018", "HF"), auditory_group("2024", "HF")
    assert old.shift_threshold != new.shift_threshold
    assert old.title != new.title or old.low_frequency != new.low_frequency
    assert auditory_group("2018", "MF").title.startswith("Mid")


def test_every_group_carries_edition_and_caution():
    assert editions() == ("2018", "2024")
    for edition, names in (("2018", "LF MF HF PW OW"), ("2024", "LF HF VHF PW OW")):
        for name in names.split():
            group = auditory_group(edition, name)
            assert group.safety.edition == edition
            assert edition in group.safety.basis
            assert "consent" in group.safety.caution
            assert group.injury_threshold == group.shift_threshold + 20.0


def test_weights_fall_away_from_the_peak():
    group = auditory_group("2024", "VHF")
    weights = weighting(group, np.array([1e2, 1e3, 1e4, 27e3]))
    assert np.all(np.diff(weights) > 0.0)
    assert weighting(group, 400e3) < -5.0


def test_pressure_thresholds_say_their_source():
    for one in pressure_thresholds():
        assert one.safety.basis
        assert one.safety.status
        assert one.safety.edition


@pytest.mark.parametrize("frequency", [0.0, -1.0, math.nan, math.inf])
def test_refused_frequencies(frequency):
    with pytest.raises(InputError, match="frequency"):
        weighting(auditory_group("2018", "LF"), frequency)
