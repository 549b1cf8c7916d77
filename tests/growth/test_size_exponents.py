"""Masses, loads and costs by exponent: packaged rows, the user's own, ranges that turn round."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from racewright.errors import InputError
from racewright.growth.learning import SIZE, sized_cost
from racewright.growth.size_exponents import SizeExponent, own_exponent, scaled, size_exponents
from racewright.growth.step_measures import measures_of
from racewright.machine.drive_mass import mass_line
from tests.growth.steps import RIVER, TIDAL

PACKAGED = {one.name: one for one in size_exponents()}


def _row(**changed: object) -> SizeExponent:
    row = {
        "name": "duct mass",
        "kind": "mass",
        "over": "throat_diameter",
        "low": 2.0,
        "value": 2.4,
        "high": 3.0,
        "status": "weighed",
        "source": "two ducts of ours",
    }
    return SizeExponent(**{**row, **changed})  # type: ignore[arg-type]


def test_every_packaged_row_says_where_it_comes_from() -> None:
    assert {one.kind for one in PACKAGED.values()} == {"load", "mass", "cost"}
    statuses = {one.status for one in PACKAGED.values()}
    assert statuses <= {"closed form", "from memory", "own choice", "common practice"}
    for one in PACKAGED.values():
        assert len(one.source) > 10
        if one.low < one.high and one.name != "log first blow":
            assert one.status != "closed form", one.name


def test_every_packaged_row_has_its_measure() -> None:
    small, large = measures_of(RIVER), measures_of(TIDAL)
    for one in PACKAGED.values():
        found = scaled(one, small, large)
        assert 0.0 < found.low_factor <= found.factor <= found.high_factor


def test_machine_cost_is_the_rule_that_learning_uses() -> None:
    row = PACKAGED["machine cost"]
    assert (row.low, row.value, row.high) == SIZE
    found = scaled(row, {"rated_power": 5e3}, {"rated_power": 1e6})
    assert found.of(4e4)[1] == pytest.approx(sized_cost(4e4, 1e6, 5e3, SIZE[1]), rel=1e-12)


def test_drive_mass_is_the_slope_of_the_drives_own_lines() -> None:
    """From 100 N m to 1 MN m, both ends of both lines fall within the row's range."""
    row, found = PACKAGED["drive mass"], []
    for name in ("direct_drive", "gear"):
        ends = [mass_line(name).mass(torque) for torque in (1e2, 1e6)]
        found += [math.log10(getattr(ends[1], side) / getattr(ends[0], side)) / 4.0 for side in ("low", "high")]
    assert row.low <= min(found) + 0.02
    assert max(found) <= row.high + 0.01
    assert row.low < row.value < row.high


def test_the_users_own_takes_the_place_of_the_packaged() -> None:
    mine, new = _row(), _row(name="float mass", low=3.0, value=3.0)
    found = size_exponents((mine, new))
    assert [one.name for one in found[:-1]] == list(PACKAGED)
    assert found[list(PACKAGED).index("duct mass")] is mine
    assert found[-1] is new
    with pytest.raises(InputError, match="two exponents"):
        size_exponents((mine, mine))


def test_an_own_exponent_goes_with_diameter() -> None:
    mine = own_exponent("duct_mass", 2.1, 2.2, 2.3, "two ducts weighed")
    assert (mine.name, mine.kind, mine.over, mine.status) == (
        "duct mass",
        "mass",
        "throat_diameter",
        "stated by the user",
    )
    new = own_exponent("paint", 2.0, 2.0, 2.0, " ")
    assert (new.kind, new.status) == ("other", "stated by the user, no source")
    assert [one.name for one in size_exponents((mine, new))] == [*PACKAGED, "paint"]
    with pytest.raises(InputError):
        own_exponent("duct_mass", 2.3, 2.2, 2.1, "turned round")


@given(st.floats(0.01, 100.0), st.floats(-3.0, 3.0), st.floats(0.0, 1.5), st.floats(0.0, 1.5))
def test_factors_are_in_order_whichever_way_size_goes(ratio: float, low: float, up: float, more: float) -> None:
    row = _row(low=low, value=low + up, high=low + up + more)
    found = scaled(row, {"throat_diameter": 1.0}, {"throat_diameter": ratio})
    assert found.low_factor <= found.factor * (1 + 1e-12)
    assert found.factor <= found.high_factor * (1 + 1e-12)
    back = scaled(row, {"throat_diameter": ratio}, {"throat_diameter": 1.0})
    assert back.low_factor * found.high_factor == pytest.approx(1.0, rel=1e-9)


def test_refused() -> None:
    for changed in (
        {"kind": "wish"},
        {"over": "hope"},
        {"low": 2.5},
        {"high": 2.3},
        {"value": math.nan},
        {"high": 7.0},
        {"status": " "},
        {"name": ""},
    ):
        with pytest.raises(InputError):
            _row(**changed)
    row = _row()
    for bad in ({}, {"throat_diameter": 0.0}, {"throat_diameter": math.nan}):
        with pytest.raises(InputError, match="throat_diameter"):
            scaled(row, {"throat_diameter": 1.0}, bad)
    with pytest.raises(InputError, match="duct mass"):
        scaled(row, {"throat_diameter": 1.0}, {"throat_diameter": 2.0}).of(-1.0)


def test_values_are_factors_times_the_known() -> None:
    found = scaled(_row(), {"throat_diameter": 1.0}, {"throat_diameter": 10.0})
    assert np.allclose(found.of(120.0), (12e3, 120.0 * 10.0**2.4, 120e3))
