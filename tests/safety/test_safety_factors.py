"""Safety factors: sources on every row, edits with a source, required strength."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError, NoAnswerError
from racewright.required_strength import required_strength
from racewright.safety_factors import safety_factor, safety_factors

LOADS = st.floats(0.0, 1e8)


def test_every_row_says_where_it_comes_from() -> None:
    table = safety_factors()
    for key, row in table.items():
        assert row.key == key
        assert row.standard
        assert row.item
        assert row.conditions
        assert row.safety.edition
        assert row.safety.status
        assert row.safety.caution
        assert row.standard in row.safety.basis
        if row.practice_range:
            assert row.factor == max(row.practice_range)
    assert {row.group for row in table.values()} == {"line", "anchor", "load", "material", "fatigue"}
    assert {"ultimate", "accidental", "fatigue", "serviceability", "intact", "one line lost"} <= {
        row.limit_state for row in table.values()
    }


def test_an_edit_keeps_what_it_replaces() -> None:
    table = safety_factors({"iso_intact_dynamic": {"factor": 2.2, "source": "insurer's letter"}})
    row = table["iso_intact_dynamic"]
    assert row.factor == 2.2
    assert row.safety.status == "user's own: insurer's letter"
    assert "factor 1.67" in row.replaces
    assert "in place of factor 1.67" in row.safety.basis
    assert safety_factor("iso_intact_dynamic").factor == 1.67
    assert table["iso_one_lost_dynamic"].replaces == ""


def test_an_edited_factor_loses_the_range_of_practice() -> None:
    assert safety_factors()["tidal_steel"].practice_range == (1.1, 1.25)
    assert safety_factors({"tidal_steel": {"factor": 1.15, "source": "me"}})["tidal_steel"].practice_range == ()


def test_a_new_row() -> None:
    row = safety_factors(
        {
            "club": {
                "standard": "club rule 7",
                "item": "line",
                "group": "line",
                "limit_state": "intact",
                "factor": 5,
                "source": "club",
            }
        }
    )["club"]
    assert row.single() == 5.0
    assert row.replaces == ""


@pytest.mark.parametrize(
    ("edit", "words"),
    [
        ({"factor": 2.0}, "no source"),
        ({"factor": 2.0, "source": "  "}, "no source"),
        ({"factor": math.nan, "source": "me"}, "factor of the safety factor"),
        ({"factor": math.inf, "source": "me"}, "factor of the safety factor"),
        ({"factor": -1.0, "source": "me"}, "factor of the safety factor"),
        ({"factor": True, "source": "me"}, "factor of the safety factor"),
        ({"factor": "two", "source": "me"}, "factor of the safety factor"),
        ({"share": 1.2, "source": "me"}, "share of the safety factor"),
        ({"colour": "red", "source": "me"}, "no field 'colour'"),
        ({"group": "hats", "source": "me"}, "wants a group"),
    ],
)
def test_bad_edits(edit: dict[str, object], words: str) -> None:
    with pytest.raises(InputError, match=words):
        safety_factors({"ufc_wire": edit})


def test_a_new_row_that_lacks_fields() -> None:
    with pytest.raises(InputError, match="lacks standard, item, group, limit_state"):
        safety_factors({"mine": {"factor": 2.0, "source": "me"}})


def test_an_unknown_key() -> None:
    with pytest.raises(InputError, match=r"'nothing'.*ufc_wire"):
        safety_factor("nothing")


def test_a_standard_without_a_factor_answers_nothing() -> None:
    with pytest.raises(NoAnswerError, match="state one of your own"):
        safety_factor("ufc_deadweight").single()
    with pytest.raises(NoAnswerError, match="gives no factor"):
        required_strength(safety_factor("iec_intact_and_damaged"), 1.0)


def test_two_factors_are_no_single_one() -> None:
    with pytest.raises(NoAnswerError, match="mean and another on the dynamic part"):
        safety_factor("dnv_uls_class_1").single()


@given(LOADS, LOADS, st.sampled_from(["ufc_nylon_wet", "iso_intact_dynamic", "dnv_uls_class_2"]))
def test_required_strength_is_linear_and_above_the_load(mean: float, dynamic: float, key: str) -> None:
    row = safety_factor(key)
    found = required_strength(row, mean, dynamic)
    assert found.strength >= found.factored_load >= found.load
    assert required_strength(row, 2.0 * mean, 2.0 * dynamic).strength == pytest.approx(2.0 * found.strength)
    parts = required_strength(row, mean).strength + required_strength(row, 0.0, dynamic).strength
    assert found.strength == pytest.approx(parts)
    assert found.safety == row.safety


@pytest.mark.parametrize("load", [-1.0, math.nan, math.inf])
def test_bad_loads(load: float) -> None:
    with pytest.raises(InputError, match="mean load"):
        required_strength(safety_factor("ufc_wire"), load)
    with pytest.raises(InputError, match="dynamic load"):
        required_strength(safety_factor("ufc_wire"), 1.0, load)
