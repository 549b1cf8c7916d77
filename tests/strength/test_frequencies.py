"""Beams, vanes and blades, resonance: laws, order, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.machine.sections import section_points
from racewright.strength.beam_modes import beam_frequencies, beam_root, even_beam_frequency
from racewright.strength.resonance import resonance
from racewright.strength.section_area import section_area
from racewright.strength.span_modes import span_modes

RADIUS = [0.15, 0.30, 0.50]
SECTION = section_area(0.16 * section_points("circular_arc", 0.4, 0.12, 200))
POSITIVE = st.floats(0.01, 1e6)


@given(POSITIVE, POSITIVE, st.floats(0.1, 10.0), st.floats(0.1, 10.0), st.integers(1, 5))
def test_scaling_of_an_even_beam(stiffness, mass, length, scale, mode):
    one = even_beam_frequency(length, stiffness, mass, mode=mode)
    assert even_beam_frequency(length, scale * stiffness, mass, mode=mode) == pytest.approx(math.sqrt(scale) * one)
    assert even_beam_frequency(length, stiffness, scale * mass, mode=mode) == pytest.approx(one / math.sqrt(scale))
    assert even_beam_frequency(scale * length, stiffness, mass, mode=mode) == pytest.approx(one / scale**2)


@settings(max_examples=20)
@given(st.floats(0.2, 5.0), st.floats(1.05, 5.0), st.sampled_from(["one end", "both ends"]))
def test_stiffer_or_lighter_is_faster(end, more, support):
    """Stiffness or mass raised at the tip alone moves every frequency up or down."""

    def found(stiffness, mass):
        return beam_frequencies([0.0, 1.0], [1.0, stiffness], [1.0, mass], support=support, count=2, elements=12)

    assert np.all(found(more * end, 1.0) > found(end, 1.0))
    assert np.all(found(1.0, more * end) < found(1.0, end))


@given(st.floats(1e-3, 1e3), st.floats(1e-3, 1e9), st.floats(1e-3, 1e5))
def test_elements_scale_as_the_even_beam(length, stiffness, mass):
    found = beam_frequencies([0.0, length], [stiffness] * 2, [mass] * 2, count=1, elements=12)[0]
    assert found == pytest.approx(even_beam_frequency(length, stiffness, mass), rel=1e-5)


def test_a_held_tip_is_faster():
    free, held = (even_beam_frequency(1.0, 1.0, 1.0, support=s) for s in ("one end", "both ends"))
    assert held > 6.0 * free
    assert beam_root(1, "both ends") < beam_root(2, "both ends")


def test_water_lowers_a_blade():
    """Bronze blade 160 mm long, 12 % thick: strip of water beside the blade's own mass, even span."""
    found = span_modes(RADIUS, [SECTION] * 3, 115e9, 7640.0, 1000.0)
    own, water = 7640.0 * SECTION.area, 1000.0 * math.pi * (0.5 * SECTION.length) ** 2
    assert found.in_water / found.in_air == pytest.approx(np.full(3, math.sqrt(own / (own + water))), rel=1e-6)
    closed = even_beam_frequency(0.35, 115e9 * SECTION.principal_small, own + water)
    assert found.in_water[0] == pytest.approx(closed, rel=1e-6)
    assert found.safety.caution


def test_no_water_no_change_and_own_mass():
    dry = span_modes(RADIUS, [SECTION] * 3, 115e9, 7640.0, 0.0)
    assert dry.in_water == pytest.approx(dry.in_air)
    double = span_modes(RADIUS, [SECTION] * 3, 115e9, 7640.0, 0.0, mass_per_length=2.0 * dry.mass_per_length)
    assert double.in_air == pytest.approx(dry.in_air / math.sqrt(2.0))


def test_a_span_held_at_both_ends_says_so():
    found = span_modes(RADIUS, [SECTION] * 3, 115e9, 7640.0, 1000.0, support="both ends")
    assert any("hinged" in remark.text for remark in found.remarks)
    assert found.in_water[0] > span_modes(RADIUS, [SECTION] * 3, 115e9, 7640.0, 1000.0).in_water[0]


