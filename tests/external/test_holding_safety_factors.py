"""Safety factors of moorings against the rows collected from their standards."""

from __future__ import annotations

import pytest

from racewright.errors import NoAnswerError
from racewright.required_strength import required_strength
from racewright.safety_factors import safety_factor, safety_factors
from tests.external.record import Record
from tests.external.supply_rows import rows

ROWS = {row["key"]: row for row in rows("mooring_safety_factors")}
READ = [key for key, row in ROWS.items() if row["status"].startswith("READ")]
RECALLED = [key for key, row in ROWS.items() if row["status"].startswith("MEMORY")]


def _same(key: str) -> None:
    row, found = ROWS[key], safety_factor(key)
    assert found.factor == (float(row["factor"]) if row["factor"] else None)
    assert found.dynamic_factor == (float(row["dynamic_factor"]) if row["dynamic_factor"] else None)
    assert found.share == (float(row["share"]) if row["share"] else 1.0)


@pytest.mark.outside(source="UFC 4-159-03 (2005), table 3-7", status="published", tolerance="exact")
@pytest.mark.parametrize("key", READ)
def test_factors_that_were_read(key: str) -> None:
    _same(key)
    assert safety_factor(key).safety.status.startswith("read")


@pytest.mark.outside(
    source="ISO 19901-7 / API RP 2SK and DNV-OS-E301 (2010-2015), recalled", status="from memory", tolerance="exact"
)
@pytest.mark.parametrize("key", RECALLED)
def test_factors_that_were_recalled(key: str) -> None:
    _same(key)
    confidence = ROWS[key]["status"].removeprefix("MEMORY, ").removesuffix("%")
    assert safety_factor(key).safety.status == f"from memory, {confidence} %"


@pytest.mark.outside(source="rows collected from the mooring standards", status="published", tolerance="exact")
def test_no_mooring_factor_is_without_a_row() -> None:
    """Lines and anchors of the table, all but the usual factor of screws, stand among the collected rows."""
    here = {key for key, row in safety_factors().items() if row.group in ("line", "anchor")}
    assert here - {"screw_usual"} == set(ROWS)


@pytest.mark.outside(
    source="arithmetic on UFC 4-159-03 (3.0; wet nylon 0.85) and DNV-OS-E301 (1.10/1.50, 0.95)",
    status="closed form",
    tolerance="1e-6",
)
@pytest.mark.parametrize(
    ("key", "mean", "dynamic", "factored", "strength"),
    [
        ("ufc_synthetic", 20e3, 0.0, 60e3, 60e3),
        ("ufc_nylon_wet", 20e3, 0.0, 60e3, 70588.24),
        ("dnv_uls_class_1", 5e3, 10e3, 20.5e3, 21578.947),
    ],
)
def test_required_strength(
    key: str, mean: float, dynamic: float, factored: float, strength: float, record_property: Record
) -> None:
    found = required_strength(safety_factor(key), mean, dynamic)
    record_property("measured", f"{abs(found.strength / strength - 1.0):.0e}")
    assert found.factored_load == pytest.approx(factored, rel=1e-12)
    assert found.strength == pytest.approx(strength, rel=1e-6)


@pytest.mark.outside(source="IEC TS 62600-10:2021, scope", status="published", tolerance="no number")
def test_numbers_that_were_not_read_are_not_made_up() -> None:
    with pytest.raises(NoAnswerError):
        required_strength(safety_factor("iec_intact_and_damaged"), 1.0)
