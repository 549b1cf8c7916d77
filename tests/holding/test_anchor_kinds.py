"""Drag anchors, screws, rock bolts, bank ties: laws, refusals, flags."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.holding.anchor_bank import BankTie, bank_tie_holding
from racewright.holding.anchor_drag import DragAnchor, drag_holding, drag_law
from racewright.holding.anchor_rock import RockBolt, bent_bar_holding, rock_bolt_holding
from racewright.holding.anchor_screw import ScrewAnchor, plate_holding, screw_holding
from racewright.holding.anchor_tables import drag_coefficients
from racewright.uncertainty import Band

BOLT = RockBolt(0.038, 1.0, 1e6, 0.02, 500e6, 16e3)
PLATE = ScrewAnchor((0.3,), 50e3, depth=2.0)


@given(st.floats(1.0, 1e5), st.floats(0.1, 100.0), st.floats(0.5, 1.0))
def test_drag_law_scales_by_its_exponent(mass: float, scale: float, exponent: float) -> None:
    one, other = (drag_law(5e5, m, 4536.0, exponent) for m in (mass, scale * mass))
    assert other == pytest.approx(one * scale**exponent, rel=1e-9)
    assert drag_law(5e5, 4536.0, 4536.0, exponent) == 5e5


def test_a_lifted_drag_anchor_is_refused() -> None:
    anchor = DragAnchor("light twin fluke", "hard", 100.0)
    found = drag_holding(anchor, 1e3, 10.0)
    assert found.ultimate is None
    assert "flat pull only" in found.reason
    assert found.remarks[-1].severity == "warning"
    assert drag_holding(anchor, 1e3, 0.0).ultimate is not None
    assert drag_holding(anchor, 1e3, -50.0).ultimate is not None
    assert drag_holding(anchor, 1e3, 1e-7).ultimate is not None, "rounding of a line's solver is no lift"


def test_a_drag_anchor_on_rock_is_refused() -> None:
    found = drag_holding(DragAnchor("light twin fluke", "rock", 100.0), 1e3, 0.0)
    assert found.ultimate is None
    assert "does not hold" in found.reason
    assert found.safety.status == "no number"


def test_a_small_drag_anchor_is_warned_of() -> None:
    small, large = (drag_holding(DragAnchor("light twin fluke", "soft", m), 1e3, 0.0) for m in (20.0, 200.0))
    assert any("stretched far" in remark.text for remark in small.remarks)
    assert not any("stretched far" in remark.text for remark in large.remarks)


def test_drag_scatter_and_source_travel_with_it() -> None:
    found = drag_holding(DragAnchor("stockless, fixed fluke", "soft", 500.0), 1e3, 0.0)
    assert found.ultimate is not None
    assert found.ultimate.low < found.ultimate.value < found.ultimate.high
    assert "UFC 4-159-03" in found.safety.basis
    assert "from memory, 75 %" in found.safety.status
    assert found.safety.edition == "2005"


def test_unknown_form() -> None:
    with pytest.raises(InputError, match=r"'grapnel'.*light twin fluke"):
        drag_coefficients("grapnel", "soft")


@given(st.floats(0.05, 1.0), st.floats(0.2, 5.0), st.floats(1e3, 1e6))
def test_plates_scale_with_area_and_cohesion(diameter: float, scale: float, cohesion: float) -> None:
    one = plate_holding((diameter,), cohesion)
    assert plate_holding((scale * diameter,), cohesion) == pytest.approx(scale**2 * one)
    assert plate_holding((diameter,), scale * cohesion) == pytest.approx(scale * one)
    assert plate_holding((diameter, diameter), cohesion) == pytest.approx(2.0 * one)


def test_overburden_adds() -> None:
    assert plate_holding((0.3,), 0.0, 9.0, 20e3, 10.0) == pytest.approx(0.25 * math.pi * 0.09 * 200e3)


def test_the_lesser_of_plates_and_torque_governs() -> None:
    weak = screw_holding(ScrewAnchor((0.3,), 50e3, torque=2000.0, depth=2.0), 0.0, 1.0)
    strong = screw_holding(ScrewAnchor((0.3,), 50e3, torque=200.0, depth=2.0), 0.0, 1.0)
    assert weak.governs == "plates pull out"
    assert strong.governs == "by installing torque"
    assert weak.ultimate is not None
    assert weak.ultimate.value == pytest.approx(31808.6, rel=1e-5)


def test_screw_flags() -> None:
    along = screw_holding(PLATE, 0.0, 1.0)
    across = screw_holding(PLATE, 1.0, 0.0)
    shallow = screw_holding(ScrewAnchor((0.3,), 50e3, depth=0.5), 0.0, 1.0)
    close = screw_holding(ScrewAnchor((0.3, 0.3), 50e3, depth=2.0, spacing=0.5), 0.0, 1.0)
    assert not any(remark.severity == "warning" for remark in along.remarks)
    assert any("90 degrees off the shaft" in remark.text for remark in across.remarks)
    assert any("deep plates" in remark.text for remark in shallow.remarks)
    assert any("one cylinder of soil" in remark.text for remark in close.remarks)


def test_a_screw_without_soil_strength_is_refused() -> None:
    assert screw_holding(ScrewAnchor((0.3,), 0.0), 0.0, 1.0).ultimate is None
    with pytest.raises(InputError, match="plates and soil, or its installing torque"):
        ScrewAnchor()


def test_rock_bolt_least_governs_each_way() -> None:
    """Along the bars: cone 16.8 kN; a deep cone leaves bond 119 kN; a long bond leaves the bar's 157 kN."""
    cone = rock_bolt_holding(BOLT, 0.0, 1.0)
    bond = rock_bolt_holding(RockBolt(0.038, 1.0, 1e6, 0.02, 500e6, 16e3, cone_depth=3.0), 0.0, 1.0)
    bar = rock_bolt_holding(RockBolt(0.038, 3.0, 1e6, 0.02, 500e6, 16e3), 0.0, 1.0)
    assert (cone.governs, bond.governs, bar.governs) == ("rock cone lifts", "bond slips", "bar yields")
    assert bond.ultimate is not None
    assert bond.ultimate.value == pytest.approx(119380.5, rel=1e-6)


