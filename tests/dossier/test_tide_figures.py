"""The drawings of a tide: nothing cut off or covered, gaps left open, inferred constituents told apart."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from matplotlib.figure import Figure

from racewright.dossier.figures import tide_constituents, tide_trace, tide_ways
from racewright.dossier.figures.house import NARROW, WIDE
from racewright.dossier.figures.save import svg
from racewright.errors import InputError
from racewright.place import site_from_tide, tide, tide_from_table, tide_record
from racewright.place.tide_record import TideRecord
from racewright.place.tide_trace import tide_trace as trace_of
from racewright.place.tide_turning import Turning
from tests.dossier.test_figures import check_labels
from tests.place.tides import stamps, strait, wave

LATITUDE = math.radians(55.0)
TWO = {"M2": (2.0, 40.0), "S2": (0.6, 75.0)}


def with_gap(record: TideRecord) -> TideRecord:
    keep = np.ones(record.time.size, dtype=bool)
    keep[3000:3700] = False
    east, north = record.value[keep].T
    return tide_record(record.time[keep], east=east, north=north)


RECORD = with_gap(strait(60.0, noise=0.15))
TIDE = tide(RECORD, LATITUDE)
SITE = site_from_tide(TIDE, Turning("swings"), first_year=2027, period="year", flood_direction=0.9)
FIXED = site_from_tide(TIDE, Turning("fixed"), first_year=2027, period="year", flood_direction=0.9)
TRACE = trace_of(TIDE, RECORD, SITE.axis)
ALONG = tide_from_table(("M2", "S2"), (2.0, 0.5), (0.1, 0.2), LATITUDE, kind="along")
ALONG_SITE = site_from_tide(ALONG, Turning("swings"), first_year=2027, period="year")
LEVELS = tide_record(stamps(20.0), level=wave(stamps(20.0), TWO))
LEVEL = tide(LEVELS, LATITUDE)

DRAWINGS: dict[str, Callable[[float], Figure]] = {
    "trace": lambda w: tide_trace.draw(TRACE, w, slack_speed=0.5),
    "trace, level": lambda w: tide_trace.draw(trace_of(LEVEL, LEVELS), w, level=True),
    "constituents": lambda w: tide_constituents.draw(TIDE, w),
    "constituents, table": lambda w: tide_constituents.draw(ALONG, w),
    "constituents, level": lambda w: tide_constituents.draw(LEVEL, w),
    "ways": lambda w: tide_ways.draw(SITE, w, cut_in_speed=0.9),
    "ways, fixed": lambda w: tide_ways.draw(FIXED, w),
    "ways, along": lambda w: tide_ways.draw(ALONG_SITE, w),
}


@pytest.mark.parametrize("width", [WIDE, NARROW])
@pytest.mark.parametrize("name", DRAWINGS)
def test_no_label_is_cut_off_or_covered(name: str, width: float) -> None:
    check_labels(DRAWINGS[name](width))


def test_a_gap_stays_open() -> None:
    days = DRAWINGS["trace"](WIDE).axes[0]
    assert len(days.collections) == 2
    assert not any(3300 < (d - RECORD.time[0]) / 600 < 3400 for d in TRACE.day)


def test_titles_say_what_is_shown() -> None:
    assert "carries" in DRAWINGS["constituents"](WIDE).get_suptitle()
    assert "nothing of the other direction" in DRAWINGS["ways, fixed"](WIDE).get_suptitle().replace("\n", " ")


def test_same_bytes_again() -> None:
    for name in ("trace", "ways"):
        assert svg(DRAWINGS[name](WIDE)) == svg(DRAWINGS[name](WIDE))


def test_a_trace_of_two_components_wants_an_axis() -> None:
    with pytest.raises(InputError, match="axis"):
        trace_of(TIDE, RECORD)
