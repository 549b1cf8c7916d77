"""Classes of debris, wrapping, fates, doses."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.passage.debris import debris_class, debris_classes
from racewright.passage.fate import DoseCount, fates
from racewright.passage.wrap import hold_chance
from tests.passage.machine import machine


def fate(name, dose=None, rows=None, **edit):
    one = machine()
    table = debris_classes({name: {**edit, "source": "test"}} if edit else None)
    doses = None if dose is None else {name: dose}
    (found,) = fates(one.vanes, one.blades, rows or one.rows, [table[name]], doses=doses)
    return found


def test_every_class_is_a_piece_and_says_its_status():
    for one in debris_classes().values():
        for i in (0, 1):
            assert one.length[i] >= one.width[i] >= one.thickness[i] > 0.0
        assert one.status
        assert one.edition == "2026-11"


def test_an_edit():
    one = debris_class("twig", debris_classes({"twig": {"length": 0.3, "source": "rake of May"}}))
    assert one.length == (0.3, 0.3)
    assert "length [0.05, 0.4]" in one.replaces
    assert one.status == "user's own: rake of May"


@pytest.mark.parametrize(
    ("edit", "said"),
    [
        ({"length": 0.3}, "no source"),
        ({"weight": 0.3, "source": "x"}, "no field 'weight'"),
        ({"width": 9.0, "source": "x"}, "length >= width"),
        ({"length": [0.4, 0.1], "source": "x"}, "above largest"),
        ({"length": math.nan, "source": "x"}, "length"),
        ({"friction": -1.0, "source": "x"}, "friction"),
    ],
)
def test_refused_edits(edit, said):
    with pytest.raises(InputError, match=said):
        debris_classes({"twig": edit})


def test_unknown_and_new_classes():
    with pytest.raises(InputError, match="water_weed"):
        debris_class("anvil")
    with pytest.raises(InputError, match="lacks title"):
        debris_classes({"anvil": {"length": 0.4, "source": "x"}})


def test_a_small_stone_passes_and_a_log_lodges():
    stone, log = fate("stone"), fate("log")
    assert stone.outcome == ("passes", "passes")
    assert stone.staying.high == 0.0
    assert log.outcome[1] == "lodges"
    assert log.free_share[1] == 0.0
    assert log.staying.high == 1.0


def test_a_long_twig_may_lodge_and_a_longer_one_more_likely():
    shares = [fate("twig", length=length).free_share[0] for length in (0.05, 0.4, 2.0)]
    assert shares[0] == 1.0
    assert shares == sorted(shares, reverse=True)
    assert fate("twig", length=0.6).outcome[0] == "may lodge"


def test_weed_wraps_unless_every_edge_is_swept():
    assert fate("water_weed").outcome == ("wraps", "wraps")
    aslant = 0.5 * math.pi - 1.05 * math.atan(0.3)
    swept = [replace(row, slant=np.full(row.slant.shape, aslant)) for row in machine().rows]
    shed = fate("water_weed", rows=swept)
    assert shed.outcome == ("passes", "passes")
    assert shed.wrap_chance == (0.0, 0.0)
    assert shed.blow_chance[0] > 0.0


@given(st.floats(0.01, 5.0), st.floats(0.0, 0.1), st.floats(0.0, 0.5 * math.pi), st.floats(0.0, 2.0))
@settings(max_examples=200, deadline=None)
def test_holding_is_a_chance(length, edge, slant, friction):
    assert 0.0 <= hold_chance(length, edge, slant, friction) < 1.0


def test_holding_by_simulation():
    """A strand caught at a random place: held while the longer tail over the shorter is below e^(pi mu)."""
    friction = 0.4
    caught = np.random.default_rng(7).uniform(0.0, 1.0, 400_000)
    ratio = np.maximum(caught, 1.0 - caught) / np.minimum(caught, 1.0 - caught)
    stays = np.mean(ratio < math.exp(math.pi * friction))
    assert hold_chance(1.0, 0.01, 0.5 * math.pi, friction) == pytest.approx(stays, abs=0.003)


def test_no_friction_holds_nothing_and_a_short_strand_slips_off():
    assert hold_chance(1.0, 0.01, 0.5 * math.pi, 0.0) == 0.0
    assert hold_chance(0.03, 0.01, 0.5 * math.pi, 0.5) == 0.0
    assert hold_chance(0.04, 0.01, 0.5 * math.pi, 0.5) > 0.0


def test_a_dose_overrides_geometry():
    found = fate("stick", DoseCount(120, 3, "model, run 14"))
    assert found.measured is not None
    assert found.staying.value == pytest.approx(0.025)
    assert found.staying.low < 0.025 < found.staying.high < 0.08
    assert "counted" in found.staying.basis
    assert "model, run 14" in found.staying.basis
    assert found.safety.status == "measured by the user"
    assert "3 of 120" in found.words


def test_none_of_many_leaves_a_limit():
    found = fate("stick", DoseCount(60, 0, "model, run 2"))
    assert found.staying.value == 0.0
    assert found.staying.high == pytest.approx(1.0 - 0.025 ** (1.0 / 60.0), rel=1e-9)


@pytest.mark.parametrize(
    "count", [(0, 0, "x"), (5, 6, "x"), (5, -1, "x"), (5.5, 1, "x"), (5, 1, " "), (True, 1, "x")]
)
def test_refused_doses(count):
    with pytest.raises(InputError):
        DoseCount(*count)


def test_a_dose_of_another_class_is_refused():
    one = machine()
    with pytest.raises(InputError, match="'leaf'"):
        fates(one.vanes, one.blades, one.rows, [debris_class("stone")], doses={"leaf": DoseCount(5, 1, "x")})
