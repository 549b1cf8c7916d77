"""Required holding, the verdict on an anchor, proof loads."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError, NoAnswerError
from racewright.holding.anchor_bank import BankTie
from racewright.holding.anchor_check import check_anchor
from racewright.holding.anchor_deadweight import Deadweight
from racewright.holding.anchor_drag import DragAnchor
from racewright.holding.anchor_kinds import Anchor, anchor_holding
from racewright.holding.anchor_proof import proof_load
from racewright.holding.anchor_required import required_holding
from racewright.holding.anchor_result import AnchorLoad
from racewright.holding.anchor_rock import RockBolt
from racewright.holding.anchor_screw import ScrewAnchor
from racewright.safety_factors import safety_factor, safety_factors
from racewright.uncertainty import Band

FACTORS = {"intact": safety_factor("iso_drag_intact"), "one line lost": safety_factor("iso_drag_one_lost")}
ANY = {"any": safety_factor("ufc_fixed")}
LOADS = (
    AnchorLoad("design flood", "intact", 20e3, -1e3),
    AnchorLoad("flood, neighbour lost", "one line lost", 35e3, -1e3),
)
TWIN = DragAnchor("light twin fluke", "hard", 453.592)


def test_the_worst_case_is_the_factored_one() -> None:
    """20 kN x 1.5 = 30 kN intact, 35 kN x 1.0 with a line lost."""
    found = required_holding(LOADS, FACTORS)
    assert found.horizontal == pytest.approx(35e3)
    assert found.horizontal_case == "flood, neighbour lost"
    assert found.vertical == 0.0
    assert found.vertical_case == ""
    assert found.cases[0].horizontal == pytest.approx(30e3)
    assert "API RP 2SK" in found.safety.basis


def test_level_and_lift_may_come_from_two_cases() -> None:
    loads = (AnchorLoad("a", "intact", 10e3, 0.0), AnchorLoad("b", "intact", 1e3, 5e3))
    found = required_holding(loads, ANY)
    assert (found.horizontal_case, found.vertical_case, found.total_case) == ("a", "b", "a")
    assert (found.horizontal, found.vertical, found.total) == pytest.approx((30e3, 15e3, 30e3))


@given(st.floats(1.0, 1e6), st.floats(-1e6, 1e6), st.floats(0.1, 10.0))
def test_required_grows_with_the_load(horizontal: float, vertical: float, scale: float) -> None:
    one = required_holding((AnchorLoad("a", "intact", horizontal, vertical),), ANY)
    other = required_holding((AnchorLoad("a", "intact", scale * horizontal, scale * vertical),), ANY)
    assert other.total == pytest.approx(scale * one.total)
    assert one.total >= 3.0 * horizontal * (1.0 - 1e-12)


def test_a_twin_fluke_of_a_thousand_pounds() -> None:
    """88.8 kN against 35 kN: use 0.394; at the low end of its scatter 0.657."""
    found = check_anchor(TWIN, LOADS, FACTORS)
    assert found.passes
    assert found.worst_case == "flood, neighbour lost"
    assert found.use == pytest.approx(35e3 / 88829.6, rel=1e-4)
    assert found.cases[1].use_low == pytest.approx(found.use / 0.6)
    assert found.safety.caution


def test_lift_in_one_case_refuses_the_anchor() -> None:
    found = check_anchor(TWIN, (*LOADS, AnchorLoad("log", "intact", 1e3, 2e3)), FACTORS)
    assert not found.passes
    assert found.use is None
    assert found.worst_case == "log"
    assert any("flat pull only" in remark.text for remark in found.remarks)


def test_too_weak_and_too_weak_at_the_low_end() -> None:
    weak = check_anchor(DragAnchor("light twin fluke", "hard", 100.0), LOADS, FACTORS)
    close = check_anchor(DragAnchor("light twin fluke", "hard", 200.0), LOADS, FACTORS)
    assert not weak.passes
    assert any(remark.about == "anchor too weak" and remark.severity == "warning" for remark in weak.remarks)
    assert close.passes
    assert any(remark.about == "anchor scatter" for remark in close.remarks)


@pytest.mark.parametrize(("strength", "severity"), [(80e3, "warning"), (100e3, "caution"), (200e3, None)])
def test_the_anchor_should_drag_before_the_chain_parts(strength: float, severity: str | None) -> None:
    found = check_anchor(TWIN, LOADS, FACTORS, chain_strength=strength)
    told = [remark.severity for remark in found.remarks if remark.about == "anchor stronger than chain"]
    assert told == ([severity] if severity else [])


def test_a_weight_is_not_told_to_be_weaker_than_its_chain() -> None:
    block = Deadweight(1e6, Band(0.4, 0.5, 0.6, "test"))
    found = check_anchor(block, LOADS, ANY, chain_strength=1e3)
    assert not any(remark.about == "anchor stronger than chain" for remark in found.remarks)


def test_use_of_a_deadweight_follows_its_own_direction() -> None:
    """H = 1 kN, V = 1 kN on 10 kN with mu 0.5: l = 10/3, over a factor of 3: use 0.9."""
    block = Deadweight(10e3, Band(0.5, 0.5, 0.5, "test"))
    found = check_anchor(block, (AnchorLoad("a", "intact", 1e3, 1e3),), ANY)
    assert found.use == pytest.approx(0.9)


DOWN = AnchorLoad("from above", "intact", 30e3, -40e3)
"""A line that comes down to its anchor, three across and four down: 50 kN along it."""


@pytest.mark.parametrize(
    "anchor",
    [
        RockBolt(0.051, 1.5, 1e6, 0.028, 500e6, 16e3, bar_angle=0.0, eye_height=0.05, rock_shear=50e3),
        ScrewAnchor((0.3,), 200e3, depth=3.0),
        BankTie("deadman", Band(80e3, 100e3, 120e3, "test"), "pull test"),
    ],
    ids=lambda anchor: type(anchor).__name__,
)
def test_a_holding_along_the_pull_is_set_against_the_whole_pull(anchor: Anchor) -> None:
    """Bolts, screws and ties bear so much along the line: all of its pull counts, what points down too."""
    found = check_anchor(anchor, (DOWN,), ANY)
    ultimate = anchor_holding(anchor, DOWN).ultimate
    assert ultimate is not None
    assert found.use == pytest.approx(3.0 * 50e3 / ultimate.value, rel=1e-12)
    assert found.required.total == pytest.approx(150e3)
    assert found.cases[0].case.pull == pytest.approx(50e3)


@pytest.mark.parametrize("anchor", [TWIN, Deadweight(1e6, Band(0.4, 0.5, 0.6, "test"))], ids=["drag", "block"])
def test_a_holding_across_is_set_against_the_pull_across(anchor: Anchor) -> None:
    """Drag anchors and blocks bear so much across the bed: what presses them down is neither load nor help."""
    found = check_anchor(anchor, (DOWN,), ANY)
    level = check_anchor(anchor, (AnchorLoad("level", "intact", 30e3, 0.0),), ANY)
    assert found.use == pytest.approx(level.use, rel=1e-12)
    assert found.cases[0].case.pull == pytest.approx(30e3)


def test_a_bank_tie_without_a_figure_fails() -> None:
    found = check_anchor(BankTie("tree", None, ""), LOADS, ANY)
    assert not found.passes
    assert found.use is None


def test_what_is_missing_is_said() -> None:
    with pytest.raises(InputError, match="'one line lost'"):
        required_holding(LOADS, {"intact": FACTORS["intact"]})
    with pytest.raises(NoAnswerError, match="used with care"):
        required_holding(LOADS, {"any": safety_factor("ufc_deadweight")})
    with pytest.raises(InputError, match="not for an anchor"):
        required_holding(LOADS, {"any": safety_factor("ufc_wire")})
    with pytest.raises(InputError, match="one load case or more"):
        required_holding((), ANY)
    with pytest.raises(InputError, match="bear one name"):
        required_holding((LOADS[0], LOADS[0]), ANY)


def test_the_user_may_state_a_factor_for_a_deadweight() -> None:
    table = safety_factors({"ufc_deadweight": {"factor": 2.0, "source": "the owner"}})
    found = required_holding(LOADS, {"any": table["ufc_deadweight"]})
    assert found.horizontal == pytest.approx(70e3)
    assert found.safety.status == "user's own: the owner"


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_bad_loads(bad: float) -> None:
    with pytest.raises(InputError, match="horizontal load"):
        AnchorLoad("a", "intact", bad, 0.0)
    if bad != -1.0:
        with pytest.raises(InputError, match="vertical load"):
            AnchorLoad("a", "intact", 1.0, bad)


def test_a_load_that_does_not_pull_is_refused() -> None:
    with pytest.raises(InputError, match="does not pull"):
        AnchorLoad("a", "intact", 0.0, -1.0)


def test_proof_load() -> None:
    found = proof_load("drag", LOADS)
    assert found.load == pytest.approx(35e3)
    assert found.hold_time == 900.0
    assert found.case == "flood, neighbour lost"
    assert found.possible
    assert found.safety.status.startswith("from memory")
    assert proof_load("rock_bolt", LOADS).load == pytest.approx(1.5 * math.hypot(35e3, 1e3))


def test_a_proof_load_that_would_break_the_bar() -> None:
    found = proof_load("rock_bolt", LOADS, most=50e3)
    assert not found.possible
    assert any(remark.severity == "warning" for remark in found.remarks)
    assert proof_load("rock_bolt", LOADS, most=60e3).possible


def test_own_proof_ratio() -> None:
    found = proof_load("screw", LOADS, ratio=2.0)
    assert found.load == pytest.approx(2.0 * math.hypot(35e3, 1e3))
    assert found.safety.status == "user's own"
    with pytest.raises(InputError, match="proof ratio"):
        proof_load("screw", LOADS, ratio=0.5)
    with pytest.raises(InputError, match="'magnet'"):
        proof_load("magnet", LOADS)
    with pytest.raises(InputError, match="one load case"):
        proof_load("screw", ())