def test_rock_bolt_across_the_bar_shears_it() -> None:
    """Square to the bar it yields at A fy / sqrt 3, and neither bond nor cone is loaded."""
    found = rock_bolt_holding(BOLT, 1.0, 0.0)
    assert found.ultimate is not None
    assert found.ultimate.value == pytest.approx(0.25 * math.pi * 4e-4 * 500e6 / math.sqrt(3.0), rel=1e-9)
    assert any("off the bars" in remark.text for remark in found.remarks)


def test_an_eye_above_the_rock_bends_the_bar() -> None:
    """0.3 m above the rock, 1 kN square to a 20 mm bar: 300 N m over pi d^3/32 = 0.785 cm3 is 382 MPa."""
    eye = RockBolt(0.038, 1.0, 1e6, 0.02, 500e6, 16e3, eye_height=0.3)
    found = rock_bolt_holding(eye, 1.0, 0.0).ultimate
    assert found is not None
    bending, shear = 300.0 / (math.pi * 8e-6 / 32.0), math.sqrt(3.0) * 1e3 / (math.pi * 1e-4)
    assert found.value == pytest.approx(1e3 * 500e6 / math.hypot(bending, shear), rel=1e-9)
    assert found.value < 0.02 * bent_bar_holding(0.02, 500e6, math.pi / 2.0, 0.0)
    untold = rock_bolt_holding(BOLT, 1.0, 0.2)
    assert any(remark.about == "rock bolt bends" and "eye_height" in remark.text for remark in untold.remarks)
    told = rock_bolt_holding(eye, 1.0, 0.2)
    assert not any(remark.about == "rock bolt bends" for remark in told.remarks)


@given(st.floats(0.0, math.pi), st.floats(0.0, 1.0), st.floats(0.01, 1.0))
def test_a_higher_eye_never_holds_more(off: float, eye: float, more: float) -> None:
    assert bent_bar_holding(0.02, 5e8, off, eye + more) <= bent_bar_holding(0.02, 5e8, off, eye) * (1.0 + 1e-12)


