"""Rating, share of discharge across the river, and the whole chain on a public record."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from racewright.place import site_from_discharge
from racewright.place.lateral import local_ratio
from racewright.place.placement import Placement
from racewright.place.rating import Rating, discharge_at, level_at
from racewright.place.reach import Reach, flow_at
from racewright.place.transect import Transect
from racewright.records.table_csv import read_columns
from tests.external.record import Record
from tests.external.test_place_duration import DATA, KAFU, fish_river


@pytest.mark.outside(
    source="Course example of a rating: Q = 15 (h - 0.5)^1.5 at h = 2.5 m gives 15 x 2^1.5 m3/s",
    status="published",
    tolerance="1e-12, exact arithmetic",
)
def test_rating_example() -> None:
    rating = Rating(15.0, 0.5, 1.5)
    assert float(discharge_at(rating, 2.5)) == pytest.approx(42.4264, abs=5e-5)
    assert float(discharge_at(rating, 2.5)) == pytest.approx(15.0 * 2.0**1.5, rel=1e-12)
    assert float(level_at(rating, 42.42640687119285)) == pytest.approx(2.5, rel=1e-12)


def invented_transect(name: str) -> Transect:
    """A transect of the test data."""
    table = read_columns(Path(DATA / name), {"distance_m": "m", "bed_level_m": "m"}, name)
    return Transect(table["distance_m"], table["bed_level_m"])


@pytest.mark.outside(
    source="Conservation: depth-mean speed x depth, integrated across the river, is the discharge",
    status="closed form",
    tolerance="2e-7: midpoint rule on 200 000 strips, whose error sits at the water line",
)
@pytest.mark.parametrize("level", [0.6, 1.4, 3.0, 8.0])
def test_discharge_is_conserved_across_the_river(level: float, record_property: Record) -> None:
    transect = invented_transect("fish_river_invented_transect.csv")
    two_channels = Transect(np.array([0.0, 3.0, 7.0, 11.0, 18.0]), np.array([9.0, 0.0, 1.2, 0.4, 9.0]))
    miss = 0.0
    for river in (transect, two_channels):
        width = float(river.distance[-1])
        strips = (np.arange(200_000) + 0.5) / 200_000 * width
        depth = np.maximum(level - np.interp(strips, river.distance, river.bed_level), 0.0)
        place = float(river.distance[1])
        at_place = float(river.depth_at(place, level))
        if at_place == 0.0:
            place = float(river.distance[len(river.distance) // 2])
            at_place = float(river.depth_at(place, level))
        ratio = float(local_ratio(river, place, level)) * (depth / at_place) ** (2.0 / 3.0)
        carried = float((ratio * depth).sum()) * width / 200_000
        area = float(river.wetted_area(level))
        miss = max(miss, abs(carried / area - 1.0))
        assert carried == pytest.approx(area, rel=2e-7)
    record_property("measured", f"{miss:.0e} at level {level:g} m")


@pytest.mark.outside(
    source="Parabola of top width T and depth d: area 2Td/3; Euler's beta integral for "
    "depth^(5/3): the ratio at the middle is (2/3) / (B(1/2, 8/3) / 2)",
    status="closed form",
    tolerance="2e-4 with 80 straight pieces, falling as the square of their number",
)
def test_ratio_of_a_parabola_converges(record_property: Record) -> None:
    from scipy.special import beta

    exact = (2.0 / 3.0) / (0.5 * float(beta(0.5, 8.0 / 3.0)))
    error = []
    for pieces in (20, 40, 80):
        x = np.linspace(-1.0, 1.0, pieces + 1)
        error.append(abs(float(local_ratio(Transect(x, x**2), 0.0, 1.0)) / exact - 1.0))
    order = np.log2(error[1] / error[2])
    record_property("measured", f"{error[2]:.1e} with 80 pieces, order {order:.2f}")
    assert error[2] < 2e-4
    assert np.log2(error[0] / error[1]) == pytest.approx(2.0, abs=0.15)
    assert np.log2(error[1] / error[2]) == pytest.approx(2.0, abs=0.15)


@pytest.mark.outside(
    source="Normal depth of a 30 m rectangle, n 0.03, slope 0.0008, for the flows of the "
    "River Kafu: day 1 depth 2.36781 m, speed 1.51898 m/s; day 11 1.72889 m, 1.26285 "
    "m/s, by a separate Manning solver",
    status="computed",
    tolerance="3e-3: the power-law rating is fitted to the two days, so the days between test it",
)
def test_kafu_chain_in_a_rectangle(record_property: Record) -> None:
    depth = {0: (2.36781, 1.51898), 5: (2.26782, 1.4816), 8: (1.90566, 1.33812), 10: (1.72889, 1.26285)}
    flow = np.array(KAFU)
    exponent = float(np.log(flow[0] / flow[10]) / np.log(depth[0][0] / depth[10][0]))
    rating = Rating(float(flow[0] / depth[0][0] ** exponent), 0.0, exponent)
    box = Transect(np.array([0.0, 15.0, 30.0]), np.zeros(3))
    water = flow_at(Reach(rating, box, Placement(15.0, 0.5, 0.5, hub_depth=0.8)), flow)
    miss = max(max(abs(water.level[d] / a - 1.0), abs(water.mean_speed[d] / b - 1.0)) for d, (a, b) in depth.items())
    record_property("measured", f"{miss:.1e} at most, level and speed")
    for day, (level, speed) in depth.items():
        assert water.level[day] == pytest.approx(level, rel=3e-3)
        assert water.mean_speed[day] == pytest.approx(speed, rel=3e-3)


@pytest.mark.outside(
    source="Fish River record (US Geological Survey 01013500, 2019-2020) through an "
    "invented reach; discharges Q95, Q50, Q5 in m3/s from 86.8, 895, 5750 ft3/s, "
    "depths redone by hand in the test",
    status="computed",
    tolerance="1e-4 on discharge, 1e-9 on depth",
)
def test_fish_river_through_an_invented_reach_grounds_at_low_water() -> None:
    transect = invented_transect("fish_river_invented_transect.csv")
    site = site_from_discharge(
        fish_river(),
        Rating(7.4, 0.0, 2.05),
        transect,
        15.0,
        hub_depth=0.75,
        outer_radius=0.6,
        capture_radius=0.5,
    )
    for standing, cubic_feet in zip(site.standings, (86.8, 895.0, 5750.0), strict=True):
        assert standing.discharge == pytest.approx(cubic_feet * 0.3048**3, rel=1e-4)
        assert standing.depth == pytest.approx((standing.discharge / 7.4) ** (1 / 2.05), rel=1e-9)
    assert site.standings[0].clearance < -0.7
    assert site.standings[1].clearance > 0.4
    told = {remark.about: remark.severity for remark in site.remarks}
    assert told["clearance"] == "warning"
    assert told["record length"] == "caution"
    assert site.years == pytest.approx(731 / 365.25)
