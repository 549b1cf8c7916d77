"""Dose cards and outcomes: counts by card, and stories that contradict themselves."""

from __future__ import annotations

from dataclasses import replace

import pytest

from racewright.errors import InputError
from racewright.trials import DoseCard, Piece, dose_table

STICKS = DoseCard("sticks", "stick", 0.2, 0.012, 0.01, 850.0, 10, 3.0, 0.1, 0.4)
NUTS = DoseCard("nuts", "nut", 0.03, 0.028, 0.025, 1050.0, 5, 2.0)


def test_outcomes_are_counted_by_card():
    pieces = [
        Piece("sticks", "passed"),
        Piece("sticks", "passed"),
        Piece("sticks", "struck and passed", "rotor"),
        Piece("sticks", "struck and passed", "vane row"),
        Piece("sticks", "lodged", "vane row", "rotor reversed", 95.0),
        Piece("sticks", "lodged", "inlet", "by itself", 12.0),
        Piece("sticks", "missed the duct"),
        Piece("nuts", "lodged", "rotor", "by hand", 400.0),
    ]
    sticks, nuts = dose_table([STICKS, NUTS], pieces)
    assert (sticks.seen, sticks.unseen, sticks.missed, sticks.entered) == (7, 3, 1, 6)
    assert (sticks.passed, sticks.struck, sticks.lodged) == (2, 2, 2)
    assert (sticks.struck_vanes, sticks.struck_rotor) == (1, 1)
    assert (sticks.lodged_vanes, sticks.lodged_rotor, sticks.lodged_elsewhere) == (1, 0, 1)
    assert (sticks.by_itself, sticks.by_reversing, sticks.longest_held) == (1, 1, 95.0)
    assert (nuts.lodged_rotor, nuts.by_hand, nuts.not_cleared, nuts.unseen) == (1, 1, 0, 4)


@pytest.mark.parametrize(
    ("words", "keywords"),
    [
        ("none of", {"outcome": "vanished"}),
        ("cannot stand with place", {"outcome": "passed", "where": "rotor"}),
        ("cannot stand with place", {"outcome": "lodged", "cleared": "by hand"}),
        ("cannot be cleared", {"outcome": "lodged", "where": "rotor"}),
        ("cannot be cleared", {"outcome": "passed", "cleared": "by hand"}),
        ("held", {"outcome": "passed", "held": 3.0}),
    ],
)
def test_a_story_that_contradicts_itself_is_refused(words, keywords):
    with pytest.raises(InputError, match=words):
        Piece("sticks", **keywords)


@pytest.mark.parametrize(
    ("words", "change"),
    [
        ("falling sizes", {"length": 0.001}),
        ("wet density", {"wet_density": float("nan")}),
        ("1 or more", {"count": 0}),
        ("upstream", {"upstream": 0.0}),
        ("release place", {"below_surface": -1.0}),
    ],
)
def test_a_card_that_cannot_be_is_refused(words, change):
    with pytest.raises(InputError, match=words):
        replace(STICKS, **change)


def test_pieces_and_cards_must_fit():
    with pytest.raises(InputError, match="belongs to dose"):
        dose_table([NUTS], [Piece("sticks", "passed")])
    with pytest.raises(InputError, match="share a name"):
        dose_table([NUTS, NUTS], [])
    with pytest.raises(InputError, match="6 pieces noted but 5"):
        dose_table([NUTS], [Piece("nuts", "passed")] * 6)
