"""S-N curves, mean stress and damage: laws, factors, basis, refusals."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError, NoAnswerError
from racewright.safety_factors import safety_factor
from racewright.strength.cycles import Cycles
from racewright.strength.damage import miner_sum, rainflow_damage
from racewright.strength.mean_stress import MEAN_STRESS_RULES, corrected_ranges
from racewright.strength.sn_curves import SNCurve, own_sn_curve, sn_curve

D = sn_curve("d_sea_protected")
SERIES = np.array([-2, 1, -3, 5, -1, 3, -4, 4, -2]) * 1e7
RANGES = st.floats(1e6, 1e9)
KEYS = [f"{c}_{w}" for c in ("d", "e", "f", "f1", "f3", "g") for w in ("air", "sea_protected", "sea_free")]


@given(RANGES, RANGES, st.sampled_from(KEYS))
def test_larger_ranges_fail_sooner(one, other, key):
    low, high = sorted((one, other))
    curve = sn_curve(key)
    assert curve.cycles_to_failure(high) <= curve.cycles_to_failure(low) * (1.0 + 2e-3)


@pytest.mark.parametrize("key", KEYS)
def test_packaged_curves_meet_at_their_break(key):
    """Within 0.1 % in range."""
    curve = sn_curve(key)
    assert curve.safety.status.startswith("from memory")
    if curve.break_cycles is None:
        assert "free corrosion" in curve.environment
        return
    at = math.log10(curve.break_cycles)
    assert (curve.log_a - at) / curve.slope == pytest.approx((curve.log_a_beyond - at) / curve.slope_beyond, abs=5e-4)


def test_water_never_helps():
    for c in ("d", "e", "f", "f1", "f3", "g"):
        for stress in (2e7, 1e8, 3e8):
            air, protected, free = (
                sn_curve(f"{c}_{w}").cycles_to_failure(stress) for w in ("air", "sea_protected", "sea_free")
            )
            assert air >= protected >= free


def test_nothing_fails_at_a_range_of_zero():
    assert D.cycles_to_failure(0.0) == np.inf
    assert miner_sum([0.0], [1e9], D) == 0.0


@given(st.lists(RANGES, min_size=1, max_size=8), st.floats(0.0, 1e6))
def test_miner_adds_up(ranges, count):
    counts = [count] * len(ranges)
    assert miner_sum(ranges, counts, D) == pytest.approx(sum(miner_sum([r], [count], D) for r in ranges))
    assert miner_sum(ranges, counts, D) >= 0.0


@given(st.floats(1.0, 3.0))
def test_slope_of_three(scale):
    """On the first line damage grows as the third power of range."""
    assert miner_sum([2e8 * scale], [1.0], D) == pytest.approx(scale**3 * miner_sum([2e8], [1.0], D))


@given(st.floats(1.0, 400.0), st.floats(-300.0, 300.0))
def test_mean_stress_rules_in_order(size, mean):
    """Tension makes ranges worse, compression is not credited; Gerber is milder than Goodman."""
    cycle = Cycles(np.array([size]), np.array([mean]), np.array([1.0]))
    plain, goodman, gerber = (corrected_ranges(cycle, rule, 470.0)[0] for rule in ("none", "goodman", "gerber"))
    watson = corrected_ranges(cycle, "smith_watson_topper")[0]
    assert plain == size
    assert plain <= gerber <= goodman
    assert watson >= plain * (1.0 - 1e-12)
    if mean <= 0.0:
        assert goodman == gerber == plain
        assert watson == pytest.approx(plain)


def test_mean_stress_by_hand():
    cycle = Cycles(np.array([100.0]), np.array([94.0]), np.array([1.0]))
    assert corrected_ranges(cycle, "goodman", 470.0) == pytest.approx([125.0])
    assert corrected_ranges(cycle, "gerber", 470.0) == pytest.approx([100.0 / 0.96])
    assert corrected_ranges(cycle, "smith_watson_topper") == pytest.approx([2.0 * math.sqrt(144.0 * 50.0)])


def test_the_rule_is_named_in_the_result():
    for rule, told in MEAN_STRESS_RULES.items():
        found = rainflow_damage(SERIES, D, mean_stress=rule, ultimate_strength=470e6)
        assert found.mean_stress == rule
        assert told in found.safety.basis
    assert any("counts it twice" in remark.text for remark in found.remarks)


def test_a_mean_at_the_ultimate_strength_has_no_life():
    with pytest.raises(NoAnswerError, match="breaks at its first load"):
        rainflow_damage([400e6, 500e6, 400e6, 500e6], D, mean_stress="goodman", ultimate_strength=420e6)


@given(st.floats(1.0, 2.0), st.integers(1, 4))
def test_damage_grows_with_stress_and_repetition(scale, times):
    one = rainflow_damage(SERIES, D)
    assert rainflow_damage(scale * SERIES, D).damage >= one.damage * (1.0 - 1e-12)
    block = np.concatenate([SERIES] + [SERIES[1:]] * (times - 1))
    closed = rainflow_damage(SERIES, D, ends="repeated").damage
    assert rainflow_damage(block, D, ends="repeated").damage == pytest.approx(times * closed)


def test_factors_on_damage_and_range():
    plain = rainflow_damage(SERIES, D, duration=60.0)
    on_damage = rainflow_damage(SERIES, D, duration=60.0, damage_factor=safety_factor("tidal_fatigue"))
    on_range = rainflow_damage(SERIES, D, range_factor=safety_factor("en_fatigue_strength"))
    assert on_damage.damage == plain.damage
    assert on_damage.design_damage == pytest.approx(3.0 * plain.damage)
    assert on_damage.life == pytest.approx(60.0 / (3.0 * plain.damage))
    assert on_damage.repeats == pytest.approx(plain.repeats / 3.0)
    assert on_range.corrected_range == pytest.approx(1.35 * plain.corrected_range)
    assert any("No safety factor" in remark.text for remark in plain.remarks)
    assert not any("No safety factor" in remark.text for remark in on_damage.remarks)
    assert "DNV type" in on_damage.safety.basis


def test_thick_plates():
    """50 mm, class D: (50/25)^0.2."""
    thick, thin = rainflow_damage(SERIES, D, thickness=0.05), rainflow_damage(SERIES, D, thickness=0.01)
    assert thick.corrected_range == pytest.approx(2.0**0.2 * thin.corrected_range)


def test_a_constant_series_does_no_damage():
    found = rainflow_damage([5e6, 5e6, 5e6], D, duration=60.0)
    assert found.damage == found.design_damage == 0.0
    assert found.repeats is None
    assert found.life is None
    assert any("constant" in remark.text for remark in found.remarks)


def test_low_cycle_fatigue_is_warned_of():
    assert any("low-cycle" in remark.about for remark in rainflow_damage(40.0 * SERIES, D).remarks)
    assert not any("low-cycle" in remark.about for remark in rainflow_damage(SERIES, D).remarks)


def test_basis_edition_status_and_caution_travel_with_it():
    found = rainflow_damage(SERIES, D)
    assert "ASTM E1049-85" in found.safety.basis
    assert "DNV-RP-C203" in found.safety.edition
    assert "from memory, 90 %" in found.safety.status
    assert "cracks" in found.safety.caution


def test_own_curve():
    curve = own_sn_curve("laminate", "sea water", 10.0, 24.0, "laminate test 7")
    assert curve.cycles_to_failure(100e6) == pytest.approx(1e4)
    assert curve.thickness_factor(1.0) == 1.0
    assert curve.safety.status == "user's own"
    with pytest.raises(InputError, match="wants a source"):
        own_sn_curve("laminate", "sea water", 10.0, 24.0, " ")
    with pytest.raises(InputError, match="miss each other"):
        own_sn_curve("weld", "air", 3.0, 12.0, "me", break_cycles=1e6, slope_beyond=5.0, log_a_beyond=15.0)
    with pytest.raises(InputError, match="give all three or none"):
        own_sn_curve("weld", "air", 3.0, 12.0, "me", break_cycles=1e6)


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_bad_numbers(bad):
    with pytest.raises(InputError, match="stress ranges"):
        D.cycles_to_failure([1e6, bad])
    with pytest.raises(InputError, match="counts"):
        miner_sum([1e6], [bad], D)
    with pytest.raises(InputError, match="thickness"):
        rainflow_damage(SERIES, D, thickness=bad)
    with pytest.raises(InputError, match="duration"):
        rainflow_damage(SERIES, D, duration=bad)
    with pytest.raises(InputError, match="slope"):
        own_sn_curve("weld", "air", bad, 12.0, "me")


def test_more_bad_inputs():
    with pytest.raises(InputError, match=r"'z_air'.*d_air"):
        sn_curve("z_air")
    with pytest.raises(InputError, match="'soderberg'"):
        rainflow_damage(SERIES, D, mean_stress="soderberg")
    with pytest.raises(InputError, match="wants the ultimate strength"):
        rainflow_damage(SERIES, D, mean_stress="goodman")
    with pytest.raises(InputError, match="wanted one for fatigue"):
        rainflow_damage(SERIES, D, damage_factor=safety_factor("ufc_wire"))
    with pytest.raises(InputError, match="one for each range"):
        miner_sum([1e6, 2e6], [1.0], D)
    with pytest.raises(InputError, match="log_a"):
        SNCurve("x", "x", "x", 3.0, math.nan, None, None, None, None, 0.0, D.safety)
