"""Anchors against worked examples of the published forms."""

from __future__ import annotations

import math

import pytest

from racewright.holding.anchor_deadweight import Deadweight, deadweight_holding, submerged_weight
from racewright.holding.anchor_drag import DragAnchor, drag_holding, drag_law
from racewright.holding.anchor_rock import RockBolt, bent_bar_holding, bond_holding, cone_weight, rock_bolt_holding
from racewright.holding.anchor_screw import ScrewAnchor, plate_holding, screw_holding
from racewright.holding.anchor_tables import KIP, drag_coefficients
from racewright.uncertainty import Band
from tests.external.record import Record


@pytest.mark.outside(
    source="UFC 4-159-03 (2005), equation 26: 126 kip, exponent 0.80, 1000 lb of 10 000 lb",
    status="published",
    tolerance="1e-5",
)
def test_drag_law(record_property: Record) -> None:
    found = drag_law(126.0, 1000.0, 10000.0, 0.80)
    record_property("measured", f"{abs(found / 19.9697 - 1.0):.0e}")
    assert found == pytest.approx(19.9697, rel=1e-5)
    assert found * KIP == pytest.approx(88.83e3, rel=1e-4)


@pytest.mark.outside(
    source="UFC 4-159-03 (2005), tables 5-3 and 5-4, recalled: 46/70/87/126 kip, 0.92/0.80",
    status="from memory",
    tolerance="5e-3 (kN rounded)",
)
@pytest.mark.parametrize(
    ("form", "bed", "kilonewton", "exponent"),
    [
        ("stockless, fixed fluke", "soft", 205.0, 0.92),
        ("stockless, fixed fluke", "hard", 311.0, 0.80),
        ("light twin fluke", "soft", 387.0, 0.92),
        ("light twin fluke", "hard", 560.0, 0.80),
    ],
)
def test_drag_coefficients(form: str, bed: str, kilonewton: float, exponent: float) -> None:
    row = drag_coefficients(form, bed)
    assert row is not None
    assert row.reference_holding == pytest.approx(1e3 * kilonewton, rel=5e-3)
    assert row.exponent == exponent
    whole = drag_holding(DragAnchor(form, bed, 4536.0), 1.0, 0.0).ultimate
    assert whole is not None
    assert whole.value == pytest.approx(row.reference_holding, rel=1e-12)


@pytest.mark.outside(
    source="statics: 1 m3 of concrete 2400 in fresh water, lift 3 kN, friction 0.5, g 9.81",
    status="closed form",
    tolerance="1e-6",
)
def test_deadweight(record_property: Record) -> None:
    """H = 0.5 (13.734 - 3) = 5.367 kN: at that pull and lift the block just slides."""
    weight = submerged_weight(1.0, 2400.0, 1000.0, 9.81)
    assert weight == pytest.approx(13734.0, rel=1e-12)
    found = deadweight_holding(Deadweight(weight, Band(0.5, 0.5, 0.5, "given")), 5367.0, 3000.0).ultimate
    assert found is not None
    record_property("measured", f"{abs(found.value / math.hypot(5367.0, 3000.0) - 1.0):.0e}")
    assert found.value == pytest.approx(math.hypot(5367.0, 3000.0), rel=1e-6)


@pytest.mark.outside(
    source="statics on a slope: mu W cos b - W sin b along the bed, downhill", status="closed form", tolerance="1e-9"
)
@pytest.mark.parametrize("slope", [0.05, 0.2, 0.4])
def test_deadweight_on_a_slope(slope: float) -> None:
    found = deadweight_holding(Deadweight(13734.0, Band(0.5, 0.5, 0.5, "given"), slope), 1.0, 0.0).ultimate
    assert found is not None
    assert found.value == pytest.approx(13734.0 * (0.5 * math.cos(slope) - math.sin(slope)), rel=1e-9)


@pytest.mark.outside(
    source="public foundation page, A (c Nc + q Nq): 0.3 m plate, 50 kPa, Nc 9", status="published", tolerance="1e-4"
)
def test_screw_plate(record_property: Record) -> None:
    found = plate_holding((0.3,), 50e3)
    record_property("measured", f"{abs(found / 31809.0 - 1.0):.0e}")
    assert found == pytest.approx(31809.0, rel=1e-4)


@pytest.mark.outside(
    source="torque form, Kt 10 per foot (default of ICC-ES AC358), 2 kN m; range 3 to 20 per foot",
    status="published",
    tolerance="1e-4",
)
def test_screw_torque(record_property: Record) -> None:
    found = screw_holding(ScrewAnchor(torque=2000.0), 0.0, 1.0).ultimate
    assert found is not None
    record_property("measured", f"{abs(found.value / 65617.0 - 1.0):.0e}")
    assert found.value == pytest.approx(65617.0, rel=1e-4)
    assert (found.low / found.value, found.high / found.value) == pytest.approx((0.3, 2.0))


@pytest.mark.outside(
    source="textbook statics: 38 mm hole, 1 m, 1 MPa; bar 20 mm, 500 MPa; cone 16 kN/m3, 45 degrees",
    status="closed form",
    tolerance="1e-4",
)
def test_rock_bolt(record_property: Record) -> None:
    """Bond 119.381, bar 157.080, cone 16.755 kN; the cone governs."""
    parts = (
        bond_holding(0.038, 1.0, 1e6),
        bent_bar_holding(0.02, 500e6, 0.0, 0.0),
        cone_weight(16e3, 1.0, math.pi / 4.0),
    )
    record_property(
        "measured", f"{max(abs(p / w - 1.0) for p, w in zip(parts, (119381, 157080, 16755), strict=True)):.0e}"
    )
    assert parts == pytest.approx((119.381e3, 157.080e3, 16.755e3), rel=1e-4)
    found = rock_bolt_holding(RockBolt(0.038, 1.0, 1e6, 0.02, 500e6, 16e3), 0.0, 1.0)
    assert found.governs == "rock cone lifts"
    assert found.ultimate is not None
    assert found.ultimate.value == pytest.approx(16.755e3, rel=1e-4)


@pytest.mark.outside(
    source="UFC 4-159-03 (2005), table 3-18: anchors that drag need a flat pull",
    status="published",
    tolerance="refused",
)
def test_lifted_drag_anchor_is_refused() -> None:
    assert drag_holding(DragAnchor("light twin fluke", "hard", 500.0), 10e3, 1e3).ultimate is None
