"""Spot speeds and sensitivities against closed forms."""

from __future__ import annotations

import math

import numpy as np
import pytest

from racewright.place.placement import Placement
from racewright.place.rating import Rating
from racewright.place.reach import Reach
from racewright.place.result import DurationCurve
from racewright.place.shape import FlowShape, WeibullShape
from racewright.place.speed_uncertainty import RiverErrors, SpeedCause, combined, river_causes
from racewright.place.spot import SpotSpeed, spot_at, spot_climate
from racewright.place.transect import Transect
from tests.external.record import Record
from tests.external.supply_rows import rows


@pytest.mark.outside(
    source="Rayleigh distribution (shape 2) with mean 1.5 m/s: median c sqrt(ln 2), mean cube (6/pi) mean^3",
    status="closed form",
    tolerance="5e-4 on the mean, 1e-3 on the factor: 2000 equal parts of time cut the tail of the cube",
)
def test_one_spot_at_the_median_of_a_rayleigh_year(record_property: Record) -> None:
    c = 1.5 / math.gamma(1.5)
    spot = SpotSpeed(0, c * math.sqrt(math.log(2.0)), 0.5, 0.5)
    found = spot_climate((spot,), WeibullShape(2.0)).climate
    pattern = found.mean_cube_speed**3 / found.mean_speed**3
    record_property("measured", f"pattern factor {pattern:.5f}")
    assert found.mean_speed == pytest.approx(1.5, rel=5e-4)
    assert pattern == pytest.approx(6.0 / math.pi, rel=1e-3)


@pytest.mark.outside(
    source="Weibull: mean cube over the cube of the mean Gamma(1 + 3/k)/Gamma(1 + 1/k)^3, table of k from 1.5 to 8",
    status="closed form",
    tolerance="0.3 % at k = 1.5, less above: 2000 equal parts of time cut the tail of the cube",
)
def test_pattern_factors_of_weibull_years(record_property: Record) -> None:
    miss = 0.0
    for row in rows("place_weibull"):
        k = float(row["k"])
        if k >= 1.5:
            found = spot_climate((SpotSpeed(0, 1.3, 0.4, 0.4),), WeibullShape(k)).climate
            miss = max(miss, abs(found.mean_cube_speed**3 / found.mean_speed**3 / float(row["EPF"]) - 1.0))
    record_property("measured", f"{100.0 * miss:.2f} % at most")
    assert miss < 3e-3


@pytest.mark.outside(
    source="uniform distribution: half its range over sqrt(3); Weibull of shape 3 between exceedances 0.70 and 0.99; "
    "discharge twice the median to the power 0.34 is 2^0.34 times the median speed",
    status="closed form",
    tolerance="1e-12",
)
def test_a_flow_known_by_a_word_and_a_shape_from_a_gauge() -> None:
    found = spot_climate((spot_at(0, 1.0, "low"),), WeibullShape(3.0))
    ends = [math.log(-math.log(p)) / 3.0 for p in (0.70, 0.99)]
    assert found.flow_error == pytest.approx(0.5 * (ends[0] - ends[1]) / math.sqrt(3.0), rel=1e-12)
    gauge = DurationCurve(np.array([40.0, 20.0, 5.0]), np.array([0.25, 0.5, 0.75]))
    np.testing.assert_allclose(
        FlowShape(gauge).ratio(np.array([0.1, 0.25, 0.5, 0.75])), [2**0.34, 2**0.34, 1.0, 0.25**0.34], rtol=1e-12
    )


@pytest.mark.outside(
    source="box of width B, discharge C h^b, axis at a depth below the surface, profile 1/n, a small disc: U = "
    "Q/(B h) (1 + 1/n) (1 - a/h)^(1/n) with h = (Q/C)^(1/b), differentiated by hand",
    status="closed form",
    tolerance="1e-3: central differences of 1 %, disc of 1 cm",
)
def test_sensitivities_in_a_box(record_property: Record) -> None:
    b, n, a, h = 1.7, 6.0, 0.5, 2.0
    box = Transect(np.array([0.0, 15.0, 30.0]), np.zeros(3))
    reach = Reach(Rating(40.0, 0.0, b), box, Placement(15.0, 0.01, 0.01, hub_depth=a), n)
    flow = 40.0 * h**b
    curve = DurationCurve(np.full(3, flow), np.array([0.25, 0.5, 0.75]))
    found = {c.cause: c.sensitivity for c in river_causes(reach, curve, RiverErrors())}
    by_level = -1.0 + a / h / (n * (1.0 - a / h))
    by_n = -1.0 / (n + 1.0) - math.log(1.0 - a / h) / n
    miss = {
        "rating": found["rating"] + by_level / b,
        "discharge record": found["discharge record"] - (1.0 + by_level / b),
        "vertical profile": found["vertical profile"] - by_n,
    }
    record_property("measured", f"{max(abs(m) for m in miss.values()):.0e} at most")
    for cause, difference in miss.items():
        assert abs(difference) < 1e-3, cause
    here = {c.cause: c.sensitivity for c in river_causes(reach, curve, RiverErrors(), rated_here=True)}
    assert here["rating"] == 1.0
    assert "discharge record" not in here


@pytest.mark.outside(
    source="independent relative uncertainties add as the root of squares (GUM): 3, 4 and 12 % give 13 %",
    status="closed form",
    tolerance="1e-12",
)
def test_root_of_squares() -> None:
    causes = (SpeedCause("a", 0.03, 1.0), SpeedCause("b", 0.08, -0.5), SpeedCause("c", 0.04, 3.0))
    assert combined(causes) == pytest.approx(0.13, rel=1e-12)
