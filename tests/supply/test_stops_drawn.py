"""Stops drawn over a year: share of time, independence of names, shape of what comes out."""

from __future__ import annotations

import numpy as np
import pytest

from racewright.errors import InputError
from racewright.supply.availability import availability
from racewright.supply.machine_power import machine_series, power_at
from racewright.supply.power_table import PowerTable
from racewright.supply.stops_drawn import StopCause, draw_stops
from racewright.supply.time_grid import TimeGrid, year_grid

DEBRIS, FAULTS = StopCause("debris", 20.0, 36 * 3600.0), StopCause("faults", 3.0, 216 * 3600.0)
YEAR = year_grid(2023)
LONG = TimeGrid(0, 3600, 8760 * 400)


@pytest.mark.parametrize("lasting", ["exponential", "fixed"])
def test_the_long_run_is_the_availability(lasting) -> None:
    """400 years; 1200 faults of 9 days: one standard error is 0.3 % of the year."""
    causes = tuple(StopCause(c.cause, c.yearly, c.each, lasting) for c in (DEBRIS, FAULTS))
    drawn = draw_stops(causes, LONG, 5)
    wanted = availability(tuple(cause.lost() for cause in causes)).share
    assert drawn.running.mean() == pytest.approx(wanted, abs=0.008)
    assert drawn.count[0] / 400 == pytest.approx([20.0, 3.0], rel=0.07)


def test_the_first_interval_is_like_the_others() -> None:
    """Over many draws the chance of running is the same on the first day as later."""
    grid = TimeGrid(0, 3600, 240)
    cause = StopCause("faults", 12.0, 240 * 3600.0)
    running = np.array([draw_stops((cause,), grid, 1, name=i).running[0] for i in range(3000)])
    wanted = 1.0 - cause.lost().share
    assert running[:, 0].mean() == pytest.approx(wanted, abs=0.02)
    assert running[:, -1].mean() == pytest.approx(wanted, abs=0.02)


def test_another_cause_machine_or_name_leaves_the_draws_alone() -> None:
    alone = draw_stops((FAULTS,), YEAR, 9)
    both = draw_stops((DEBRIS, FAULTS), YEAR, 9, machines=3)
    assert alone.count[0, 0] == both.count[0, 1]
    assert (both.running[0] <= alone.running[0] + 1e-12).all()
    again = draw_stops((DEBRIS, FAULTS), YEAR, 9)
    assert np.array_equal(both.running[0], again.running[0])
    assert not np.array_equal(both.running[0], both.running[1])
    assert not np.array_equal(again.running, draw_stops((DEBRIS, FAULTS), YEAR, 9, name=1).running)
    assert not np.array_equal(again.running, draw_stops((DEBRIS, FAULTS), YEAR, 10).running)


def test_stops_that_overlap_are_not_counted_twice() -> None:
    never = StopCause("gone", 1.0, 8760 * 3600.0)
    drawn = draw_stops((never, FAULTS), YEAR, 1)
    assert not drawn.running.any()
    assert draw_stops((), YEAR, 1).running.all()
    assert draw_stops((StopCause("none", 0.0, 3600.0), StopCause("short", 5.0, 0.0)), YEAR, 1).running.all()


def test_part_of_an_interval_is_counted() -> None:
    drawn = draw_stops((StopCause("trips", 300.0, 600.0, "fixed"),), YEAR, 3)
    lost = (1.0 - drawn.running).sum() * 3600.0
    assert lost == pytest.approx(600.0 * drawn.count[0, 0], abs=600.0)
    assert ((drawn.running >= 0.0) & (drawn.running <= 1.0)).all()


def test_a_series_of_machines_with_ice() -> None:
    table = PowerTable(np.array([0.5, 1.0, 2.0]), np.array([0.0, 1000.0, 5000.0]), 0.7, 5000.0)
    power = power_at(table, [0.6, 1.0, 1.5, 2.0, 2.1])
    assert power == pytest.approx([0.0, 1000.0, 3000.0, 5000.0, 0.0])
    running = np.array([[1.0, 1.0, 0.5, 0.0, 1.0], [1.0, 0.0, 0.5, 1.0, 1.0]])
    ice = np.array([False, False, False, True, False])
    assert machine_series(power, running, ice) == pytest.approx([0.0, 1000.0, 3000.0, 0.0, 0.0])
    assert not machine_series(power, running, np.ones(5, dtype=bool)).any()


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda: StopCause("x", -1.0, 1.0), "stops"),
        (lambda: StopCause("x", 1.0, 1.0, "sometimes"), "last"),
        (lambda: StopCause("x", 1000.0, 8760 * 3600.0), "more than a year"),
        (lambda: draw_stops((DEBRIS, DEBRIS), YEAR, 1), "named twice"),
        (lambda: draw_stops((DEBRIS,), YEAR, -1), "seed"),
        (lambda: draw_stops((DEBRIS,), YEAR, 1, machines=0), "machines"),
        (lambda: machine_series([1.0, 2.0], np.ones(3)), "running share"),
        (lambda: machine_series([1.0, 2.0], np.full(2, 1.5)), "running share"),
        (lambda: machine_series([1.0, 2.0], np.ones(2), np.ones(2)), "truth values"),
        (lambda: power_at(PowerTable(np.array([0.0, 1.0]), np.zeros(2), 0.0, 1.0), [np.nan]), "stream speeds"),
    ],
)
def test_bad_stops_are_refused(make, words: str) -> None:
    with pytest.raises(InputError, match=words):
        make()
