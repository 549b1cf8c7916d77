"""Bands, sums, absorption, spreading, ambient."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.sound.absorption import ABSORPTIONS, absorption, sound_speed
from racewright.sound.ambient import ambient_bands, ambient_parts
from racewright.sound.bands import bandwidth, exposure_gain, level_sum, third_octaves
from racewright.sound.propagation import SPREADINGS, propagation_loss, spreading_loss
from racewright.sound.reach import Way
from racewright.sound.water_sound import FRESH, SEA, SoundWater


def test_bands_join_without_gap():
    """Upper edge of one is the lower of the next; ten to a decade."""
    middle = third_octaves()
    assert middle[0] == pytest.approx(10.0)
    assert middle[-1] == pytest.approx(1e5)
    assert middle[10] / middle[0] == pytest.approx(10.0)
    whole = bandwidth(middle).sum()
    assert whole == pytest.approx(1e5 * 10**0.05 - 10.0 * 10**-0.05, rel=1e-12)


def test_sums_of_levels():
    assert level_sum([60.0, 60.0]) == pytest.approx(60.0 + 10.0 * math.log10(2.0))
    assert level_sum([100.0, -400.0]) == pytest.approx(100.0)
    assert level_sum(np.array([[90.0, 90.0], [80.0, 70.0]]), axis=1).shape == (2,)


@given(st.floats(1.0, 1e6), st.floats(-1.0, 35.0), st.floats(0.0, 45.0), st.floats(0.0, 500.0), st.floats(6.5, 8.5))
@settings(max_examples=150, deadline=None)
def test_absorption_is_above_zero_and_grows_with_frequency(frequency, warm, salt, depth, acidity):
    water = SoundWater(273.15 + warm, salt, depth, acidity)
    for name in ABSORPTIONS:
        low, high = absorption(name, [frequency, min(1.5 * frequency, 1e6)], water)
        assert 0.0 < low <= high * (1.0 + 1e-12)


def test_salt_absorbs():
    for name in ABSORPTIONS:
        assert absorption(name, 1e4, SEA) > 10.0 * absorption(name, 1e4, FRESH)


@given(st.sampled_from(sorted(SPREADINGS)), st.floats(1.0, 1e5), st.floats(1.0, 10.0), st.floats(1.0, 200.0))
@settings(max_examples=100, deadline=None)
def test_loss_grows_with_distance(name, distance, factor, depth):
    near, far = (float(propagation_loss(name, r, 1e-4, depth)) for r in (distance, distance * factor))
    assert 0.0 <= near <= far


def test_mixed_lies_between_and_joins_at_one_depth():
    assert spreading_loss("mixed", 8.0, 8.0) == pytest.approx(20.0 * math.log10(8.0))
    mixed = spreading_loss("mixed", 500.0, 8.0)
    assert spreading_loss("cylindrical", 500.0) < mixed < spreading_loss("spherical", 500.0)


def test_reach_is_where_the_level_falls_to_the_target():
    way = Way("practical", None, np.array([0.0, 1e-3]))
    levels = np.array([150.0, 140.0])
    found = way.reach(levels, 110.0)
    assert way.total(levels, found) == pytest.approx(110.0, abs=1e-9)
    assert way.reach(levels, 160.0) == 1.0
    assert Way("cylindrical", None, np.array([0.0])).reach(np.array([150.0]), 80.0) == 1e6


def test_ambient_together_is_above_each_part():
    parts = ambient_parts(third_octaves(), 8.0, 0.5)
    for one in (parts.turbulence, parts.shipping, parts.wind, parts.thermal):
        assert np.all(parts.together >= one)
    assert np.all(ambient_parts(1000.0, 12.0, 0.5).wind > ambient_parts(1000.0, 3.0, 0.5).wind)
    assert ambient_bands(100.0, 5.0, 1.0) > ambient_bands(100.0, 5.0, 0.0)


def test_warm_salt_and_deep_water_carries_faster():
    assert sound_speed(SEA) > sound_speed(FRESH)
    assert sound_speed(SoundWater(293.15, 35.0)) > sound_speed(SEA)
    assert sound_speed(SoundWater(283.15, 35.0, 100.0)) > sound_speed(SEA)


def test_a_day_of_exposure():
    assert exposure_gain(86400.0) == pytest.approx(49.36514, abs=1e-5)


@pytest.mark.parametrize(
    "call",
    [
        lambda: third_octaves(20, 10),
        lambda: level_sum([]),
        lambda: level_sum([math.nan, 1.0]),
        lambda: absorption("guess", 1e3, SEA),
        lambda: absorption("ainslie_mccolm", math.nan, SEA),
        lambda: absorption("ainslie_mccolm", -1.0, SEA),
        lambda: SoundWater(math.nan, 35.0),
        lambda: SoundWater(283.15, -1.0),
        lambda: spreading_loss("mixed", 10.0),
        lambda: spreading_loss("straight", 10.0),
        lambda: spreading_loss("spherical", 0.5),
        lambda: spreading_loss("spherical", math.inf),
        lambda: ambient_parts(1000.0, -1.0, 0.5),
        lambda: ambient_parts(1000.0, 5.0, 1.5),
        lambda: exposure_gain(0.0),
    ],
)
def test_refused(call):
    with pytest.raises(InputError):
        call()
