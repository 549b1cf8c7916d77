"""Bands of energy, turbulence and availability against closed forms and a published budget."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.place.speed_uncertainty import SpeedCause
from racewright.supply.availability import LostTime, availability, stops
from racewright.supply.power_table import PowerTable
from racewright.supply.speed_band import EnergyCause, energy_band
from racewright.supply.turbulence import cube_factor, in_turbulence, turbulence
from tests.external.record import Record

SPEED = np.linspace(0.0, 12.0, 2401)
CUBIC = PowerTable(SPEED, 100.0 * SPEED**3, 0.0, 172800.0)
EDGE = np.linspace(0.0, 6.0, 121)
BELOW = 1.0 - np.exp(-np.pi / 4.0 * (EDGE / 1.5) ** 2)
SHARE = np.diff(BELOW) / BELOW[-1]


@pytest.mark.outside(
    source="GUM: speed 3 % with sensitivity 3, power curve 5, availability 2, losses 2 % give 10.6771 %",
    status="closed form",
    tolerance="1e-4 relative: the cube's sensitivity by steps of 1 % is 3.0001",
)
def test_budget_of_yearly_energy(record_property: Record) -> None:
    found = energy_band(
        EDGE,
        SHARE,
        CUBIC,
        0.9 * CUBIC.power,
        1.1 * CUBIC.power,
        (SpeedCause("speed", 0.03, 1.0),),
        (EnergyCause("availability", 0.02), EnergyCause("losses", 0.02)),
    )
    record_property("measured", f"{100.0 * found.relative_standard:.4f} %, sensitivity {found.sensitivity:.4f}")
    assert found.sensitivity == pytest.approx(3.0, abs=5e-4)
    assert found.relative_standard == pytest.approx(0.106771, rel=1e-4)


@pytest.mark.outside(
    source="a cubic power curve: all speeds times f give f^3 times the energy; bands join as the root of squares",
    status="closed form",
    tolerance="1e-4: 0.005 m/s between points of the cubic",
)
def test_a_cubic_integrated_again_at_scaled_speeds() -> None:
    causes = (SpeedCause("rating", 0.06, 1.0), SpeedCause("transect", 0.04, 2.0))
    found = energy_band(EDGE, SHARE, CUBIC, 0.75 * CUBIC.power, 1.25 * CUBIC.power, causes)
    value = found.total.value
    assert found.speed_relative == pytest.approx(0.1, rel=1e-12)
    up, down = math.exp(0.6) - 1.0, 1.0 - math.exp(-0.6)
    assert found.total.high / value - 1.0 == pytest.approx(math.hypot(up, 0.25), rel=1e-4)
    assert 1.0 - found.total.low / value == pytest.approx(math.hypot(down, 0.25), rel=1e-4)
    assert [row.cause for row in found.rows] == ["transect", "rating", "power curve"]
    assert found.rows[1].high / value == pytest.approx(math.exp(0.36), rel=1e-4)


@pytest.mark.outside(
    source="normally distributed speed on a cubic curve: mean cube U^3 (1 + 3 I^2)",
    status="closed form",
    tolerance="1e-4 away from the ends of the curve",
)
@pytest.mark.parametrize("intensity", [0.05, 0.12, 0.25])
def test_cubic_in_turbulence(intensity: float, record_property: Record) -> None:
    rough = in_turbulence(CUBIC, intensity)
    inner = (rough.speed > 0.5) & (rough.speed < 5.0)
    factor = rough.power[inner] / (100.0 * rough.speed[inner] ** 3)
    record_property("measured", f"{float(np.abs(factor / cube_factor(intensity) - 1.0).max()):.0e} at most")
    np.testing.assert_allclose(factor, 1.0 + 3.0 * intensity**2, rtol=1e-4)
    found = turbulence(EDGE, SHARE, CUBIC, intensity, contained=False)
    assert found.followed == pytest.approx(1.0 + 3.0 * intensity**2, rel=1e-3)


@pytest.mark.outside(
    source="a step at cut-in in normally distributed speed: half of rated power at the step, Gauss' integral beside",
    status="closed form",
    tolerance="2e-6",
)
def test_a_step_in_turbulence() -> None:
    step = PowerTable(np.array([0.0, 10.0]), np.array([1000.0, 1000.0]), 1.0, 1000.0)
    rough = in_turbulence(step, 0.1)
    at = np.interp([0.9, 1.0, 1.2], rough.speed, rough.power)
    exact = [500.0 * math.erfc(-(u - 1.0) / (0.1 * u) / math.sqrt(2.0)) for u in (0.9, 1.0, 1.2)]
    np.testing.assert_allclose(at, exact, rtol=2e-6)


@pytest.mark.outside(
    source="independent causes: 0.98 x 0.95 x (1 - 24 x 6 h / 8760 h)",
    status="closed form",
    tolerance="1e-12",
)
def test_availability_is_a_product() -> None:
    found = availability(
        (
            LostTime("faults", 0.02),
            LostTime("upkeep", 0.05),
            stops("debris", 24.0, 6.0 * 3600.0),
            LostTime("ice", 0.2, True),
        )
    )
    assert found.share == pytest.approx(0.98 * 0.95 * (1.0 - 144.0 / 8760.0), rel=1e-12)
    assert found.whole == pytest.approx(0.8 * found.share, rel=1e-12)
