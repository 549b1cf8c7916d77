"""Natural frequencies against closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.special import iv, jv

from racewright.strength.added_mass import strip_added_mass, tube_added_mass
from racewright.strength.beam_modes import beam_frequencies, beam_root, even_beam_frequency
from racewright.strength.ring import rectangular_ring
from racewright.strength.ring_modes import ring_frequency
from tests.external.record import Record


@pytest.mark.outside(
    source="roots of cos b cosh b = -1 and +1: 1.875104, 4.694091, 7.854757; 4.730041, 7.853205, 10.995608",
    status="closed form",
    tolerance="1e-6",
)
def test_roots() -> None:
    one = [beam_root(mode, "one end") for mode in (1, 2, 3)]
    both = [beam_root(mode, "both ends") for mode in (1, 2, 3)]
    assert one == pytest.approx([1.875104, 4.694091, 7.854757], abs=1e-6)
    assert both == pytest.approx([4.730041, 7.853205, 10.995608], abs=1e-6)


@pytest.mark.outside(
    source="even beam, b^2 sqrt(E I/(m L^4))",
    status="closed form",
    tolerance="1e-6 with 64 elements; order 4 within 0.15",
)
@pytest.mark.parametrize("support", ["one end", "both ends"])
def test_even_beam(support: str, record_property: Record) -> None:
    exact = np.array([even_beam_frequency(0.35, 900.0, 18.0, mode=m, support=support) for m in (1, 2, 3)])  # type: ignore[arg-type]

    def miss(elements: int) -> np.ndarray:
        found = beam_frequencies([0.0, 0.35], [900.0] * 2, [18.0] * 2, support=support, elements=elements)  # type: ignore[arg-type]
        return found / exact - 1.0

    coarse, fine = miss(8), miss(16)
    order = math.log2(coarse[2] / fine[2])
    worst = float(np.abs(miss(64)).max())
    record_property("measured", f"{worst:.0e}, order {order:.2f}")
    assert worst < 1e-6
    assert order == pytest.approx(4.0, abs=0.15)
    assert np.all(coarse > 0.0)


@pytest.mark.outside(
    source="wedge of even width, thickness to a point at the tip (Kirchhoff 1879): Bessel roots, 5.315, 15.21, 30.02",
    status="closed form",
    tolerance="1e-4",
)
def test_wedge(record_property: Record) -> None:
    """J1(z) I2(z) + J2(z) I1(z) = 0, frequency factor (z/2)^2 on sqrt(E I/(m L^4)) at the root."""

    def condition(z: float) -> float:
        return float(jv(1, z) * iv(2, z) + jv(2, z) * iv(1, z))

    roots = [brentq(condition, low, high) for low, high in ((4.0, 5.5), (7.0, 8.5), (10.0, 12.0))]
    factors = np.array([(z / 2.0) ** 2 for z in roots])
    assert factors == pytest.approx([5.315, 15.21, 30.02], rel=1e-3)
    place = np.linspace(0.0, 1.0, 401)
    thick = 1.0 - place
    found = 2.0 * math.pi * beam_frequencies(place, thick**3, thick, elements=100)
    record_property("measured", f"{np.abs(found / factors - 1.0).max():.0e}")
    assert found == pytest.approx(factors, rel=1e-4)


@pytest.mark.outside(
    source="free ring in its plane, n (n^2-1)/sqrt(n^2+1) sqrt(E I/(m R^4)) (Hoppe 1871): 2.683, 7.589, 14.552",
    status="closed form",
    tolerance="1e-3",
)
@pytest.mark.parametrize(("waves", "factor"), [(2, 2.683), (3, 7.589), (4, 14.552)])
def test_ring_modes(waves: int, factor: float) -> None:
    ring = rectangular_ring(0.5, 0.05, 0.02, 200e9)
    exact = waves * (waves**2 - 1.0) / math.sqrt(waves**2 + 1.0)
    assert exact == pytest.approx(factor, abs=1e-3)
    scale = math.sqrt(ring.stiffness / 7.85) / 0.25 / (2.0 * math.pi)
    assert ring_frequency(ring, 7.85, waves) == pytest.approx(exact * scale, rel=1e-12)


@pytest.mark.outside(
    source="added mass of a 2-D plate 1 m broad, rho pi a^2 (Lamb)", status="closed form", tolerance="1e-6"
)
def test_plate_added_mass() -> None:
    assert strip_added_mass(1.0, 1000.0) == pytest.approx(785.398, rel=1e-6)


@pytest.mark.outside(
    source="potential flow in and about a long tube whose wall moves as cos(n t): kinetic energy by quadrature",
    status="computed",
    tolerance="1e-9",
)
@pytest.mark.parametrize("waves", [2, 3, 5])
def test_tube_added_mass(waves: int) -> None:
    """Outside phi = -(R/n)(R/r)^n cos nt, inside phi = (R/n)(r/R)^n cos nt: energy rho/2 of phi dphi/dn on both
    sides, over the wall's own mean square speed.
    """
    radius, rho = 0.5, 1000.0
    angle = 2.0 * np.pi * np.arange(400) / 400
    speed = np.cos(waves * angle)
    potential = radius / waves * np.cos(waves * angle)
    energy = 2.0 * 0.5 * rho * float(np.mean(potential * speed)) * 2.0 * np.pi * radius
    moving = 0.5 * float(np.mean(speed**2)) * 2.0 * np.pi * radius
    assert tube_added_mass(radius, 1.0, rho, waves) == pytest.approx(energy / moving, rel=1e-9)
