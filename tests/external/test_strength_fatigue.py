"""Rainflow, S-N and Miner against the standard's series and recalled curves."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.strength import rainflow_damage
from racewright.strength.cycles import rainflow_cycles
from racewright.strength.damage import miner_sum
from racewright.strength.sn_curves import sn_curve
from tests.external.record import Record

SERIES = [-2.0, 1.0, -3.0, 5.0, -1.0, 3.0, -4.0, 4.0, -2.0]
PROTECTED = sn_curve("d_sea_protected")


@pytest.mark.outside(source="ASTM E1049-85, figure 6, as two pages quote it", status="published", tolerance="exact")
def test_rainflow() -> None:
    found = rainflow_cycles(SERIES)
    counts = {
        float(size): float(found.count[found.stress_range == size].sum()) for size in np.unique(found.stress_range)
    }
    assert counts == {3.0: 0.5, 4.0: 1.5, 6.0: 0.5, 8.0: 1.0, 9.0: 0.5}


@pytest.mark.outside(
    source="DNV-RP-C203 class D, sea water with protection (11.764, 3; 15.606, 5 beyond 1e6), recalled at 90 %",
    status="from memory",
    tolerance="1e-4",
)
@pytest.mark.parametrize(
    ("megapascal", "cycles"), [(40, 3.9418e7), (60, 5.1909e6), (80, 1.2318e6), (100, 5.8076e5), (150, 1.7208e5)]
)
def test_protected_curve(megapascal: float, cycles: float, record_property: Record) -> None:
    found = float(PROTECTED.cycles_to_failure(1e6 * megapascal))
    record_property("measured", f"{abs(found / cycles - 1.0):.0e}")
    assert found == pytest.approx(cycles, rel=1e-4)


@pytest.mark.outside(
    source="DNV-RP-C203 class D, free corrosion (11.687, 3), constants recalled at 90 %",
    status="from memory",
    tolerance="1e-4",
)
def test_free_corrosion() -> None:
    assert float(sn_curve("d_sea_free").cycles_to_failure(100e6)) == pytest.approx(4.8641e5, rel=1e-4)


@pytest.mark.outside(
    source="Miner sum on those constants: 1e6 at 40, 1e5 at 80, 1e4 at 150 MPa",
    status="from memory",
    tolerance="1e-4",
)
def test_miner(record_property: Record) -> None:
    found = miner_sum(np.array([40e6, 80e6, 150e6]), [1e6, 1e5, 1e4], PROTECTED)
    record_property("measured", f"{abs(found / 0.164662 - 1.0):.0e}")
    assert found == pytest.approx(0.164662, rel=1e-4)


@pytest.mark.outside(
    source="the standard's series x 10 MPa on those constants", status="from memory", tolerance="1e-4"
)
def test_damage_of_the_standard_s_series(record_property: Record) -> None:
    found = rainflow_damage(1e7 * np.array(SERIES), PROTECTED)
    record_property("measured", f"{abs(found.damage / 1.57681e-6 - 1.0):.0e}")
    assert found.damage == pytest.approx(1.57681e-6, rel=1e-4)
    assert found.design_damage == found.damage


@pytest.mark.outside(
    source="constant amplitude: n half cycles of one range, damage n/(2 N)", status="closed form", tolerance="1e-12"
)
def test_constant_amplitude() -> None:
    stress = 50e6 * np.cos(np.pi * np.arange(2001))
    expected = 1000.0 / float(PROTECTED.cycles_to_failure(100e6))
    assert rainflow_damage(stress, PROTECTED).damage == pytest.approx(expected, rel=1e-12)


@pytest.mark.outside(
    source="narrow-band Gaussian stress: damage per cycle (2 sqrt2 s)^m Gamma(1 + m/2)/a (Miles 1954)",
    status="closed form",
    tolerance="4 %",
)
def test_narrow_band_stress(record_property: Record) -> None:
    """Amplitudes drawn from Rayleigh's distribution, one-slope curve m = 3, 40 000 cycles."""
    from math import gamma, sqrt

    curve = sn_curve("d_sea_free")
    amplitude = np.random.default_rng(11).rayleigh(20e6, 80001)
    stress = np.repeat(amplitude[:40000], 2) * np.tile([1.0, -1.0], 40000)
    found = rainflow_damage(stress, curve).damage / 40000.0
    expected = (2.0 * sqrt(2.0) * 20.0) ** 3 * gamma(2.5) / 10.0**11.687
    record_property("measured", f"{abs(found / expected - 1.0):.1%}")
    assert found == pytest.approx(expected, rel=0.04)
