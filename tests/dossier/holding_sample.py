"""Invented layouts, strikes and checks for the drawings of holding and strength."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np

from racewright.holding import (
    Equilibrium,
    FixedPoint,
    Layout,
    Statics,
    Stream,
    StrengthFactor,
    Tether,
    WatchCircle,
    WorstLine,
    equilibrium,
    one_line_lost,
    segment,
    statics,
    watch_circle,
    worst_lines,
)
from racewright.holding.log_draws import Front
from racewright.holding.log_exceedance import LogExceedance
from racewright.holding.log_population import LogKind, LogPopulation, Season
from racewright.holding.log_strikes import log_exceedance
from racewright.holding.strike_tether import front_tether
from racewright.holding.strike_two_phase import TwoPhase, two_phase
from tests.holding.bodies import STREAM, machine, spread, states
from tests.holding.machines import machine as struck
from tests.holding.machines import strike

SPEEDS = np.linspace(0.2, 2.6, 13)
FACTORS = (
    StrengthFactor("intact, quasi-static", 2.0, "ISO 19901-7 and API RP 2SK, from memory", "not stated"),
    StrengthFactor("one line lost, quasi-static", 1.43, "ISO 19901-7, from memory", "not stated", "one line lost"),
    StrengthFactor("synthetic line", 3.0, "UFC 4-159-03, table 3-7", "2005", "both"),
)


def with_cable() -> Layout:
    """Four lines and a power cable that lies on the bed and rises to the machine."""
    layout = spread()
    cable = Tether(
        "power cable to the shore",
        FixedPoint((14.0, 9.0, 0.0), uplift_limit=math.inf),
        (segment("six-strand wire", 19.0, 0.02),),
        (0.5, 0.0, -0.3),
        purpose="power cable",
    )
    return replace(layout, tethers=(*layout.tethers, cable))


def long_lines() -> Layout:
    """Two bow lines of 60 m, chain that lies on the bed and rope, and a line to the bank; 6 m of water."""
    body = machine()
    tethers = [
        Tether(
            name,
            FixedPoint((-58.0, side * 22.0, 0.0)),
            (segment("studless chain", 34.0, 0.026), segment("polyester", 28.0, 0.032)),
            (-0.4, side * 0.6, 0.0),
        )
        for name, side in (("port bow", 1.0), ("starboard bow", -1.0))
    ]
    shore = FixedPoint((-6.0, 24.0, 6.4), on="bank", uplift_limit=math.inf)
    bank = Tether(
        "bank line",
        shore,
        (segment("HMPE", 24.2, 0.016),),
        (0.0, 0.6, 0.2),
    )
    return Layout(body, (*tethers, bank), (0.0, 0.0, 3.2))


LONG_STREAM = Stream(1.6, depth=6.0, reference_height=3.0)


@cache
def at_rest(layout: str, state: int, speed: float) -> Equilibrium:
    """An equilibrium of 'spread', 'cable' or 'long'."""
    made = {"spread": spread, "cable": with_cable, "long": long_lines}[layout]()
    stream = LONG_STREAM if layout == "long" else STREAM
    return equilibrium(made, replace(stream, speed=speed), states()[state])


@cache
def swept() -> Statics:
    """The four-line spread over its speeds and states."""
    return statics(spread(), STREAM, states(), SPEEDS)


@cache
def lost() -> tuple[Statics, ...]:
    """With each line lost in turn."""
    return one_line_lost(spread(), STREAM, states(), SPEEDS[::4])


@cache
def worst() -> tuple[WorstLine, ...]:
    """Its worst lines."""
    return worst_lines(swept(), lost(), FACTORS)


@cache
def watched() -> WatchCircle:
    """Where it goes as the stream turns by twenty degrees either way."""
    return watch_circle(spread(), STREAM, states()[3], np.radians([-20.0, -10.0, 0.0, 10.0, 20.0]), [1.0, 2.0, 2.5])


@cache
def two_phases(offset: float) -> TwoPhase:
    """One log that meets the guard at an offset [m]."""
    return two_phase(strike(offset=offset))


@cache
def years() -> LogExceedance:
    """A river of logs."""
    kind = LogKind("driftwood", "floating", 2.5, 0.6, 0.25, 0.4, 12.0, 500.0, 950.0, (4e-6, 2e-5))
    speeds, shares = np.array([1.0, 2.0, 3.0]), np.array([0.3, 0.5, 0.2])
    population = LogPopulation(
        (kind,), (Season("low water", 0.8, speeds * 0.5, shares), Season("flood", 0.2, speeds, shares))
    )
    tether = front_tether(20e3, 3e3, 20.0, 0.3, 12e3)
    return log_exceedance(population, struck(), tether, Front(0.6, 0.1, 1.2), strikes=3000)
