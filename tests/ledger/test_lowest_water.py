"""The record's lowest water, rarer than the low water of the tables, is said of a holding."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.holding.safety import POSE_CAUTION, computed
from racewright.holding.statics_low_water import LowWater
from racewright.ledger.holding_said import lowest_remarks

LOW = LowWater(
    depth=np.array([4.0, 3.0, 2.0]),
    cover=np.array([1.5, 0.5, -0.5]),
    bed_clearance=np.array([1.2, 1.2, 1.2]),
    reason=("", "cover", "surfaced"),
    least_depth=4.0,
    aground_at=None,
    safety=computed(POSE_CAUTION),
)


@pytest.mark.parametrize(
    ("lowest", "said"),
    [
        (None, ""),
        (4.0, ""),
        (3.0, "3.00 m deep, it does not hang as wanted: cover (water above it 0.50 m, below it 1.20 m)"),
        (2.0, "surfaced"),
        (-0.1, "lies dry"),
    ],
)
def test_the_lowest_water_warns_where_it_does_not_hold(lowest: float | None, said: str) -> None:
    found = lowest_remarks(LOW, lowest)
    assert bool(found) == bool(said)
    assert all(said in one.text and one.severity == "warning" for one in found)
