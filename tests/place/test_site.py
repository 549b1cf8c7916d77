"""The site: the chain by hand, standings, grounding, remarks, refusals."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place import reach, site_from_discharge, site_from_histogram, site_from_speed
from racewright.place.profile import cube_mean_speed
from racewright.place.rating import Rating
from racewright.place.result import Series, Site
from racewright.place.transect import Transect

DAY = 86400
BOX = Transect(np.array([0.0, 15.0, 30.0]), np.array([0.0, 0.0, 0.0]))
RATING = Rating(40.0, 0.0, 1.6)


def _series(value: np.ndarray, kind: str = "discharge", step: int = DAY) -> Series:
    return Series(kind, np.arange(value.size, dtype=np.int64) * step, value)  # type: ignore[arg-type]


def _flow(years: float = 11.0, low: float = 60.0, high: float = 300.0) -> Series:
    count = int(years * 365.25)
    return _series(low + (high - low) * np.random.default_rng(7).random(count))


def _about(site: Site) -> dict[str, str]:
    return {remark.about: remark.severity for remark in site.remarks}


def test_the_chain_by_hand_in_a_box() -> None:
    """A box of 30 m: level (Q/40)^(1/1.6), speed Q / (30 level), the same at every vertical."""
    site = site_from_discharge(_flow(), RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
    for standing in site.standings:
        level = (standing.discharge / 40.0) ** (1.0 / 1.6)
        mean = standing.discharge / (30.0 * level)
        assert standing.level == pytest.approx(level, rel=1e-12)
        assert standing.depth == pytest.approx(level, rel=1e-12)
        assert standing.cover == pytest.approx(0.2, abs=1e-12)
        assert standing.clearance == pytest.approx(level - 1.4, abs=1e-12)
        assert standing.speed == pytest.approx(float(cube_mean_speed(mean, level, level - 0.8, 0.5)), rel=1e-12)
    assert [s.label for s in site.standings] == ["low water (Q95)", "median", "high water (Q5)"]
    assert site.years == pytest.approx(11.0, abs=0.01)
    assert site.climate.share.sum() == pytest.approx(1.0, abs=1e-12)


def test_lowest_and_fastest_water_are_those_of_the_record() -> None:
    series = _flow(low=110.0)
    site = site_from_discharge(series, RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
    assert site.lowest is not None
    assert site.fastest is not None
    assert site.lowest.discharge == series.value.min()
    assert site.lowest.depth == pytest.approx((series.value.min() / 40.0) ** (1.0 / 1.6), rel=1e-12)
    assert site.fastest.discharge == series.value.max()  # deeper is faster in a box


def test_speed_climate_and_curve_agree_while_afloat() -> None:
    series = _flow(low=110.0)
    site = site_from_discharge(series, RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
    assert site.speed_curve is not None
    assert site.climate.mean_speed == pytest.approx(float(site.speed_curve.value.mean()), rel=1e-12)


def test_aground_counts_no_speed_in_the_climate_only() -> None:
    series = _flow(low=10.0)
    site = site_from_discharge(series, RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
    assert site.speed_curve is not None
    assert site.values == series.value.size
    assert site.standings[0].clearance < 0.0
    assert site.standings[0].speed > 0.2
    assert _about(site)["clearance"] == "warning"
    level = (series.value / 40.0) ** (1.0 / 1.6)
    assert site.climate.share[0] == pytest.approx(float((level < 1.4).mean()), rel=1e-9)
    assert site.climate.mean_speed < float(site.speed_curve.value.mean())


def test_tight_clearance_is_a_caution_and_ample_none() -> None:
    low = 40.0 * 1.5**1.6
    for flow, expected in ((low, "caution"), (low * 2.0, None)):
        series = _series(np.full(4100, flow))
        site = site_from_discharge(series, RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
        assert _about(site).get("clearance") == expected


def test_aground_only_at_the_lowest_water_is_a_caution() -> None:
    value = np.full(4100, 200.0)
    value[:40] = 30.0
    site = site_from_discharge(_series(value), RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
    assert _about(site)["clearance"] == "caution"
    assert site.climate.share[0] == pytest.approx(40 / 4100)


def test_a_machine_on_a_post_comes_out_of_low_water() -> None:
    series = _flow(low=20.0)
    site = site_from_discharge(series, RATING, BOX, 15.0, hub_height=0.7, outer_radius=0.6, capture_radius=0.5)
    low = site.standings[0]
    assert low.cover == pytest.approx(low.level - 1.3)
    assert low.cover < 0.0
    assert low.clearance == pytest.approx(0.1, abs=1e-12)
    assert _about(site)["cover"] == "warning"
    out = (series.value / 40.0) ** (1.0 / 1.6) < 1.3
    assert site.climate.share[0] == pytest.approx(float(out.mean()), rel=1e-9)
    assert _about(site)["clearance"] == "caution"


def test_little_cover_is_a_caution() -> None:
    site = site_from_discharge(_flow(), RATING, BOX, 15.0, hub_depth=0.65, outer_radius=0.6, capture_radius=0.5)
    assert _about(site)["cover"] == "caution"


def test_a_measured_speed_factor_replaces_the_estimate() -> None:
    vee = Transect(np.array([0.0, 20.0, 40.0]), np.array([6.0, 0.0, 6.0]))
    site = [
        site_from_discharge(
            _flow(),
            RATING,
            vee,
            20.0,
            hub_depth=0.8,
            outer_radius=0.6,
            capture_radius=0.5,
            speed_factor=factor,
        )
        for factor in (None, 1.0, 2.0)
    ]
    speed = [s.standings[1].speed for s in site]
    # A vee: area d^2 T/2d, integral of depth^(5/3) = (3/8) T d^(5/3), so the ratio at the middle is 4/3.
    assert speed[0] / speed[1] == pytest.approx(4.0 / 3.0, rel=1e-12)
    assert speed[2] / speed[1] == pytest.approx(2.0, rel=1e-12)
    assert "speed across the river" in _about(site[0])
    assert "speed across the river" not in _about(site[1])


def test_record_length_gaps_banks_and_fast_water_are_told() -> None:
    short = site_from_discharge(_flow(2.0), RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
    assert _about(short)["record length"] == "caution"
    assert _about(short)["banks"] == "caution"
    days = site_from_discharge(_flow(0.5), RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
    assert _about(days)["record length"] == "warning"
    series = dataclasses.replace(_flow(), blank=12)
    fast = site_from_discharge(
        series, Rating(150.0, 0.0, 1.6), BOX, 15.0, hub_height=0.7, outer_radius=0.6, capture_radius=0.5
    )
    assert _about(fast)["gaps"] == "note"
    assert _about(fast)["Froude number"] == "warning"
    brisk = site_from_discharge(
        series, Rating(85.0, 0.0, 1.5), BOX, 15.0, hub_height=0.7, outer_radius=0.6, capture_radius=0.5
    )
    assert _about(brisk)["Froude number"] == "caution"
    long = site_from_discharge(_flow(), RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
    assert not {"record length", "gaps", "Froude number"} & set(_about(long))


def test_a_dry_river_stands_still() -> None:
    value = np.full(4100, 200.0)
    value[::2] = 0.0
    site = site_from_discharge(_series(value), RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5)
    assert site.standings[0].speed == 0.0
    assert site.standings[0].depth == 0.0
    assert site.climate.share[0] == pytest.approx(0.5)


def test_contradictions_are_refused() -> None:
    keep = {"outer_radius": 0.6, "capture_radius": 0.5}
    with pytest.raises(InputError, match="speed was given"):
        site_from_discharge(_series(np.ones(40), "speed"), RATING, BOX, 15.0, hub_depth=0.8, **keep)
    with pytest.raises(InputError, match="exactly one"):
        site_from_discharge(_flow(), RATING, BOX, 15.0, hub_depth=0.8, hub_height=1.0, **keep)
    with pytest.raises(InputError, match="exactly one"):
        site_from_discharge(_flow(), RATING, BOX, 15.0, **keep)
    with pytest.raises(InputError, match="through the surface"):
        site_from_discharge(_flow(), RATING, BOX, 15.0, hub_depth=0.5, **keep)
    with pytest.raises(InputError, match="through the bed"):
        site_from_discharge(_flow(), RATING, BOX, 15.0, hub_height=0.5, **keep)
    with pytest.raises(InputError, match="outside the transect"):
        site_from_discharge(_flow(), RATING, BOX, 29.9, hub_depth=0.8, **keep)
    with pytest.raises(InputError, match="one datum"):
        site_from_discharge(_flow(), Rating(40.0, -9.0, 1.6), BOX, 15.0, hub_depth=0.8, **keep)
    with pytest.raises(InputError, match="capture radius"):
        site_from_discharge(_flow(), RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.7)
    with pytest.raises(InputError, match="speed factor"):
        site_from_discharge(_flow(), RATING, BOX, 15.0, hub_depth=0.8, speed_factor=np.nan, **keep)


def test_a_speed_record_and_a_histogram() -> None:
    speed = _series(np.tile([0.5, 1.5], 2200), "speed")
    site = site_from_speed(speed, depth=3.0, hub_depth=1.0, outer_radius=0.6)
    assert site.climate.mean_speed == pytest.approx(1.0)
    assert site.standings == ()
    assert site.remarks == ()
    assert _about(site_from_speed(speed)) == {"clearance": "note"}
    assert _about(site_from_speed(speed, depth=1.7, hub_depth=1.0, outer_radius=0.6))["clearance"] == "caution"
    with pytest.raises(InputError, match="below the bed"):
        site_from_speed(speed, depth=1.5, hub_depth=1.0, outer_radius=0.6)
    with pytest.raises(InputError, match="discharge was given"):
        site_from_speed(_flow())
    told = site_from_histogram([0.0, 1.0, 2.0], [0.5, 0.5], depth=3.0, hub_depth=1.0, outer_radius=0.6)
    assert told.climate.mean_speed == pytest.approx(1.0)
    assert told.values == 0
    assert _about(told) == {"record length": "note"}


def test_a_million_rows_give_the_same_answer_as_their_pattern() -> None:
    """Ten-minute record of a thousand values repeated a thousand times: same shares as the thousand alone."""
    pattern = _flow(3.0).value[:1000]
    keep = {"hub_depth": 0.8, "outer_radius": 0.6, "capture_radius": 0.5}
    long = site_from_discharge(_series(np.tile(pattern, 1000), step=600), RATING, BOX, 15.0, **keep)
    once = site_from_discharge(_series(pattern, step=600), RATING, BOX, 15.0, **keep)
    np.testing.assert_allclose(long.climate.share, once.climate.share, atol=1e-9)
    assert long.climate.mean_cube_speed == pytest.approx(once.climate.mean_cube_speed, rel=1e-9)


def test_discharges_carried_in_blocks_give_the_same_bytes(monkeypatch: pytest.MonkeyPatch) -> None:
    keep = {"hub_depth": 0.8, "outer_radius": 0.6, "capture_radius": 0.5}
    whole = site_from_discharge(_flow(3.0), RATING, BOX, 15.0, **keep)
    monkeypatch.setattr(reach, "BLOCK", 64)
    blocks = site_from_discharge(_flow(3.0), RATING, BOX, 15.0, **keep)
    assert whole.climate.share.tobytes() == blocks.climate.share.tobytes()
    assert whole.standings == blocks.standings
    assert whole.remarks == blocks.remarks


def test_flows_beyond_the_gaugings_are_told() -> None:
    def told(gauged: tuple[float, float]) -> dict[str, str]:
        site = site_from_discharge(
            _flow(), RATING, BOX, 15.0, hub_depth=0.8, outer_radius=0.6, capture_radius=0.5, gauged=gauged
        )
        return _about(site)

    assert "rating" not in told((50.0, 400.0))
    assert told((50.0, 250.0))["rating"] == "caution"
    assert told((50.0, 299.0))["rating"] == "note"
    for bad in ((50.0, np.inf), (np.nan, 100.0), (100.0, 50.0)):
        with pytest.raises(InputError, match="gauged"):
            told(bad)