def test_resonance_by_hand():
    """5 blades, 7 vanes, 60 rpm to 120 rpm: blade passing 5 to 10 Hz, vane passing 7 to 14 Hz, rotor 1 to 2 Hz."""
    found = resonance({"blade": [12.0, 40.0]}, 2.0 * math.pi, 4.0 * math.pi, 5, 7, harmonics=1)
    by = {(m.mode, m.shaken_by): m for m in found.meetings}
    assert len(found.meetings) == 6
    assert by[(1, "vane passing")].separation == 0.0
    assert by[(1, "vane passing")].critical_speed == pytest.approx(2.0 * math.pi * 12.0 / 7.0)
    assert by[(1, "blade passing")].separation == pytest.approx(0.2)
    assert by[(1, "blade passing")].apart
    assert by[(2, "rotor")].separation == pytest.approx(19.0)
    assert (by[(2, "blade passing")].lowest, by[(2, "blade passing")].highest) == pytest.approx((5.0, 10.0))
    assert found.meetings[0].separation == 0.0
    assert [remark.severity for remark in found.remarks] == ["warning"]
    assert {m.shaken_by for m in found.meetings if m.direct} == {"rotor", "vane passing"}


def test_what_only_the_water_carries_is_a_caution():
    """A blade at the blades' own passing, a duct at that of vanes which stand still beside it."""
    speeds = (2.0 * math.pi, 2.0 * math.pi)
    own = resonance({"blade": [5.0]}, *speeds, 5, 7, harmonics=1)
    assert [(r.severity, "water" in r.text) for r in own.remarks] == [("caution", True)]
    duct = resonance({"duct": [7.0]}, *speeds, 5, 7, harmonics=1)
    assert [r.severity for r in duct.remarks] == ["caution"]
    swept = resonance({"duct": [5.0]}, *speeds, 5, 7, harmonics=1)
    assert [r.severity for r in swept.remarks] == ["warning"]


def test_resonance_below_the_range_and_multiples():
    found = resonance({"vane": [4.0]}, 2.0 * math.pi, 4.0 * math.pi, 5, 7, harmonics=4)
    first = next(m for m in found.meetings if (m.shaken_by, m.multiple) == ("blade passing", 1))
    assert first.separation == pytest.approx(0.2)
    fourth = next(m for m in found.meetings if (m.shaken_by, m.multiple) == ("rotor", 4))
    assert fourth.separation == 0.0
    assert "4 x rotor" in " ".join(remark.text for remark in found.remarks)


def test_far_apart_is_said_and_margins_are_named():
    found = resonance({"duct ring": [500.0]}, 5.0, 10.0, 5, 7)
    assert found.remarks[0].severity == "note"
    assert found.safety.status == "common practice, no source"
    assert resonance({"duct ring": [500.0]}, 5.0, 10.0, 5, 7, margin=0.1).safety.status == "user's own"


@given(st.floats(0.1, 1e3), st.floats(0.1, 100.0), st.floats(1.0, 3.0))
def test_separation_is_a_ratio(natural, slow, ratio):
    """All speeds and frequencies times ten: the same separations."""
    one = resonance({"blade": [natural]}, slow, ratio * slow, 5, 7)
    ten = resonance({"blade": [10.0 * natural]}, 10.0 * slow, 10.0 * ratio * slow, 5, 7)
    assert [m.separation for m in ten.meetings] == pytest.approx([m.separation for m in one.meetings], abs=1e-9)
    assert all(m.separation >= 0.0 for m in one.meetings)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0, 0.0])
def test_bad_numbers(bad):
    with pytest.raises(InputError, match="length"):
        even_beam_frequency(bad, 1.0, 1.0)
    with pytest.raises(InputError, match="stiffness"):
        even_beam_frequency(1.0, bad, 1.0)
    with pytest.raises(InputError, match="mass per length"):
        even_beam_frequency(1.0, 1.0, bad)
    with pytest.raises(InputError, match="stiffness"):
        beam_frequencies([0.0, 1.0], [bad, 1.0], [1.0, 1.0])
    with pytest.raises(InputError, match="elasticity"):
        span_modes(RADIUS, [SECTION] * 3, bad, 7640.0, 1000.0)
    with pytest.raises(InputError, match="frequencies of the blade"):
        resonance({"blade": [bad]}, 1.0, 2.0, 5, 7)
    with pytest.raises(InputError, match="slowest rotor speed"):
        resonance({"blade": [1.0]}, bad, 2.0, 5, 7)


def test_more_bad_inputs():
    with pytest.raises(InputError, match="above the fastest"):
        resonance({"blade": [1.0]}, 3.0, 2.0, 5, 7)
    with pytest.raises(InputError, match="no natural frequency"):
        resonance({}, 1.0, 2.0, 5, 7)
    with pytest.raises(InputError, match="give one each"):
        span_modes(RADIUS, [SECTION] * 2, 1e9, 1e3, 1e3)
    with pytest.raises(InputError, match="must grow"):
        beam_frequencies([0.0, 0.0], [1.0, 1.0], [1.0, 1.0])
    with pytest.raises(InputError, match="support"):
        beam_root(1, "hinged")  # type: ignore[arg-type]
    with pytest.raises(InputError, match="the mode"):
        beam_root(0, "one end")
