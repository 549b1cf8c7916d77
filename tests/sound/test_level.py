"""The whole level: received, ambient, ranges, one uncertainty."""

from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.safety import safety_basis
from racewright.sound.level import level
from racewright.sound.source import SoundSource, Tone
from racewright.sound.water_sound import FRESH, SEA

BASIS = safety_basis("sound", "stated", "-", "user's own")


def source(level_=(150.0,), frequency=(1000.0,), tones=(), uncertainty=6.0) -> SoundSource:
    """A stated source."""
    return SoundSource(
        "stated", np.array(frequency), np.array(level_), tones, uncertainty, "stated by the test", (), BASIS
    )


def test_received_is_source_less_loss():
    found = level(source(), [10.0, 100.0], FRESH)
    assert found.received[:, 0] == pytest.approx([135.0, 120.0], abs=0.01)
    assert found.broadband == pytest.approx(found.received[:, 0])
    assert found.excess == pytest.approx(found.received - found.ambient)


def test_one_uncertainty_of_two_parts():
    found = level(source(), [10.0, 100.0], FRESH)
    assert [part.half_width for part in found.uncertainty_parts] == pytest.approx([6.0, 10.0])
    assert found.uncertainty == pytest.approx(math.hypot(6.0, 10.0))
    told = level(source(), 100.0, FRESH, way_uncertainty=3.0)
    assert told.uncertainty == pytest.approx(math.hypot(6.0, 3.0))


def test_ranges_hold_their_order_and_shrink_with_the_threshold():
    found = level(source((180.0,)), 100.0, FRESH, groups=[("2018", "HF"), ("2024", "VHF")])
    for one in found.thresholds:
        assert one.distance_low <= one.distance <= one.distance_high
        assert one.edition
        assert one.safety.caution
    shift, injury = found.thresholds[:2]
    assert (shift.edition, shift.group) == ("2018", "HF")
    assert shift.distance > injury.distance
    assert {one.reference for one in found.thresholds} == {"dB re 1 uPa2 s, weighted", "dB re 1 uPa, rms"}


def test_a_quiet_machine_reaches_no_threshold():
    found = level(source((60.0,)), 100.0, FRESH)
    assert all(one.distance == 1.0 for one in found.thresholds)
    assert "nowhere beyond 1 m" in found.thresholds[0].words


def test_a_shorter_exposure_reaches_less_far():
    day, hour = (level(source((170.0,)), 10.0, FRESH, duration=t).thresholds[0] for t in (86400.0, 3600.0))
    assert hour.distance < day.distance
    assert hour.level_at_one_metre == pytest.approx(day.level_at_one_metre - 10.0 * math.log10(24.0))


@given(st.floats(60.0, 200.0), st.floats(0.0, 20.0))
@settings(max_examples=25, deadline=None)
def test_louder_reaches_farther(loud, more):
    soft, hard = (level(source((one,)), 100.0, FRESH) for one in (loud, loud + more))
    assert hard.audible_distance >= soft.audible_distance
    for a, b in zip(soft.thresholds, hard.thresholds, strict=True):
        assert b.distance >= a.distance


def test_a_tone_is_added_to_its_band():
    plain = level(source((100.0, 100.0), (100.0, 125.89254)), 10.0, FRESH)
    loud = level(source((100.0, 100.0), (100.0, 125.89254), (Tone("x", 124.0, 100.0, ""),)), 10.0, FRESH)
    assert loud.received[0, 0] == pytest.approx(plain.received[0, 0])
    assert loud.received[0, 1] == pytest.approx(plain.received[0, 1] + 10.0 * math.log10(2.0))
    lost = level(source((100.0,), (100.0,), (Tone("slow", 3.0, 160.0, ""),)), 10.0, FRESH)
    assert lost.broadband_source == pytest.approx(100.0)
    assert any("slow" in one.text for one in lost.remarks)


def test_audible_where_a_band_meets_the_ambient():
    found = level(source((120.0,)), 10.0, FRESH, ambient=[75.0])
    assert found.audible_distance == pytest.approx(1000.0, rel=0.01)
    assert found.ambient_basis == "measured by the user"
    assert not any(one.about == "ambient" for one in found.remarks)
    assert any(one.about == "ambient" for one in level(source(), 10.0, FRESH).remarks)


def test_laws_of_the_way():
    losses = {
        name: float(level(source(), 100.0, FRESH, spreading=name, water_depth=10.0).received[0, 0])
        for name in ("spherical", "practical", "cylindrical", "mixed")
    }
    assert losses == pytest.approx(
        {"spherical": 110.0, "practical": 120.0, "cylindrical": 130.0, "mixed": 120.0}, abs=0.01
    )
    sea, fresh = (level(source((150.0,), (1e5,)), 500.0, water).broadband[0] for water in (SEA, FRESH))
    assert sea < fresh - 10.0


def test_cautions_and_published_levels_travel_along():
    found = level(source(), 10.0, FRESH, cavitates=True)
    assert any(one.about == "cavitation" and one.severity == "warning" for one in found.remarks)
    assert any("62600-40" in one.text for one in found.remarks)
    assert any(one.low == 118.0 and one.high == 152.0 for one in found.published)
    assert all(one.caution and one.edition for one in found.safety)


def test_finite_numbers_only():
    found = level(source((100.0, 90.0), (100.0, 1e6)), [1.0, 1e6], SEA)
    for field in dataclasses.fields(found):
        value = getattr(found, field.name)
        if isinstance(value, float | np.ndarray):
            assert np.all(np.isfinite(value))


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"groups": ["HF"]}, "edition"),
        ({"groups": [("HF",)]}, "edition"),
        ({"groups": [("", "HF")]}, "edition"),
        ({"groups": [("2018", "VHF")]}, "no group"),
        ({"distance": 0.2}, "distance"),
        ({"distance": math.nan}, "distance"),
        ({"duration": math.nan}, "duration"),
        ({"ambient": [70.0, 70.0]}, "ambient"),
        ({"spreading": "mixed"}, "depth"),
        ({"spreading": "guess"}, "law of spreading"),
        ({"absorbed": "guess"}, "absorption"),
        ({"way_uncertainty": -1.0}, "way_uncertainty"),
    ],
)
def test_refused(more, said):
    arguments = {"distance": 100.0} | more
    with pytest.raises(InputError, match=said):
        level(source(), arguments.pop("distance"), FRESH, **arguments)
