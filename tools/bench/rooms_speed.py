"""Speed of the closed rooms: statics and strikes of a holding, a village's year."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from tests.holding.bodies import STREAM, spread, states
from tests.holding.machines import machine
from tests.supply.random_years import random_village

from racewright.holding import statics
from racewright.holding.log_draws import Front
from racewright.holding.log_population import LogKind, LogPopulation, Season
from racewright.holding.log_strikes import log_exceedance
from racewright.holding.strike_tether import front_tether
from racewright.supply import dispatch
from racewright.supply.chance import normal
from racewright.supply.dispatch_many import dispatch_many
from racewright.supply.stops_drawn import StopCause
from racewright.supply.year_doubt import YearDoubt

Job = Callable[[], object]

SPEEDS = np.linspace(0.1, 2.6, 30)
LOGS = 10_000
YEARS = 10_000


def rooms() -> dict[str, tuple[Job, Job | None]]:
    """Jobs by title; each is called once before, so that its kernels are compiled."""
    layout, cases = spread(), states()
    kind = LogKind("driftwood", "floating", 2.5, 0.6, 0.25, 0.4, 12.0, 500.0, 950.0, (1e-6,))
    speeds, shares = np.array([1.0, 2.0, 3.0]), np.array([0.3, 0.5, 0.2])
    population = LogPopulation((kind,), (Season("all year", 1.0, speeds, shares),))
    tether = front_tether(20e3, 3e3, 20.0, 0.3, 12e3)
    village = random_village(3)
    hours = np.full(8760, 8e3), np.full(8760, 3e3)
    doubt = YearDoubt(load_factor=normal("load", 1.0, 0.1), causes=(StopCause("debris", 20.0, 36 * 3600.0),))

    def struck(count: int) -> object:
        return log_exceedance(population, machine(), tether, Front(0.6, 0.1, 1.2), strikes=count)

    def drawn(count: int) -> object:
        return dispatch_many(*hours, village.house, village.rules, doubt, count=count, seed=1)

    def year() -> object:
        return dispatch(*hours, village.house, village.rules, keep_series=False)

    statics(layout, STREAM, cases[:1], SPEEDS[:1])
    struck(10)
    drawn(2)
    year()
    return {
        "statics of four lines, 30 speeds, 5 states (aim 1 s)": (
            lambda: statics(layout, STREAM, cases, SPEEDS),
            None,
        ),
        f"{LOGS:,} two-phase strikes on one core (aim 20 s on two)": (lambda: struck(LOGS), None),
        "a year of 8,760 hours (aim 0.005 s)": (year, None),
        f"{YEARS:,} drawn years on one core (aim 30 s on two)": (lambda: drawn(YEARS), None),
    }
