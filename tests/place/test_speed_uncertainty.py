"""Causes of doubt about speed: defaults by what was measured, refusals."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place.placement import Placement
from racewright.place.rating import Rating
from racewright.place.reach import Reach
from racewright.place.result import DurationCurve
from racewright.place.speed_uncertainty import RiverErrors, SpeedCause, combined, river_causes
from racewright.place.transect import Transect

VEE = Transect(np.array([0.0, 20.0, 40.0]), np.array([6.0, 0.0, 6.0]))
CURVE = DurationCurve(np.linspace(300.0, 0.0, 200), np.linspace(0.005, 0.995, 200))


def reach(factor: float | None = None) -> Reach:
    return Reach(Rating(8.0, 0.0, 2.3), VEE, Placement(20.0, 0.6, 0.5, hub_depth=0.8), 6.0, factor)


def test_a_measured_speed_factor_is_trusted_more_than_an_estimate() -> None:
    estimated = {c.cause: c for c in river_causes(reach(), CURVE, RiverErrors())}
    measured = {c.cause: c for c in river_causes(reach(1.2), CURVE, RiverErrors())}
    assert estimated["speed factor"].speed_error == 0.20
    assert measured["speed factor"].speed_error == 0.05
    assert set(estimated) == {"discharge record", "rating", "transect's area", "speed factor", "vertical profile"}
    # A known discharge leaves the rating only its level: less than a factor of one on speed.
    assert 0.3 < estimated["rating"].sensitivity < 1.0
    assert combined(tuple(estimated.values())) > combined(tuple(measured.values()))


def test_bad_arguments_are_refused() -> None:
    with pytest.raises(InputError):
        SpeedCause("x", np.nan, 1.0)
    with pytest.raises(InputError):
        SpeedCause("x", 0.1, np.inf)
    with pytest.raises(InputError):
        river_causes(reach(), CURVE, RiverErrors(area=1.5))
    with pytest.raises(InputError, match="flowing"):
        river_causes(reach(), DurationCurve(np.zeros(3), np.array([0.2, 0.5, 0.8])), RiverErrors())
