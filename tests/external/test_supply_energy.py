"""Yearly energy against exact integrals, by bin width, and beside two coarser rules.

In both few powers stand for a bin: 'mid-bin' the power at its middle, 'edges' the mean of the powers at
its ends. What is built is linear in density and power inside the bin.
"""

from __future__ import annotations

import numpy as np
import pytest

from racewright.supply.energy import yearly_energy
from tests.external.supply_rows import rows

HOURS = 8760.0
RIVER = 0.5 * 1000.0 * np.pi / 4.0 * 0.40  # 1 m, CP 0.40
TIDAL = 0.5 * 1025.0 * np.pi / 4.0 * 16.0**2 * 0.40


def rayleigh(v):
    return 1.0 - np.exp(-np.pi / 4.0 * (v / 1.5) ** 2)


def sinusoid(v):
    return 2.0 / np.pi * np.arcsin(np.minimum(v / 2.5, 1.0))


def river_power(v):
    return np.where((v < 0.7) | (v > 4.0), 0.0, np.minimum(5000.0, RIVER * v**3))


def tidal_power(v):
    return np.where(v < 1.0, 0.0, np.minimum(1e6, TIDAL * v**3))


def built(edge, share, cut_in, rated, coefficient):
    """The year with a cubic curve up to rated power and 4 m/s, sampled at 0.005 m/s and at rated speed."""
    speed = np.unique(np.append(np.linspace(0.0, 4.0, 801), (rated / coefficient) ** (1.0 / 3.0)))
    power = np.minimum(rated, coefficient * speed**3)
    return yearly_energy(edge, share, speed, power, availability=1.0, rated_power=rated, cut_in_speed=cut_in)


def river_year(width):
    edge = np.linspace(0.0, 12.0, round(12.0 / width) + 1)
    share = np.diff(rayleigh(edge))
    return edge, share, built(edge, share, 0.7, 5000.0, RIVER)


def tidal_year(width):
    edge = np.linspace(0.0, 2.5, round(2.5 / width) + 1)
    share = np.diff(sinusoid(edge))
    return edge, share, built(edge, share, 1.0, 1e6, TIDAL)


def coarse(edge, share, power):
    """Energy by the mid-bin rule and by the edges rule [Wh]."""
    middle = share @ power(0.5 * (edge[1:] + edge[:-1])) * HOURS
    ends = share @ (0.5 * (power(edge[1:]) + power(edge[:-1]))) * HOURS
    return middle, ends


@pytest.mark.outside(
    source="integral of a capped cubic over a Rayleigh year, mean 1.5 m/s: 8042.164 kWh",
    status="closed form",
    tolerance="0.2 / 0.02 / 0.003 / 0.001 % at bins of 0.5 / 0.25 / 0.1 / 0.05 m/s",
)
@pytest.mark.parametrize(("width", "percent"), [(0.5, 0.2), (0.25, 0.02), (0.1, 0.003), (0.05, 0.001)])
def test_rayleigh_year(width, percent, record_property):
    edge, share, year = river_year(width)
    exact = 8042.164
    error = year.total.value / 3.6e6 - exact
    record_property("measured", f"{100.0 * error / exact:+.1g} % at {width:g} m/s")
    assert abs(error) < 0.01 * percent * exact
    middle, ends = (wh / 1e3 - exact for wh in coarse(edge, share, river_power))
    assert abs(error) < min(abs(middle), abs(ends))


@pytest.mark.outside(
    source="the same year: capacity factor 0.183611, shares below cut-in and at rated power",
    status="closed form",
    tolerance="1e-5, 1e-6, 1e-5",
)
def test_rayleigh_shares():
    _, _, year = river_year(0.05)
    rated_speed = (5000.0 / RIVER) ** (1.0 / 3.0)
    assert rated_speed == pytest.approx(3.169203, abs=1e-6)
    assert year.capacity_factor == pytest.approx(0.183611, abs=1e-5)
    assert year.share_below_cut_in == pytest.approx(rayleigh(0.7), abs=1e-6)
    assert year.share_rated == pytest.approx(rayleigh(4.0) - rayleigh(rated_speed), abs=1e-5)


