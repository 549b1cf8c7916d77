"""Simple radial equilibrium against its closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from numpy.typing import NDArray

from racewright.stage.radial_equilibrium import radial_equilibrium
from tests.external.record import Record

Floats = NDArray[np.float64]
RADIUS = np.linspace(0.3, 1.0, 421)
MEAN = 2.0


def _mean(values: Floats) -> float:
    return float(np.trapezoid(values * RADIUS, RADIUS) / np.trapezoid(RADIUS, RADIUS))


def _same_flow(square: Floats) -> Floats:
    """sqrt(C + square) with C such that the area mean is MEAN."""
    low, high = -float(np.min(square)), MEAN**2 + float(np.ptp(square)) - float(np.min(square)) + 10.0
    for _ in range(200):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _mean(np.sqrt(middle + square)) < MEAN else (low, middle)
    return np.asarray(np.sqrt(0.5 * (low + high) + square))


CASES = {
    "free vortex": (0.5 / RADIUS, np.zeros_like(RADIUS)),
    "solid body": (0.8 * RADIUS, -2.0 * 0.8**2 * RADIUS**2),
    "power law, n 0.5": (0.9 * RADIUS**0.5, -(0.9**2) * 1.5 / 0.5 * RADIUS),
    "power law, n -0.5": (0.5 * RADIUS**-0.5, -(0.5**2) * 0.5 / -0.5 * RADIUS**-1.0),
    "constant swirl": (np.full_like(RADIUS, 0.7), -2.0 * 0.7**2 * np.log(RADIUS)),
}


@pytest.mark.outside(
    source="d(cx^2)/dr = -(1/r^2) d(r^2 Cth^2)/dr: free vortex, solid body, powers, constant swirl",
    status="closed form",
    tolerance="1e-6 relative, 421 radii",
)
@pytest.mark.parametrize("law", list(CASES))
def test_swirl_laws(law: str, record_property: Record) -> None:
    """Even total head: axial speed over the annulus of hub ratio 0.3, its mean kept."""
    swirl, square = CASES[law]
    found = radial_equilibrium(RADIUS, swirl, np.zeros_like(RADIUS), MEAN)
    worst = float(np.max(np.abs(found / _same_flow(square) - 1.0)))
    record_property("measured", f"{worst:.0e} ({law})")
    assert worst < 1e-6


@pytest.mark.outside(
    source="constant angle: cx/cxm = (r/rm)^(-sin^2 a); a 30 degrees, r/rm 0.6: 1.136219",
    status="closed form",
    tolerance="1e-6 relative, 421 radii",
)
def test_constant_angle(record_property: Record) -> None:
    """Swirl in proportion to the axial speed that it makes: the law is a fixed point, found by iteration."""
    angle = math.radians(30.0)
    speed = np.full_like(RADIUS, MEAN)
    for _ in range(40):
        speed = radial_equilibrium(RADIUS, speed * math.tan(angle), np.zeros_like(RADIUS), MEAN)
    closed = RADIUS ** (-(math.sin(angle) ** 2))
    closed = closed * MEAN / _mean(closed)
    worst = float(np.max(np.abs(speed / closed - 1.0)))
    record_property("measured", f"{worst:.0e}")
    assert worst < 1e-6
    assert speed[np.argmin(np.abs(RADIUS - 0.6))] / speed[-1] == pytest.approx(1.136219, rel=2e-6)


@pytest.mark.outside(
    source="without swirl c dc/dr = dH/dr: c^2 = C + 2 H", status="closed form", tolerance="1e-9 relative"
)
def test_uneven_head(record_property: Record) -> None:
    """Water that has kept more head runs faster."""
    head = -0.4 * RADIUS**2
    found = radial_equilibrium(RADIUS, np.zeros_like(RADIUS), head, MEAN)
    worst = float(np.max(np.abs(found**2 - found[0] ** 2 - 2.0 * (head - head[0]))))
    record_property("measured", f"{worst:.0e} m2/s2")
    assert worst < 1e-9
