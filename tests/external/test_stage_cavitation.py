"""Cavitation numbers against a table of them."""

from __future__ import annotations

import pytest

from racewright.stage.cavitation import cavitation_number
from tests.external.record import Record

ROWS = (
    (2.0, 8.0, 1000.0, 3.72625),
    (5.0, 10.0, 1025.0, 2.92480),
    (5.0, 12.0, 1025.0, 2.03111),
    (10.0, 15.0, 1025.0, 1.73591),
)


@pytest.mark.outside(
    source="sigma = (p_atm + rho g d - p_v)/(rho W^2/2); p_atm 101325, p_v 1705 Pa, g 9.81, four rows",
    status="closed form",
    tolerance="1e-5",
)
def test_cavitation_number(record_property: Record) -> None:
    """Depth, relative speed, density: sigma; a throat 3 kPa below the undisturbed pressure takes its share."""
    worst = 0.0
    for depth, speed, density, sigma in ROWS:
        found = cavitation_number(depth, speed, density, 1705.0, gravity=9.81)
        worst = max(worst, abs(found - sigma))
        lower = cavitation_number(depth, speed, density, 1705.0, gravity=9.81, throat_pressure=-3000.0)
        assert found - lower == pytest.approx(3000.0 / (0.5 * density * speed**2), rel=1e-12)
    record_property("measured", f"{worst:.0e}")
    assert worst < 1e-5