@pytest.mark.outside(
    source="cubic without limits over a Rayleigh year: 8869.5 kWh = cube mean by 6/pi",
    status="closed form",
    tolerance="0.01 % at 0.05 m/s",
)
def test_rayleigh_without_limits():
    edge = np.linspace(0.0, 12.0, 241)
    share = np.diff(rayleigh(edge))
    speed = np.linspace(0.0, 12.0, 2401)
    power = RIVER * speed**3
    year = yearly_energy(edge, share, speed, power, availability=1.0, rated_power=power[-1], cut_in_speed=0.0)
    exact = RIVER * 1.5**3 * 6.0 / np.pi * HOURS / 1e3
    assert exact == pytest.approx(8869.5, abs=0.05)
    assert year.total.value / 3.6e6 == pytest.approx(exact, rel=1e-4)


@pytest.mark.outside(
    source="integral of a capped cubic over a sinusoidal tide of 2.5 m/s: 2370.06 MWh",
    status="closed form",
    tolerance="2.5 / 0.7 / 0.25 / 0.1 % at bins of 0.25 / 0.1 / 0.05 / 0.025 m/s",
)
@pytest.mark.parametrize(("width", "percent"), [(0.25, 2.5), (0.1, 0.7), (0.05, 0.25), (0.025, 0.1)])
def test_sinusoidal_tide(width, percent, record_property):
    """Density is infinite at the fastest speed: the error falls as width^1.5 and every rule runs low."""
    edge, share, year = tidal_year(width)
    exact = 2370.06
    error = year.total.value / 3.6e9 - exact
    record_property("measured", f"{100.0 * error / exact:+.2g} % at {width:g} m/s")
    assert -0.01 * percent * exact < error < 0.0
    middle, _ = (wh / 1e6 - exact for wh in coarse(edge, share, tidal_power))
    assert abs(error) < 0.62 * abs(middle)


@pytest.mark.outside(
    source="mid-bin sums of the same tide: 2281.99 MWh at 0.25 m/s, 2346.53 MWh at 0.1 m/s",
    status="closed form",
    tolerance="0.01 MWh",
)
@pytest.mark.parametrize(("width", "wanted"), [(0.25, 2281.99), (0.1, 2346.53)])
def test_mid_bin_rule_for_comparison(width, wanted):
    edge, share, _ = tidal_year(width)
    assert coarse(edge, share, tidal_power)[0] / 1e6 == pytest.approx(wanted, abs=0.01)


@pytest.mark.outside(
    source="sinusoidal tide: 0.261980 of the year below 1.0 m/s, rated speed never reached",
    status="closed form",
    tolerance="1e-6",
)
def test_sinusoidal_shares():
    _, _, year = tidal_year(0.1)
    assert year.share_below_cut_in == pytest.approx(0.261980, abs=1e-6)
    assert year.share_rated == 0.0


@pytest.mark.outside(
    source="histogram of six bins, mid-bin sum 6887.613 kWh (invented inputs)",
    status="closed form",
    tolerance="1e-6 for the mid-bin sum; the year built is 1.0 to 2.5 % away",
)
def test_coarse_histogram_beside_the_mid_bin_rule(record_property):
    """Six bins of 0.5 m/s do not fix a year to better than some per cent: 6887.6 kWh by mid-bin powers, 6774
    kWh with curve and density linear inside the bins (above its mode a year spends more time at the slow end
    of a bin)."""
    table = rows("supply_histogram")
    centre, share = (np.array([float(row[k]) for row in table]) for k in ("bin_centre_m_s", "fraction"))
    power = river_power(centre)
    np.testing.assert_allclose(power, [float(row["power_W"]) for row in table], rtol=1e-6)
    middle = share @ power * HOURS / 1e3
    assert middle == pytest.approx(6887.613, rel=1e-6)
    year = built(np.append(centre - 0.25, centre[-1] + 0.25), share, 0.7, 5000.0, RIVER)
    record_property("measured", f"{100.0 * (year.total.value / 3.6e6 / middle - 1.0):+.1f} % beside the mid-bin rule")
    assert 0.010 < 1.0 - year.total.value / 3.6e6 / middle < 0.025
