"""Added mass, drag, rafts and logs against closed forms and published numbers."""

from __future__ import annotations

import re

import pytest

from racewright.holding import strike_added_mass as added
from racewright.holding.debris_load import drag_load
from racewright.holding.debris_raft import code_raft_pressure
from racewright.holding.debris_table import DragCoefficient, drag_coefficient
from racewright.holding.log_body import Log
from tests.external.record import Record
from tests.external.supply_rows import rows

FOOT = 0.3048


def shape_row(start: str) -> dict[str, str]:
    found = [r for r in rows("holding_added_mass") if r["shape"].startswith(start)]
    assert len(found) == 1, start
    return found[0]


def first_number(text: str) -> float:
    found = re.search(r"[\d.]+", text)
    assert found
    return float(found.group())


@pytest.mark.outside(
    source="Lamb, Hydrodynamics; DNV-RP-C205 appendix D", status="closed form", tolerance="2e-6 of the printed digits"
)
def test_added_mass_of_round_shapes(record_property: Record) -> None:
    pairs = [
        (added.sphere(0.5, 1000.0), shape_row("sphere radius")),
        (added.disc(0.5, 1000.0), shape_row("disc radius")),
        (added.cylinder(0.5, 1.0, 1000.0), shape_row("infinite cylinder")),
        (added.plate(1.0, 1.0, 1000.0), shape_row("2-D flat plate")),
        (added.torus(0.05, 0.5, 1000.0), shape_row("thin torus")),
        (added.duct_water(0.5, 0.6, 0.1, 1000.0).sway_high, shape_row("thin open duct")),
    ]
    miss = max(abs(found / first_number(row["number_or_range"]) - 1.0) for found, row in pairs)
    record_property("measured", f"{miss:.0e}")
    assert miss < 2e-5
    assert added.sphere(0.5, 1000.0) == pytest.approx(261.799388, rel=1e-8)
    assert added.disc(0.5, 1000.0) == pytest.approx(1000.0 / 3.0, rel=1e-12)


@pytest.mark.outside(source="prolate spheroid, Lamb art. 114 and 373", status="closed form", tolerance="1e-5")
def test_spheroids(record_property: Record) -> None:
    miss = 0.0
    table = [r for r in rows("holding_added_mass") if r["shape"].startswith("prolate")]
    assert len(table) == 5
    for row in table:
        slender = float(row["shape"].split()[-1])
        along, across = added.spheroid(slender, 1.0, 1000.0)
        displaced = 1000.0 * 3.141592653589793 / 6.0 * slender
        wanted = [float(x) for x in re.findall(r"\d\.\d+", row["formula_or_value"])]
        miss = max(miss, abs(along / displaced - wanted[0]), abs(across / displaced - wanted[1]))
    record_property("measured", f"{miss:.0e}")
    assert miss < 1e-5


@pytest.mark.outside(
    source="DNV-RP-C205 appendix D, square plate and finite cylinders; from memory (85 %)",
    status="from memory",
    tolerance="0.01 %",
)
def test_plate_and_finite_cylinders() -> None:
    assert added.square_plate(1.0, 1000.0) == pytest.approx(454.75, rel=1e-4)
    for slender, factor in ((1.2, 0.62), (2.5, 0.78), (5.0, 0.90), (9.0, 0.96)):
        whole = added.cylinder(0.5, slender, 1000.0)
        assert added.finite_cylinder(0.5, slender, 1000.0) == pytest.approx(factor * whole, rel=1e-9)


@pytest.mark.outside(
    source="strip theory: none along a log, one displaced mass across it", status="closed form", tolerance="1e-9"
)
def test_added_mass_of_a_log() -> None:
    """A floating log displaces its own mass, a sunken one its volume."""
    log = Log(6.4, 0.3, 700.0)
    numbers = log.in_plane()
    assert 1.0 / numbers.along == pytest.approx(log.mass, rel=1e-9)
    assert 1.0 / numbers.across == pytest.approx(2.0 * log.mass, rel=1e-9)
    sunk = Log(6.4, 0.3, 1100.0, "submerged")
    assert 1.0 / sunk.in_plane().across == pytest.approx(sunk.mass * (1.0 + 1000.0 / 1100.0), rel=1e-9)


@pytest.mark.outside(
    source="0.30 m by 6.4 m at 1000 kg/m3 is the 1000 lb log of flood codes", status="closed form", tolerance="1e-4"
)
def test_the_code_log() -> None:
    assert Log(6.4, 0.3, 1000.0).mass == pytest.approx(452.39, rel=1e-4)


@pytest.mark.outside(
    source="AASHTO LRFD 3.7.3, C_D V^2/1000 ksf; from memory (80 %)",
    status="from memory",
    tolerance="4 %, the code's own rounding",
)
def test_raft_pressure(record_property: Record) -> None:
    pound_per_square_foot = 47.88025898033584
    assert code_raft_pressure(10.0 * FOOT, 0.5) / pound_per_square_foot == pytest.approx(50.0, rel=1e-6)
    assert code_raft_pressure(10.0 * FOOT, 1.4) / pound_per_square_foot == pytest.approx(140.0, rel=1e-6)
    half = DragCoefficient("raft", 0.5, 0.5, 0.5, "pier with debris", "from memory", "from memory")
    exact = drag_load("raft", 1.0, half, 10.0 * FOOT, 1000.0, (0.0, 0.0, 0.0)).force[0] / pound_per_square_foot
    record_property("measured", f"{exact:.1f} against the code's 50 lbf/ft2")
    assert exact == pytest.approx(48.5, rel=2e-3)
    assert exact == pytest.approx(50.0, rel=0.04)


@pytest.mark.outside(
    source="long cylinder 1.2 (standard texts, FEMA P-55 round pile); AASHTO lodged debris 1.4",
    status="published",
    tolerance="exact",
)
def test_drag_coefficients() -> None:
    trunk, lodged = drag_coefficient("trunk across"), drag_coefficient("lodged debris")
    assert trunk.value == 1.2
    assert (trunk.low, trunk.high) == (0.6, 1.2)
    assert (lodged.low, lodged.value) == (0.5, 1.4)
