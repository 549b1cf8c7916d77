"""How steep a duct opens, and what is said of it."""

from __future__ import annotations

import math

import pytest

from racewright.machine.diffuser import diffuser_remarks, half_angle
from racewright.machine.duct import Duct


def test_half_angle_is_that_of_the_chord_from_throat_to_edge() -> None:
    """Exit radius 0.6124 m, throat at 0.216 m of a chord of 1 m that is turned by 3.3 degrees."""
    assert math.degrees(half_angle(Duct(0.5, 1.5, 1.0, 0.14))) == pytest.approx(8.17, abs=0.01)


@pytest.mark.parametrize(("ratio", "severity"), [(1.2, None), (1.5, "caution"), (2.0, "warning")])
def test_steeper_is_said_louder(ratio: float, severity: str | None) -> None:
    said = [r.severity for r in diffuser_remarks(Duct(0.5, ratio, 1.0, 0.14))]
    assert said == ([severity] if severity else [])
