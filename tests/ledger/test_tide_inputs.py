"""A tide's table through record, fit and site; the values survive the cache's codec."""

from __future__ import annotations

import dataclasses
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest

import racewright
from racewright.errors import InputError
from racewright.ledger.classes import CLASSES
from racewright.ledger.codec import decode, encode
from racewright.ledger.tide_inputs import tidal_site_of, tide_of, tide_record_of
from racewright.place.season import Season
from racewright.place.tide_trace import tide_trace

FILE = Path(racewright.__file__).parent / "examples" / "tidal_unit" / "stream.csv"
TABLE: dict[str, Any] = {
    "kind": "east north",
    "time_column": "time",
    "value_column": "value",
    "east_column": "east_m_s",
    "north_column": "north_m_s",
    "direction_column": "direction_deg",
    "unit": "m/s",
    "zone": "UTC",
    "delimiter": "auto",
    "decimal": "point",
    "encoding": "utf-8",
    "latitude": math.radians(58.0),
    "constituents": None,
    "infer": True,
    "method": "least squares",
    "turning": "swings",
    "faces": None,
    "swing_speed": 0.4,
    "turning_time": 900.0,
    "first_year": None,
    "period": "year",
    "flood_direction": math.radians(60.0),
    "speed_factor": 1.0,
    "slack_speed": 0.5,
}
RECORD = tide_record_of(TABLE, FILE)
TIDE = tide_of(TABLE, RECORD)
SITE = tidal_site_of(TABLE, TIDE, cut_in_speed=0.9, depth=52.0, hub_depth=26.0, outer_radius=10.5)


def test_the_year_after_the_record_is_predicted() -> None:
    assert np.datetime64(SITE.first, "s") == np.datetime64("2027-01-01T00:00:00")
    assert not any(remark.severity == "warning" for remark in SITE.site.remarks)


def test_named_constituents_are_taken_as_named() -> None:
    found = tide_of(TABLE | {"constituents": "M2 S2  N2"}, RECORD)
    assert {row.name for row in found.constituents} == {"M2", "S2", "N2"}


def test_no_turning_is_refused_and_so_is_a_season_by_depth() -> None:
    with pytest.raises(InputError, match="one side only"):
        tidal_site_of(TABLE | {"turning": None}, TIDE)
    with pytest.raises(InputError, match="least_speed"):
        tidal_site_of(TABLE, TIDE, season=Season(least_depth=2.0))


@pytest.mark.parametrize("value", [TIDE, SITE, tide_trace(TIDE, RECORD, SITE.axis)], ids=lambda v: type(v).__name__)
def test_values_survive_the_codec(value: Any) -> None:
    back = decode(encode(value, "key"), "key", CLASSES)
    np.testing.assert_equal(dataclasses.asdict(back), dataclasses.asdict(value))
