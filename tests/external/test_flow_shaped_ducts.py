"""Ducts with camber, a given inlet or another lip, against d'Alembert and momentum theory, at reduced counts."""

from __future__ import annotations

import pytest

from tests.external.record import Record
from tests.flow.shaped_ducts import DUCTS, empty_force, momentum_miss


@pytest.mark.outside(
    source="d'Alembert: a body in steady potential flow bears no force",
    status="closed form",
    tolerance="0.004 (80/N)^2 with N panels a side, falling as 1/N^2 (ratio 3 to 5)",
)
@pytest.mark.parametrize("index", [1, 3, 5, 8, 11])
def test_empty_shaped_duct_bears_no_force(index: int, record_property: Record) -> None:
    coarse, fine = (empty_force(DUCTS[index], panels) for panels in (40, 80))
    record_property("measured", f"{abs(fine):.5f} on shaped duct {index + 1} at 80 panels a side")
    assert abs(coarse) < 0.016
    assert abs(fine) < 0.004
    assert 3.0 < coarse / fine < 5.0


@pytest.mark.outside(
    source="momentum theory of a disc in a duct: CT_duct = (1 - w)(2 u - 1 - w)",
    status="closed form",
    tolerance="0.0015 (0.005 CH at the lower load) at CH 0.3 and 0.6 with 40 panels a side",
)
@pytest.mark.parametrize("index", [1, 5])
def test_loaded_cambered_duct_bears_what_momentum_asks(index: int, record_property: Record) -> None:
    miss = momentum_miss(DUCTS[index], 40)
    record_property("measured", f"{miss:.5f} on shaped duct {index + 1}")
    assert miss < 0.0015
