"""Mean cubes, histogram, springs and neaps, yearly energy and the nodal swing of made-up tidal streams."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.place import site_from_tide, tide, tide_from_table, tide_record
from racewright.place.tide_turning import Turning
from racewright.supply.energy import yearly_energy
from tests.external.record import Record
from tests.external.supply_rows import rows

AT_ONCE = Turning("swings", swing_speed=0.0, time=0.0)
CUBES = rows("place_spring_neap_cube")
START = 1_767_225_600
"""2026-01-01 [s]."""


def stream(m2: float, s2: float, *, nodal: bool = False):
    """Along-channel tide of M2 and S2 [m/s]."""
    return tide_from_table(("M2", "S2"), (m2, s2), (0.3, 1.1), math.radians(55.0), kind="along", nodal=nodal)


def site(m2: float, s2: float, *, period="year", nodal: bool = False, **options):
    return site_from_tide(stream(m2, s2, nodal=nodal), AT_ONCE, first_year=2026, period=period, **options)


@pytest.mark.outside(
    source="mean cube of M2 + S2 over that of M2's amplitude, by S2/M2; 4/(3 pi) for M2 alone",
    status="closed form",
    tolerance="1 % of a year (24.72 fortnights: the odd part falls on springs or neaps), 0.1 % over 18.6 years",
)
@pytest.mark.parametrize("row", CUBES, ids=lambda row: row["S2_over_M2"])
def test_mean_cubes(row, record_property: Record) -> None:
    ratio, wanted = float(row["S2_over_M2"]), float(row["mean_cube_over_M2cubed"])
    year = site(2.0, 2.0 * ratio).water.mean_cube_speed ** 3 / 8.0
    cycle = site(2.0, 2.0 * ratio, period="nodal cycle", step=1800.0).water.mean_cube_speed ** 3 / 8.0
    record_property("measured", f"{year / wanted - 1.0:+.1e} a year, {cycle / wanted - 1.0:+.1e} a cycle")
    assert year == pytest.approx(wanted, rel=1e-2)
    assert cycle == pytest.approx(wanted, rel=1e-3)


@pytest.mark.outside(
    source="the same chain from a record: 60 days of M2 + S2 (0.3) fitted, a year predicted: 0.50841 of M2 cubed",
    status="closed form",
    tolerance="6e-3",
)
def test_mean_cube_from_a_record() -> None:
    time = START + 600 * np.arange(60 * 144, dtype=np.int64)
    hours = (time - START) / 3600.0
    along = 2.0 * np.cos(np.radians(28.9841042 * hours)) + 0.6 * np.cos(np.radians(30.0 * hours))
    found = site_from_tide(
        tide(tide_record(time, along=along), math.radians(55.0), nodal=False, infer=False),
        AT_ONCE,
        first_year=2026,
        period="year",
    )
    assert found.water.mean_cube_speed**3 / 8.0 == pytest.approx(0.510842, rel=6e-3)


@pytest.mark.outside(
    source="neap over spring peak (1 - r) / (1 + r), by r = S2/M2: 0.538462 at 0.3, 0.481481 at 0.35",
    status="closed form",
    tolerance="2 %: a lunar day reaches half a day from the exact spring or neap",
)
@pytest.mark.parametrize("ratio", [0.3, 0.35])
def test_springs_and_neaps(ratio: float, record_property: Record) -> None:
    found = site(2.0, 2.0 * ratio, period="nodal cycle").springs
    wanted = (1.0 - ratio) / (1.0 + ratio)
    record_property("measured", f"{found.neap_peak / found.spring_peak / wanted - 1.0:+.1e} at {ratio}")
    assert found.neap_peak / found.spring_peak == pytest.approx(wanted, rel=0.02)
    assert found.spring_peak == pytest.approx(2.0 * (1.0 + ratio), rel=0.01)


@pytest.mark.outside(
    source="histogram of a sinusoid, 2.5 m/s: fraction below v is (2/pi) asin(v/U); 0.261980 below 1 m/s",
    status="closed form",
    tolerance="2e-3 of time",
)
def test_histogram_of_a_sinusoid(record_property: Record) -> None:
    found = site(2.5, 0.0, cut_in_speed=1.0)
    edge, share = found.water.edge, found.water.share
    below = np.concatenate(([0.0], np.cumsum(share)))
    wanted = 2.0 / np.pi * np.arcsin(np.minimum(edge / 2.5, 1.0))
    record_property("measured", f"{np.abs(below - wanted).max():.1e} of time at most")
    assert below == pytest.approx(wanted, abs=2e-3)
    assert found.below_cut_in == pytest.approx(0.261980, abs=2e-3)


@pytest.mark.outside(
    source="1 MW, 16 m, CP 0.40, 1025 kg/m3, cut-in 1.0 m/s in a sinusoid of 2.5 m/s: 2370.06 MWh, "
    "capacity factor 0.270555",
    status="closed form",
    tolerance="0.2 % through constituents, prediction, climate of 0.025 m/s and the yearly energy",
)
def test_energy_of_a_predicted_year(record_property: Record) -> None:
    climate = site(2.5, 0.0, bin_width=0.025).site.climate
    coefficient = 0.5 * 1025.0 * np.pi / 4.0 * 16.0**2 * 0.40
    speed = np.linspace(0.0, 4.0, 801)
    power = np.minimum(1e6, coefficient * speed**3)
    year = yearly_energy(
        climate.edge, climate.share, speed, power, availability=1.0, rated_power=1e6, cut_in_speed=1.0
    )
    record_property("measured", f"{100.0 * (year.total.value / 3.6e9 / 2370.06 - 1.0):+.2f} %")
    assert year.total.value / 3.6e9 == pytest.approx(2370.06, rel=2e-3)
    assert year.capacity_factor == pytest.approx(0.270555, rel=2e-3)


@pytest.mark.outside(
    source="M2 cubed swings by (1.037/0.963)^3 = 1.249 over the nodal cycle",
    status="closed form",
    tolerance="2 %: yearly means",
)
def test_nodal_swing_of_energy(record_property: Record) -> None:
    found = site(2.0, 0.0, period="nodal cycle", nodal=True, step=1800.0).yearly_cube
    record_property("measured", f"{found.max() / found.min():.3f}")
    assert found.max() / found.min() == pytest.approx(1.249, rel=0.02)
