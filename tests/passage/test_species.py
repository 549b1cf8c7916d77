"""Classes of fish and their dose-responses."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.passage.barotrauma import decompression
from racewright.passage.species import fish_class, fish_classes


def test_every_class_says_where_it_comes_from():
    for fish in fish_classes().values():
        assert fish.safety.status
        assert fish.safety.edition == "2026-11"
        assert fish.shortest < fish.longest
        assert fish.borrowed == (not fish.name.startswith("salmonid"))


def test_an_edit_wants_a_source_and_keeps_what_it_replaces():
    fish = fish_class("eel", fish_classes({"eel": {"height_share": 0.09, "source": "catch of spring 2031"}}))
    assert fish.girth_share == 0.09
    assert "height_share 0.07" in fish.replaces
    assert fish.safety.status == "user's own: catch of spring 2031"


def test_a_new_class():
    own = {
        "title": "Bream",
        "length": [0.1, 0.5],
        "width_share": 0.1,
        "height_share": 0.33,
        "pressure": {"kind": "points", "ratio": [2.0], "dead": [0.3], "source": "own tank", "status": "measured"},
        "source": "own tank",
    }
    fish = fish_class("bream", fish_classes({"bream": own}))
    assert fish.borrowed
    assert fish.pressure is not None
    assert fish.pressure.at(2.0).value == pytest.approx(0.3)


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        ({"height_share": 0.1}, "no source"),
        ({"height": 0.1, "source": "x"}, "no field 'height'"),
        ({"height_share": math.nan, "source": "x"}, "height_share"),
        ({"length": [0.5, 0.1], "source": "x"}, "above"),
        ({"length": 0.5, "source": "x"}, "shortest and longest"),
        ({"pressure": {"kind": "logit", "slope": 2.0}, "source": "x"}, "own source and status"),
        ({"pressure": {"kind": "guess", "source": "x", "status": "y"}, "source": "x"}, "kind"),
        (
            {"pressure": {"kind": "points", "ratio": [2.0, 3.0], "dead": [0.5, 0.4], "source": "x", "status": "y"},
             "source": "x"},
            "growing ratios",
        ),
        ({"shear": {"harmless": -1.0, "source": "x", "status": "y"}, "source": "x"}, "harmless"),
        ({"shear": {"harmless": 9.0, "deadly": 5.0, "source": "x", "status": "y"}, "source": "x"}, "above deadly"),
    ],
)  # fmt: skip
def test_refused_edits(edit, said):
    with pytest.raises(InputError, match=said):
        fish_classes({"perch": edit})


def test_an_unknown_class_names_those_there_are():
    with pytest.raises(InputError, match="salmonid_smolt"):
        fish_class("dragon")


@given(st.sampled_from(sorted(fish_classes())), st.floats(0.2, 50.0), st.floats(1.0, 4.0))
@settings(max_examples=200, deadline=None)
def test_pressure_deaths_are_chances_that_grow(name, ratio, factor):
    fish = fish_class(name)
    soft, hard = (decompression(fish, 2e5, 2e5 / r).death for r in (ratio, ratio * factor))
    for one in (soft, hard):
        assert 0.0 <= one.low <= (one.low if one.value is None else one.value) <= one.high <= 1.0
    assert hard.low >= soft.low
    assert hard.high >= soft.high
    if soft.value is not None and hard.value is not None:
        assert hard.value >= soft.value - 1e-15


@given(st.sampled_from(sorted(fish_classes())), st.floats(0.0, 3000.0), st.floats(0.0, 3000.0))
@settings(max_examples=200, deadline=None)
def test_shear_deaths_are_chances_that_grow(name, rate, more):
    shear = fish_class(name).shear
    if shear is None:
        return
    soft, hard = shear.at(rate), shear.at(rate + more)
    assert 0.0 <= soft.low <= soft.high <= 1.0
    assert hard.low >= soft.low
    assert hard.high >= soft.high


def test_no_value_says_why():
    found = decompression(fish_class("perch"), 4e5, 1e5)
    assert found.death.value is None
    assert found.death.low == 0.7
    assert "end at ratio 3" in found.death.reason
    assert "no response" in decompression(fish_class("sturgeon"), 2e5, 1e5).death.reason


def test_the_published_aims_are_told():
    assert decompression(fish_class("bass"), 1.0e5, 0.65e5).rules_met == (True, False)
    assert decompression(fish_class("bass"), 1.0e5, 0.5e5).rules_met == (False, False)


@pytest.mark.parametrize("pressures", [(1.2e5, 0.0), (1.2e5, -5e3), (0.0, 1e5), (math.nan, 1e5), (1e5, math.inf)])
def test_pressures_below_zero_absolute_are_refused(pressures):
    with pytest.raises(InputError, match="absolute"):
        decompression(fish_class("salmonid_smolt"), *pressures)
