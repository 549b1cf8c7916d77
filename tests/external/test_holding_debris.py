"""Drag, rafts and logs against closed forms and published numbers."""

from __future__ import annotations

import pytest

from racewright.holding.debris_load import drag_load
from racewright.holding.debris_raft import code_raft_pressure
from racewright.holding.debris_table import DragCoefficient, drag_coefficient
from racewright.holding.log_body import Log
from tests.external.record import Record

FOOT = 0.3048


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
