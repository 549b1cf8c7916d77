"""P = rho/2 A CP V^3 both ways: speed for five kilowatts on a metre, diameter for a megawatt."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from racewright.stage import sizing_rules
from racewright.stage.sizing import diameter_for, power_at
from racewright.stage.sizing_rules import HEAD_COEFFICIENT, Shape
from racewright.water import properties
from tests.external.supply_rows import rows


def form(coefficient: float) -> Shape:
    """A shape whose power coefficient on the throat's full circle is the one wanted."""
    return Shape(1.5, 1.2, coefficient / HEAD_COEFFICIENT, 1.0, 1.3)


@pytest.fixture(autouse=True)
def _whole_efficiency(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sizing_rules, "stage_efficiency", lambda _reynolds: 1.0)


def water(density: float):
    return dataclasses.replace(properties(283.15, "fresh"), density=density)


@pytest.mark.outside(
    source="diameters for 1 MW at 1025 kg/m3: 19.9374, 15.1669, 12.0358 m at 2.5, 3.0, 3.5 m/s and "
    "CP 0.40; twelve cases",
    status="closed form",
    tolerance="1e-5",
)
def test_diameter_for_a_megawatt() -> None:
    for row in rows("stage_diameter_for_1MW"):
        found = diameter_for(1e6, float(row["V_m_s"]), water(1025.0), form(float(row["Cp_water_to_wire"])), 1.0)
        assert found == pytest.approx(float(row["D_m"]), rel=1e-5)


@pytest.mark.outside(
    source="speeds for 5 kW on 1 m: 3.70672 (CP 0.25), 3.16920 (0.40), 2.78004 (16/27), 2.33509 m/s (1.00)",
    status="closed form",
    tolerance="1e-5",
)
@pytest.mark.parametrize(
    ("coefficient", "speed"),
    [
        (0.25, 3.70672),
        (0.30, 3.48816),
        (0.35, 3.31345),
        (0.40, 3.16920),
        (0.45, 3.04719),
        (16 / 27, 2.78004),
        (0.80, 2.51540),
        (1.0, 2.33509),
    ],
)
def test_speed_for_five_kilowatts(coefficient: float, speed: float) -> None:
    assert power_at(1.0, speed, water(1000.0), form(coefficient), 1.0) == pytest.approx(5000.0, rel=1e-5)


@pytest.mark.outside(
    source="1 m, CP 0.40: 157.080, 530.144, 1256.637, 2454.369, 4241.150 W at 1 to 3 m/s",
    status="closed form",
    tolerance="1e-6",
)
def test_power_of_a_metre() -> None:
    found = [power_at(1.0, speed, water(1000.0), form(0.40), 1.0) for speed in (1.0, 1.5, 2.0, 2.5, 3.0)]
    np.testing.assert_allclose(found, [157.080, 530.144, 1256.637, 2454.369, 4241.150], rtol=3e-6)
