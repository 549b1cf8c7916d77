"""Load from daily shapes: energy, seasons, clocks, leap years."""

from __future__ import annotations

from zoneinfo import ZoneInfo

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.supply.load_profile import DayShape, load_from_profile
from racewright.supply.time_grid import TimeGrid, local_time, year_grid

WINTER = DayShape("winter", (10, 11, 12, 1, 2, 3), np.full(24, 2.0))
SUMMER = DayShape("summer", (4, 5, 6, 7, 8, 9), np.where(np.arange(24) == 19, 5.0, 1.0))
YEARLY = 60e3 * 3.6e6
BERLIN = ZoneInfo("Europe/Berlin")


@pytest.mark.parametrize(("year", "interval"), [(2023, 3600), (2024, 3600), (2023, 900)])
def test_the_mean_is_the_yearly_energy_over_8760_hours(year: int, interval: int) -> None:
    grid = year_grid(year, interval)
    load = load_from_profile((WINTER, SUMMER), YEARLY, grid, BERLIN)
    assert load.mean() == pytest.approx(YEARLY / (8760 * 3600.0), rel=1e-12)
    assert load.sum() * interval == pytest.approx(YEARLY * grid.duration / (8760 * 3600.0), rel=1e-12)


def test_seasons_and_hours_keep_their_ratios_on_the_villages_clock() -> None:
    grid = year_grid(2023)
    load, local = load_from_profile((WINTER, SUMMER), YEARLY, grid, BERLIN), local_time(grid, BERLIN)
    month = (local // 86400).astype("datetime64[D]").astype("datetime64[M]").astype(int) % 12 + 1
    evening = (local % 86400) // 3600 == 19
    july = month == 7
    assert np.unique(load[july & evening]).size == 1
    assert load[july & evening][0] / load[july & ~evening][0] == pytest.approx(5.0)
    assert load[month == 1][0] / load[july & ~evening][0] == pytest.approx(2.0)
    # the evening of the clock, not of UTC: 17 h UTC in summer
    assert np.flatnonzero(july & evening)[0] % 24 == 17


def test_days_of_rest_have_their_own_shape() -> None:
    busy = DayShape("all", tuple(range(1, 13)), np.full(24, 3.0), np.full(24, 1.0))
    load = load_from_profile((busy,), YEARLY, year_grid(2023), rest_days=(6,))
    # 1 January 2023 was a Sunday
    assert load[0] * 3.0 == pytest.approx(load[24])
    assert np.count_nonzero(np.isclose(load, load[0])) == 53 * 24
    plain = load_from_profile((DayShape("all", tuple(range(1, 13)), np.full(24, 3.0)),), YEARLY, year_grid(2023))
    assert np.unique(plain).size == 1


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: load_from_profile((WINTER,), YEARLY, year_grid(2023)), "exactly once"),
        (lambda: load_from_profile((WINTER, WINTER, SUMMER), YEARLY, year_grid(2023)), "exactly once"),
        (lambda: load_from_profile((WINTER, SUMMER), 0.0, year_grid(2023)), "yearly energy"),
        (lambda: load_from_profile((WINTER, SUMMER), YEARLY, TimeGrid(0, 3600, 24)), "a year"),
        (lambda: load_from_profile((WINTER, SUMMER), YEARLY, year_grid(2023), rest_days=(7,)), "days of rest"),
        (lambda: DayShape("x", (13,), np.ones(24)), "month 13"),
        (lambda: DayShape("x", (1,), np.ones(23)), "24"),
        (lambda: DayShape("x", (1,), np.full(24, np.nan)), "24"),
        (
            lambda: load_from_profile((DayShape("x", tuple(range(1, 13)), np.zeros(24)),), YEARLY, year_grid(2023)),
            "zeros only",
        ),
    ],
)
def test_bad_profiles_are_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()
