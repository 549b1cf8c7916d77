"""Climate from spot speeds: recovery, width of the band, remarks, refusals."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place.duration import duration_curve
from racewright.place.result import DurationCurve
from racewright.place.shape import FlowShape, Shape, WeibullShape
from racewright.place.spot import LEAST_ERROR, SpotClimate, SpotSpeed, site_from_spots, spot_at, spot_climate

DAY = 86400
GAUGE = duration_curve(np.exp(np.random.default_rng(3).normal(3.0, 0.8, 3650)))


def spots(
    shape: Shape, median: float, exceedances: list[float], factor: list[float] | None = None
) -> tuple[SpotSpeed, ...]:
    speed = median * shape.ratio(np.array(exceedances)) * np.array(factor or [1.0] * len(exceedances))
    return tuple(
        SpotSpeed(i * 60 * DAY, float(v), p, p) for i, (v, p) in enumerate(zip(speed, exceedances, strict=True))
    )


def told(found: SpotClimate) -> list[str]:
    return [remark.severity for remark in found.remarks]


@pytest.mark.parametrize("shape", [FlowShape(GAUGE), WeibullShape(3.0)])
def test_spots_on_the_shape_give_it_back(shape: Shape) -> None:
    found = spot_climate(spots(shape, 1.4, [0.9, 0.7, 0.5, 0.3, 0.1]), shape)
    assert found.median_speed == pytest.approx(1.4, rel=1e-12)
    assert float(np.abs(found.residual).max()) < 1e-12
    assert found.scatter_error < spot_climate(spots(shape, 1.4, [0.9, 0.5]), shape).scatter_error
    assert found.relative_standard >= LEAST_ERROR
    assert float(np.interp(0.5, found.speed_curve.exceedance, found.speed_curve.value)) == pytest.approx(
        1.4, rel=1e-3
    )
    assert told(found)[0] == "warning"
    assert "not recorded" in found.remarks[0].text


def test_scatter_is_widened_with_few_spots() -> None:
    shape = WeibullShape(3.0, shape_error=0.0)
    two = spot_climate(spots(shape, 1.0, [0.8, 0.2], [1.1, 1 / 1.1]), shape)
    eight = spot_climate(spots(shape, 1.0, list(np.linspace(0.1, 0.9, 8)), [1.1, 1 / 1.1] * 4), shape)
    assert two.scatter_error > 2.0 * eight.scatter_error
    one = spot_climate(spots(shape, 1.0, [0.8]), shape)
    assert two.scatter_error < one.scatter_error
    assert two.low_factor == pytest.approx(1.0 / two.high_factor)
    assert "caution" in told(two)


def test_a_flow_known_only_by_a_word_is_less_certain() -> None:
    shape = WeibullShape(2.5)
    by_word = spot_climate((spot_at(0, 1.0, "low"), spot_at(200 * DAY, 1.8, "high")), shape)
    by_gauge = spot_climate((SpotSpeed(0, 1.0, 0.85, 0.85), SpotSpeed(200 * DAY, 1.8, 0.16, 0.16)), shape)
    assert by_gauge.flow_error == 0.0
    assert by_word.flow_error > 0.1
    assert by_word.relative_standard > by_gauge.relative_standard


def test_one_sided_spots_leave_the_shape_in_doubt() -> None:
    shape = FlowShape(GAUGE)
    low = spot_climate(spots(shape, 1.4, [0.95, 0.9, 0.85, 0.9]), shape)
    across = spot_climate(spots(shape, 1.4, [0.95, 0.6, 0.3, 0.05]), shape)
    assert low.shape_error > 2.5 * across.shape_error
    assert any("low and at high water" in r.text for r in low.remarks)
    assert not any("low and at high water" in r.text for r in across.remarks)


def test_a_single_spot_and_one_season_are_told() -> None:
    shape = WeibullShape(3.0)
    one = spot_climate((SpotSpeed(0, 1.2, 0.5, 0.5),), shape)
    assert one.scatter_error == pytest.approx(0.15 * 2.776445 / 2.0)  # t of 4 degrees of freedom, published table
    close = spot_climate((SpotSpeed(0, 1.2, 0.5, 0.5), SpotSpeed(DAY, 1.4, 0.1, 0.1)), shape)
    assert any("one season" in r.text for r in close.remarks)


def test_the_site_is_no_record() -> None:
    shape = WeibullShape(3.0)
    site = site_from_spots(
        spot_climate(spots(shape, 1.4, [0.9, 0.1]), shape), depth=3.0, hub_depth=0.8, outer_radius=0.6
    )
    assert (site.values, site.years, site.calendar) == (0, 0.0, None)
    assert site.climate.share.sum() == pytest.approx(1.0)
    assert site.remarks[0].severity == "warning"


@pytest.mark.parametrize(
    "make",
    [
        lambda: SpotSpeed(0, np.nan, 0.5, 0.5),
        lambda: SpotSpeed(0, 1.0, 0.2, 0.5),
        lambda: SpotSpeed(0, 1.0, 1.0, 0.5),
        lambda: spot_at(0, 1.0, "flood"),
        lambda: spot_climate((), WeibullShape(2.0)),
        lambda: WeibullShape(np.inf),
        lambda: FlowShape(GAUGE, exponent=0.0),
        lambda: FlowShape(DurationCurve(np.array([1.0, 0.0, 0.0]), np.array([0.25, 0.5, 0.75]))),
        lambda: spot_climate(
            (SpotSpeed(0, 1.0, 0.75, 0.75),),
            FlowShape(DurationCurve(np.array([2.0, 1.0, 0.0]), np.array([0.25, 0.5, 0.75]))),
        ),
    ],
)
def test_bad_spots_are_refused(make) -> None:
    with pytest.raises(InputError):
        make()
