"""Season: closures by date, limits, shares that add up, and what the site counts."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place import site_from_discharge, site_from_speed
from racewright.place.rating import Rating
from racewright.place.result import Series
from racewright.place.season import Closure, Season, months_closed, outages
from racewright.place.transect import Transect

DAY = 86400
YEAR = np.arange(np.datetime64("2001-01-01"), np.datetime64("2002-01-01")).astype("datetime64[s]").astype(np.int64)
WEIGHT = np.full(365, float(DAY))
FLAT = np.full(365, 1.5)


def out_days(season: Season, speed: np.ndarray = FLAT, depth: np.ndarray | None = None) -> int:
    return int(outages(season, YEAR, speed, depth, WEIGHT)[0].sum())


def test_spans_count_both_ends_and_run_over_the_new_year() -> None:
    assert out_days(Season((Closure("upkeep", (6, 1), (6, 1)),))) == 1
    assert out_days(Season((Closure("ice", (12, 1), (2, 29)),))) == 31 + 31 + 28
    assert out_days(Season(months_closed("ice", (1, 2, 12)))) == 31 + 31 + 28


def test_limits_of_depth_and_speed() -> None:
    speed = np.linspace(0.0, 3.64, 365)
    assert out_days(Season(least_speed=1.0), speed) == 100
    assert out_days(Season(greatest_speed=3.0), speed) == 64
    assert out_days(Season(least_depth=1.0), FLAT, speed) == 100


def test_a_time_with_two_causes_goes_to_the_first() -> None:
    season = Season((Closure("ice", (1, 1), (1, 31)), Closure("upkeep", (1, 20), (2, 9))))
    out, shares = outages(season, YEAR, FLAT, None, WEIGHT)
    assert [s.cause for s in shares] == ["ice", "upkeep"]
    np.testing.assert_allclose([s.share for s in shares], [31 / 365, 9 / 365])
    assert sum(s.share for s in shares) == pytest.approx(out.mean())


def test_the_site_counts_no_speed_while_out_and_keeps_the_open_year_beside() -> None:
    series = Series("speed", YEAR, np.random.default_rng(4).uniform(0.6, 2.0, 365))
    plain = site_from_speed(series)
    site = site_from_speed(series, season=Season(months_closed("ice", (1, 2))))
    assert plain.open_climate is None
    assert plain.calendar is not None
    assert site.open_climate is not None
    assert site.calendar is not None
    np.testing.assert_array_equal(site.open_climate.share, plain.climate.share)
    np.testing.assert_array_equal(site.open_calendar.month_share, plain.calendar.month_share)  # type: ignore[union-attr]
    assert site.climate.share[0] == pytest.approx(59 / 365)
    assert site.calendar.month_share[0, 0] == 1.0
    assert site.calendar.month_share[2, 0] == 0.0
    assert site.outages[0].share == pytest.approx(59 / 365)
    assert "season" in {r.about for r in site.remarks}


def test_a_least_depth_reads_the_river() -> None:
    flow = Series("discharge", YEAR, np.linspace(20.0, 300.0, 365))
    box = Transect(np.array([0.0, 15.0, 30.0]), np.zeros(3))
    site = site_from_discharge(
        flow,
        Rating(40.0, 0.0, 1.6),
        box,
        15.0,
        hub_depth=0.8,
        outer_radius=0.6,
        capture_radius=0.5,
        season=Season(least_depth=2.5),
    )
    shallow = (flow.value / 40.0) ** (1 / 1.6) < 2.5
    assert site.outages[0].share == pytest.approx(shallow.mean())
    assert site.climate.share[0] == pytest.approx(shallow.mean())
    with pytest.raises(InputError, match="depth"):
        site_from_speed(Series("speed", YEAR, FLAT), season=Season(least_depth=1.0))


@pytest.mark.parametrize(
    "make",
    [
        lambda: Closure("ice", (2, 30), (3, 1)),
        lambda: Closure("ice", (13, 1), (3, 1)),
        lambda: months_closed("ice", (0,)),
        lambda: months_closed("ice", (1, 1)),
        lambda: Season(least_depth=np.nan),
        lambda: Season(least_speed=2.0, greatest_speed=1.0),
    ],
)
def test_bad_seasons_are_refused(make) -> None:
    with pytest.raises(InputError):
        make()
