"""Step-up of efficiency: limits, chains, refusals, and the forms beside each other."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from racewright import growth
from racewright.errors import InputError
from racewright.growth.step_up import step_up
from racewright.growth.step_up_forms import STEP_UPS, SizePair, step_up_forms

EFFICIENCY = st.floats(0.05, 0.999)
REYNOLDS = st.floats(1e3, 1e10)


def test_the_room_shows_it() -> None:
    assert growth.step_up is step_up


@given(EFFICIENCY, REYNOLDS)
def test_equal_reynolds_numbers_give_no_gain(efficiency: float, reynolds: float) -> None:
    found = step_up(efficiency, reynolds, reynolds)
    assert (found.hydraulic_efficiency, found.gain) == (efficiency, 0.0)
    for form in step_up_forms(SizePair(efficiency, reynolds, reynolds, 1.0)):
        assert form.gain == pytest.approx(0.0, abs=1e-15), form.name


@given(EFFICIENCY, REYNOLDS, REYNOLDS, st.floats(0.1, 0.99))
def test_gain_has_the_sign_of_the_step_and_ends_below_the_standing_losses(
    efficiency: float, first: float, second: float, share: float
) -> None:
    found = step_up(efficiency, first, second, scalable_share=share)
    assert found.gain * (second - first) >= 0.0
    standing = found.scalable_loss * (1.0 - share) / share
    assert found.hydraulic_efficiency <= 1.0 - standing + 1e-12 < 1.0 + 1e-12
    assert step_up(efficiency, first, 1e10, scalable_share=share).hydraulic_efficiency < 1.0


@given(st.floats(0.5, 0.99), st.floats(1e5, 1e9), st.floats(1e5, 1e9), st.floats(1e5, 1e9))
def test_two_steps_are_one(efficiency: float, first: float, middle: float, last: float) -> None:
    """d is the same at every Reynolds number of one machine, so the way does not matter."""
    halfway = step_up(efficiency, first, middle).hydraulic_efficiency
    assume(halfway >= 0.05)
    by_two = step_up(halfway, middle, last).hydraulic_efficiency
    assert by_two == pytest.approx(step_up(efficiency, first, last).hydraulic_efficiency, abs=1e-12)


def test_the_reference_is_only_a_unit() -> None:
    """With no standing losses the reference Reynolds number drops out: 1 - eta goes with Re^-0.16."""
    for reference in (1e5, 7e6, 1e9):
        found = step_up(0.9, 1e6, 3.2e7, scalable_share=1.0, reference_reynolds=reference)
        assert 1.0 - found.hydraulic_efficiency == pytest.approx(0.1 * 32.0**-0.16, rel=1e-12)


def test_small_models_are_remarked() -> None:
    assert step_up(0.9, 1e6, 1e7).remarks == ()
    (told,) = step_up(0.9, 9e5, 1e7).remarks
    assert told.severity == "caution"
    assert "9e+05" in told.text


@pytest.mark.parametrize("bad", [math.nan, math.inf, 0.0, -1.0, True])
@pytest.mark.parametrize(
    "key", ["hydraulic_efficiency", "reynolds", "other_reynolds", "scalable_share", "reference_reynolds"]
)
def test_refused(key: str, bad: float) -> None:
    good = {"hydraulic_efficiency": 0.9, "reynolds": 4e6, "other_reynolds": 4e7}
    with pytest.raises(InputError) as told:
        step_up(**{**good, key: bad})
    assert told.value.key == key


def test_an_efficiency_of_one_is_refused() -> None:
    with pytest.raises(InputError, match="wanted"):
        step_up(1.0, 4e6, 4e7)


def test_forms_bracket_each_other() -> None:
    """A river unit to a tidal one: all gain; the form by diameter gives most, since speed grows too."""
    forms = step_up_forms(SizePair(0.92, 4e6, 6.8e7, 14.0))
    assert [form.name for form in forms] == list(STEP_UPS)
    gains = {form.name: form.gain for form in forms}
    assert all(0.015 < gain < 0.035 for gain in gains.values())
    assert gains["IEC 60193, adjusted blades"] > gains["IEC 60193, fixed blades"]
    assert max(gains, key=lambda name: gains[name]) == "Moody"
    with pytest.raises(InputError, match="diameter_ratio"):
        step_up_forms(SizePair(0.92, 4e6, 6.8e7, 0.0))
