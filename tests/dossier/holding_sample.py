"""Invented layouts, strikes and checks for the drawings of holding and strength."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np

from racewright.dossier.figures.damage_cases import Share
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
from racewright.holding.anchor_check import AnchorCheck, check_anchor
from racewright.holding.anchor_drag import DragAnchor
from racewright.holding.anchor_result import AnchorLoad
from racewright.holding.log_draws import Front
from racewright.holding.log_exceedance import LogExceedance
from racewright.holding.log_population import LogKind, LogPopulation, Season
from racewright.holding.log_strikes import log_exceedance
from racewright.holding.strike_tether import front_tether
from racewright.holding.strike_two_phase import TwoPhase, two_phase
from racewright.machine.sections import section_points
from racewright.safety_factors import safety_factor
from racewright.strength.damage import rainflow_damage
from racewright.strength.materials import material
from racewright.strength.resonance import Resonance, resonance
from racewright.strength.ring import rectangular_ring
from racewright.strength.ring_modes import ring_modes
from racewright.strength.section_area import section_area
from racewright.strength.sn_curves import sn_curve
from racewright.strength.span_modes import span_modes
from racewright.strength.stress_check import StressCheck, check_stress
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
    kind = LogKind("driftwood", "floating", 2.5, 0.6, 0.25, 0.4, 12.0, 500.0, 950.0, (2e-7, 1e-6))
    speeds, shares = np.array([1.0, 2.0, 3.0]), np.array([0.3, 0.5, 0.2])
    population = LogPopulation(
        (kind,), (Season("low water", 0.8, speeds * 0.5, shares), Season("flood", 0.2, speeds, shares))
    )
    tether = front_tether(20e3, 3e3, 20.0, 0.3, 12e3)
    return log_exceedance(population, struck(), tether, Front(0.6, 0.1, 1.2), strikes=400)


@cache
def shaken() -> Resonance:
    """A blade and a vane of the same section, and the duct ring."""
    section = section_area(0.16 * section_points("circular_arc", 0.4, 0.12, 200))
    radius = [0.15, 0.30, 0.50]
    blade = span_modes(radius, [section] * 3, 115e9, 7640.0, 1000.0, count=2)
    ring = ring_modes(rectangular_ring(0.8, 1.0, 0.03, 20e9), 60.0, 1000.0, 2)
    return resonance({"blade": 0.4 * blade.in_water, "duct ring": ring.in_water}, 3.0, 9.0, 5, 7)


@cache
def apart() -> Resonance:
    """A blade that nothing shakes."""
    return resonance({"blade": [60.0, 250.0]}, 3.0, 9.0, 5, 7)


@cache
def stress_checks() -> dict[str, StressCheck]:
    """Five parts, one of which does not pass."""
    load, steel, composite = (safety_factor(k) for k in ("tidal_load_ultimate", "tidal_steel", "tidal_composite"))
    return {
        "vane root, clogged": check_stress(38e6, material("glass_epoxy"), load, composite),
        "blade root, loss of load": check_stress(29e6, material("glass_epoxy"), load, composite),
        "shaft, held": check_stress(121e6, material("duplex_2205"), load, steel),
        "flange bolts": check_stress(310e6, material("bolt_8_8"), load, steel),
        "duct ring, point load of a log": check_stress(60e6, material("s355"), load, steel),
    }


@cache
def damage_shares() -> dict[str, Share]:
    """Three load cases of a weld."""
    random = np.random.Generator(np.random.PCG64(3))
    curve = sn_curve("f_sea_protected")
    return {
        name: Share(rainflow_damage(40e6 + sigma * random.standard_normal(4000), curve), times)
        for name, sigma, times in (
            ("on load, turbulence", 4e6, 30000.0),
            ("start and stop", 15e6, 40.0),
            ("flood with debris", 11e6, 300.0),
        )
    }


@cache
def anchor_checks() -> dict[str, AnchorCheck]:
    """A drag anchor and a dead weight."""
    loads = (
        AnchorLoad("design flood", "intact", 20e3, -1e3),
        AnchorLoad("flood, neighbour lost", "one line lost", 35e3, -1e3),
    )
    factors = {"intact": safety_factor("iso_drag_intact"), "one line lost": safety_factor("iso_drag_one_lost")}
    lifted = (AnchorLoad("lift", "intact", 9e3, 6e3),)
    return {
        "port bow": check_anchor(DragAnchor("light twin fluke", "hard", 453.592), loads, factors),
        "starboard bow": check_anchor(DragAnchor("light twin fluke", "hard", 90.0), loads, factors),
        "stern": check_anchor(DragAnchor("light twin fluke", "hard", 453.592), lifted, factors),
    }