def test_a_pull_below_the_bars_or_beside_them_bends_them() -> None:
    """Bars 10 degrees up: a pull 10 degrees down stands 20 degrees off; in plan 40 degrees aside, 40 degrees off."""
    level = RockBolt(
        0.051, 1.5, 1e6, 0.028, 500e6, 16e3, bar_angle=math.radians(10.0), eye_height=0.05, rock_shear=1e6
    )
    down = rock_bolt_holding(level, 1.0, -math.tan(math.radians(10.0))).ultimate
    assert down is not None
    assert down.value == pytest.approx(bent_bar_holding(0.028, 500e6, math.radians(20.0), 0.05))
    flat = RockBolt(0.051, 1.5, 1e6, 0.028, 500e6, 16e3, bar_angle=0.0, eye_height=0.05, bar_aside=math.radians(40.0))
    aside = rock_bolt_holding(flat, 1.0, 0.0)
    bar = next(limit.load.value for limit in aside.limits if limit.mode == "bar yields")
    assert bar == pytest.approx(bent_bar_holding(0.028, 500e6, math.radians(40.0), 0.05))


def test_a_leaning_cone_gives_its_part_along_the_bar() -> None:
    """At 30 degrees half of the weight lies along the bar; level, none; the stated shear counts whole."""

    def cone(angle: float, shear: float = 0.0) -> float:
        bolt = RockBolt(0.038, 1.0, 1e6, 0.02, 500e6, 16e3, bar_angle=angle, rock_shear=shear)
        found = rock_bolt_holding(bolt, math.cos(angle), math.sin(angle))
        return next(limit.load.value for limit in found.limits if limit.mode == "rock cone lifts")

    assert cone(math.radians(30.0)) == pytest.approx(0.5 * cone(math.radians(90.0)))
    assert cone(0.0) == 0.0
    assert cone(0.0, 50e3) == pytest.approx(50e3 * math.pi)


def test_cones_that_meet_count_as_one() -> None:
    def cone(spacing: float | None) -> float:
        found = rock_bolt_holding(RockBolt(0.038, 1.0, 1e6, 0.02, 500e6, 16e3, count=4, spacing=spacing), 0.0, 1.0)
        return next(limit.load.value for limit in found.limits if limit.mode == "rock cone lifts")

    assert cone(2.1) == pytest.approx(4.0 * cone(1.9))
    assert cone(None) == cone(1.9)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(1.1, 5.0))
def test_longer_bolts_never_hold_less(horizontal: float, vertical: float, scale: float) -> None:
    if horizontal + vertical < 0.01:
        return
    one = rock_bolt_holding(BOLT, horizontal, vertical).ultimate
    other = rock_bolt_holding(RockBolt(0.038, scale, 1e6, 0.02, 500e6, 16e3), horizontal, vertical).ultimate
    assert one is not None
    assert other is not None
    assert other.value >= one.value > 0.0


def test_a_bank_tie_has_no_number_of_ours() -> None:
    nothing = bank_tie_holding(BankTie("deadman", None, ""))
    assert nothing.ultimate is None
    assert "pull-test" in nothing.reason
    tree = bank_tie_holding(BankTie("old tree", Band(10e3, 15e3, 20e3, "pull test"), "pull test"))
    assert tree.ultimate is not None
    assert tree.ultimate.value == 15e3
    assert tree.safety.status == "user's own"
    assert any("alive" in remark.text for remark in tree.remarks)
    with pytest.raises(InputError, match="no source"):
        BankTie("post", Band(1.0, 2.0, 3.0, ""), " ")
    with pytest.raises(InputError, match="0 < low"):
        BankTie("post", Band(math.nan, 2.0, 3.0, ""), "me")


@pytest.mark.parametrize("bad", [math.nan, math.inf, -1.0])
def test_bad_numbers(bad: float) -> None:
    with pytest.raises(InputError, match="mass of the drag anchor"):
        DragAnchor("light twin fluke", "soft", bad)
    with pytest.raises(InputError, match="cohesion"):
        ScrewAnchor((0.3,), bad)
    with pytest.raises(InputError, match="diameter"):
        ScrewAnchor((bad,), 1e3)
    with pytest.raises(InputError, match="torque"):
        ScrewAnchor(torque=bad)
    with pytest.raises(InputError, match="bond strength"):
        RockBolt(0.038, 1.0, bad, 0.02, 500e6, 16e3)
    with pytest.raises(InputError, match="unit weight"):
        RockBolt(0.038, 1.0, 1e6, 0.02, 500e6, bad)
    with pytest.raises(InputError, match="number of bolts"):
        RockBolt(0.038, 1.0, 1e6, 0.02, 500e6, 16e3, count=bad)  # type: ignore[arg-type]


def test_a_bar_thicker_than_its_hole_is_refused() -> None:
    with pytest.raises(InputError, match="bar's diameter"):
        RockBolt(0.038, 1.0, 1e6, 0.05, 500e6, 16e3)
