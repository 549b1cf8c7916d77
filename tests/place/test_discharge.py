"""Discharge from soundings: a box, edges, flags, refusals."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.place.discharge import WALL_FACTOR, Discharge, discharge
from racewright.place.discharge_uncertainty import GaugingErrors
from racewright.place.soundings import Vertical


def flume(count: int = 21, edge: tuple[float, ...] = ()) -> tuple[Vertical, ...]:
    """A box 20 m wide and 2 m deep at 1.5 m/s."""
    x = np.linspace(0.0, 20.0, count)
    return tuple(Vertical(float(a), 2.0, edge if i in (0, count - 1) else (1.5,)) for i, a in enumerate(x))


def about(found: Discharge) -> dict[str, str]:
    return {remark.about: remark.severity for remark in found.remarks}


def test_a_box_measured_to_its_walls_is_exact_by_both_rules() -> None:
    found = discharge(flume(edge=(1.5,)))
    assert found.mid_section == pytest.approx(60.0, rel=1e-12)
    assert found.mean_section == pytest.approx(60.0, rel=1e-12)
    assert found.mean_speed == pytest.approx(1.5, rel=1e-12)
    assert about(found) == {}
    assert found.share.sum() == pytest.approx(1.0)


def test_walls_without_a_speed_take_the_stated_part_of_their_neighbour() -> None:
    still, slip = discharge(flume()), discharge(flume(), edge_factor=WALL_FACTOR)
    assert still.mid_section == pytest.approx(60.0 - 2.0 * 0.5 * 2.0 * 1.5, rel=1e-12)
    assert slip.mid_section - still.mid_section == pytest.approx(WALL_FACTOR * 3.0, rel=1e-12)
    assert about(slip)["edges"] == "note"


def test_few_verticals_are_flagged_and_less_certain() -> None:
    few, many = discharge(flume(6, (1.5,))), discharge(flume(41, (1.5,)))
    assert about(few)["verticals"] == "caution"
    assert few.relative_standard > 2.0 * many.relative_standard
    assert few.low < few.mid_section < few.high


def test_more_points_in_a_vertical_are_more_certain() -> None:
    one = discharge(flume(edge=(1.5,)))
    two = discharge(tuple(Vertical(v.distance, v.depth, (1.8, 1.2)) for v in flume()))
    assert two.mid_section == pytest.approx(one.mid_section)
    assert two.relative_standard < one.relative_standard
    none = discharge(flume(edge=(1.5,)), errors=GaugingErrors(systematic=0.2))
    assert none.relative_standard > 0.2


def test_rules_apart_and_steps_of_speed_are_told() -> None:
    verticals = (Vertical(0.0, 0.0), Vertical(2.0, 1.0, (1.0,)), Vertical(5.0, 3.0, (2.0,)), Vertical(8.0, 0.0))
    severity = about(discharge(verticals))
    assert severity["rule"] == "caution"
    assert "verticals" in severity


def test_a_dry_bar_between_two_arms_carries_nothing() -> None:
    arm = (Vertical(0.0, 0.0), Vertical(2.0, 1.0, (1.0,)), Vertical(4.0, 0.0))
    other = tuple(Vertical(v.distance + 6.0, v.depth, v.speeds) for v in arm)
    assert discharge(arm + other).mid_section == pytest.approx(2.0 * discharge(arm).mid_section)


def test_water_upstream_counts_negative_and_is_told() -> None:
    verticals = (*flume(edge=(1.5,))[:-1], Vertical(20.0, 2.0, (-0.5,)))
    found = discharge(verticals)
    assert about(found)["direction"] == "caution"
    assert found.mid_section < 60.0


@pytest.mark.parametrize(
    "verticals",
    [
        flume()[:2],
        flume()[::-1],
        (Vertical(0.0, 0.0), Vertical(1.0, 1.0), Vertical(2.0, 0.0)),
        (Vertical(0.0, 0.0), Vertical(1.0, 0.0), Vertical(2.0, 0.0)),
        (Vertical(0.0, 0.0), Vertical(1.0, 1.0, (-0.4,)), Vertical(2.0, 0.0)),
    ],
)
def test_bad_soundings_are_refused(verticals: tuple[Vertical, ...]) -> None:
    with pytest.raises(InputError):
        discharge(verticals)


@pytest.mark.parametrize(
    "numbers",
    [(np.nan, 1.0, (1.0,)), (0.0, -1.0, (1.0,)), (0.0, np.inf, ()), (0.0, 1.0, (np.nan,)), (0.0, 1.0, (1.0,) * 4)],
)
def test_bad_verticals_are_refused(numbers: tuple[float, float, tuple[float, ...]]) -> None:
    with pytest.raises(InputError):
        Vertical(*numbers)


def test_bad_settings_are_refused() -> None:
    with pytest.raises(InputError):
        discharge(flume(), edge_factor=1.2)
    with pytest.raises(InputError):
        GaugingErrors(depth=np.nan)
