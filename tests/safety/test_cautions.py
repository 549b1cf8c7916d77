"""Cautions: complete, in words of ours, asked for by name."""

from __future__ import annotations

import pytest

from racewright.cautions import caution, cautions
from racewright.errors import InputError
from racewright.safety import safety_basis

HAZARDS = {
    "screening",
    "lifting",
    "water_work",
    "line_under_tension",
    "electricity",
    "moving_blades",
    "navigation",
    "flood_and_debris",
    "environment",
    "fish",
    "sound",
    "design_standard",
    "anchors",
    "structure",
    "fatigue",
}


def test_every_hazard_is_there_and_whole() -> None:
    assert {found.hazard for found in cautions()} == HAZARDS
    for found in cautions():
        assert found.title
        assert found.text.endswith(".")
        assert "\n" not in found.text
        assert "  " not in found.text
        assert found.defer_to
        assert found.status
        assert found.edition == "2026-11"


def test_a_caution_speaks_as_a_remark() -> None:
    remark = caution("lifting").remark("warning")
    assert remark.severity == "warning"
    assert remark.about == "lifting"
    assert "LOLER 1998 (UK)" in remark.text


def test_an_unknown_hazard_names_the_known_ones() -> None:
    with pytest.raises(InputError, match=r"'sharks'.*lifting"):
        caution("sharks")


def test_a_basis_carries_the_caution() -> None:
    basis = safety_basis("anchors", "statics", "closed form", "closed form")
    assert basis.caution == caution("anchors").sentence
    assert "Pull-test" in basis.caution
    assert (basis.basis, basis.edition, basis.status) == ("statics", "closed form", "closed form")
