"""What the place and the energy give goes through the cache and comes back the same, and prints with units."""

from __future__ import annotations

import dataclasses
from typing import Any

import numpy as np
import pytest

from racewright.cli.encode import to_json
from racewright.ledger.classes import CLASSES
from racewright.ledger.codec import decode, encode
from racewright.place import discharge, rating, site_from_speed
from racewright.place.rating_band import rating_band
from racewright.place.result import Series
from racewright.place.season import Season, months_closed
from racewright.place.shape import WeibullShape
from racewright.place.soundings import Vertical
from racewright.place.speed_uncertainty import SpeedCause
from racewright.place.spot import spot_at, spot_climate
from racewright.supply.availability import availability, stops
from racewright.supply.months import energy_by_month
from racewright.supply.power_table import PowerTable
from racewright.supply.resample import resampled_mean
from racewright.supply.river_share import river_share
from racewright.supply.speed_band import energy_band
from racewright.supply.turbulence import turbulence
from racewright.supply.years import energy_by_year
from racewright.uncertainty import Band

TIME = np.arange(np.datetime64("2001-01-01"), np.datetime64("2004-01-01")).astype("datetime64[s]").astype(np.int64)
SITE = site_from_speed(
    Series("speed", TIME, np.random.default_rng(1).uniform(0.5, 2.5, TIME.size)),
    season=Season(months_closed("ice", (1,))),
)
SPEED = np.linspace(0.0, 4.0, 41)
TABLE = PowerTable(SPEED, 100.0 * SPEED**3, 0.5, 6400.0)
EDGE, SHARE = SITE.climate.edge, SITE.climate.share
FIT = rating([0.8, 1.0, 1.4, 2.0], [3.0, 5.2, 11.0, 23.0], zero_level=0.1)
assert SITE.calendar is not None
YEARS = energy_by_year(SITE.calendar, TABLE)


def spots() -> Any:
    return spot_climate((spot_at(0, 1.0, "low"),), WeibullShape(3.0))


PRINTED = {
    "calendar": SITE.calendar,
    "outages": SITE.outages,
    "years": YEARS,
    "resampled": resampled_mean(YEARS.energy, 1, 200),
    "months": energy_by_month(SITE.calendar, TABLE, SITE.open_calendar),
    "band": energy_band(EDGE, SHARE, TABLE, TABLE.power, TABLE.power, (SpeedCause("rating", 0.1, 1.0),)),
    "turbulence": turbulence(EDGE, SHARE, TABLE, 0.1, contained=False),
    "availability": availability((stops("debris", 2.0, 3600.0),)),
    "share": river_share(Band(1.0, 2.0, 3.0, "invented"), 2, 1.0, [30.0], [20.0], [1.0], labels=("median",)),
    "rating_band": rating_band(FIT, [1.0, 3.0]),
    "discharge": discharge((Vertical(0.0, 0.0), Vertical(2.0, 1.0, (0.8,)), Vertical(4.0, 0.0))),
}
KEPT = {**PRINTED, "fit": FIT, "spots": spots(), "site": SITE}


def same(one: Any, other: Any) -> bool:
    if isinstance(one, np.ndarray):
        return bool(np.array_equal(one, other)) and one.dtype == other.dtype
    if isinstance(one, tuple):
        return len(one) == len(other) and all(same(a, b) for a, b in zip(one, other, strict=True))
    if dataclasses.is_dataclass(one):
        return type(one) is type(other) and all(
            same(getattr(one, f.name), getattr(other, f.name)) for f in dataclasses.fields(one)
        )
    return bool(one == other)


@pytest.mark.parametrize("name", KEPT)
def test_it_comes_back_from_the_cache(name: str) -> None:
    assert same(decode(encode(KEPT[name], "key"), "key", CLASSES), KEPT[name])


@pytest.mark.parametrize("name", PRINTED)
def test_every_number_has_a_unit(name: str) -> None:
    assert '"units"' in to_json({name: PRINTED[name]}, {})
