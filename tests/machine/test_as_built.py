"""Rows as built: what was measured, laid over the design."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.machine.as_built import Measurement, as_built
from racewright.machine.given_row import given_row
from racewright.machine.row import Row
from tests.machine.rows import straight, table

Floats = NDArray[np.float64]
DESIGN = given_row(table(), kind="blades", count=5, place_x=0.4, hub_radius=0.15, wall_radius=0.5, clearance=0.005)


def _measured(**change: object) -> Measurement:
    columns: dict[str, object] = {"part": "R-017", "radius": np.array([0.2, 0.45])}
    return Measurement(**{**columns, **change})  # type: ignore[arg-type]


def _design_at(radius: Floats, key: str) -> Floats:
    return np.asarray(np.interp(radius, DESIGN.radius, getattr(DESIGN, key)))


def test_what_is_built_as_drawn_changes_nothing() -> None:
    radius = np.array([0.2, 0.45])
    built = as_built(
        DESIGN,
        _measured(
            chord=_design_at(radius, "chord"),
            stagger=_design_at(radius, "stagger"),
            thickness=_design_at(radius, "thickness"),
            clearance=DESIGN.clearance,
        ),
    )
    for key in ("radius", "chord", "stagger", "camber", "thickness"):
        assert getattr(built.row, key) == pytest.approx(getattr(DESIGN, key), abs=1e-15)
    assert [one.quantity for one in built.deviations] == ["chord", "stagger", "thickness", "clearance"]
    assert {one.severity for one in built.remarks} == {"note"}


def test_differences_are_laid_over_the_designs_own_shape() -> None:
    """+2 degrees at 0.2 m and -1 at 0.45: linear between, held beyond; the design's curvature stays."""
    radius = np.array([0.2, 0.45])
    off = np.radians([2.0, -1.0])
    built = as_built(DESIGN, _measured(stagger=_design_at(radius, "stagger") + off))
    found = np.degrees(built.row.stagger - DESIGN.stagger)
    assert found == pytest.approx([2.0, 2.0 - 3.0 * 0.05 / 0.25, 2.0 - 3.0 * 0.2 / 0.25, -1.0])
    assert built.row.chord is DESIGN.chord
    (one,) = built.deviations
    assert (one.quantity, one.radius) == ("stagger", 0.2)
    assert math.degrees(one.measured - one.designed) == pytest.approx(2.0)
    assert math.degrees(one.mean) == pytest.approx(0.5)
    (said,) = built.remarks
    assert said.severity == "caution"
    assert "Part R-017: stagger of the blades at radius 0.2 m" in said.text
    assert "+2.00 degrees off the design" in said.text


def test_one_radius_moves_the_whole_row() -> None:
    built = as_built(DESIGN, _measured(radius=np.array([0.3]), chord=_design_at(np.array([0.3]), "chord") + 0.002))
    assert built.row.chord - DESIGN.chord == pytest.approx(np.full(4, 0.002))
    assert built.remarks[0].severity == "note"


def test_measured_clearance_moves_the_tip_and_nothing_at_the_hub() -> None:
    """Wall radius stays: tip 0.495 + 0.005 = 0.492 + 0.008; sections have the design's values where they now are."""
    built = as_built(DESIGN, _measured(radius=np.zeros(0), clearance=0.008))
    assert built.row.clearance == 0.008
    assert built.row.radius[[0, -1]] == pytest.approx([0.15, 0.492])
    assert built.row.chord[0] == pytest.approx(DESIGN.chord[0])
    assert DESIGN.chord[2] < built.row.chord[-1] < DESIGN.chord[-1]
    assert "+60.0 %" in built.remarks[0].text
    assert built.remarks[0].severity == "caution"


def test_gap_where_none_was_drawn_is_said() -> None:
    held: Row = straight()
    built = as_built(held, Measurement("V-3", np.zeros(0), clearance=0.002))
    assert "none by design" in built.remarks[0].text
    assert built.remarks[0].severity == "caution"


@pytest.mark.parametrize(
    ("change", "key", "said"),
    [
        ({}, "radius", "nothing was measured"),
        ({"radius": np.zeros(0), "chord": np.array([0.1])}, "radius", "within the row"),
        ({"radius": np.array([0.2, 0.7]), "chord": np.array([0.1, 0.1])}, "radius", "within the row"),
        ({"radius": np.array([0.45, 0.2]), "chord": np.array([0.1, 0.1])}, "radius", "sort them"),
        ({"chord": np.array([0.12])}, "chord", "1 values for 2 radii"),
        ({"chord": np.array([0.12, float("nan")])}, "chord", "finite"),
        ({"chord": np.array([120.0, 140.0])}, "chord", "check column and unit"),
        ({"stagger": np.array([22.0, 11.0])}, "stagger", "check column and unit"),
        ({"thickness": np.array([0.5, 0.5])}, "thickness", "check column and unit"),
        ({"clearance": float("nan")}, "clearance", "a fifth of"),
        ({"clearance": -0.001}, "clearance", "a fifth of"),
    ],
)
def test_each_refusal_names_one_key(change: dict[str, object], key: str, said: str) -> None:
    with pytest.raises(InputError, match=said) as caught:
        as_built(DESIGN, _measured(**change))
    assert caught.value.key == key
