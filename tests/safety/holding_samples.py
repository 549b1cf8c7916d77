"""One of every result of holding and strength, from invented machines."""

from __future__ import annotations

from functools import cache
from math import radians
from typing import Any

import numpy as np

from racewright.holding import (
    StrengthFactor,
    breaking_strength,
    first_blow,
    line,
    line_choices,
    low_water,
    one_line_lost,
    pontoon,
    propose_bridle_width,
    propose_buoyancy,
    segment,
    statics,
    steady_state,
    still,
    watch_circle,
    worst_lines,
)
from racewright.holding.anchor_check import check_anchor
from racewright.holding.anchor_drag import DragAnchor
from racewright.holding.anchor_proof import proof_load
from racewright.holding.anchor_result import AnchorLoad
from racewright.holding.debris_held import held_trunk
from racewright.holding.debris_release import RetainingLine, WeakLink, release
from racewright.holding.layout_wishes import Wished, Wishes
from racewright.holding.log_body import Log
from racewright.holding.log_draws import Front
from racewright.holding.log_population import LogKind, LogPopulation, Season
from racewright.holding.log_strikes import log_exceedance
from racewright.holding.strike_estimates import code_estimates
from racewright.holding.strike_fixed import beside_fixed
from racewright.holding.strike_line import line_strike
from racewright.holding.strike_outcome import outcome_by_friction, strike_outcome
from racewright.holding.strike_slow import slow_response
from racewright.holding.strike_tether import front_tether
from racewright.holding.strike_two_phase import two_phase
from racewright.machine.sections import section_points
from racewright.safety_factors import safety_factor
from racewright.strength.bending import bending_stress
from racewright.strength.damage import rainflow_damage
from racewright.strength.flange import bolt_circle, bolt_loads
from racewright.strength.line_energy import stored_energy
from racewright.strength.materials import material
from racewright.strength.resonance import resonance
from racewright.strength.ring import rectangular_ring, ring_loads, ring_pressure
from racewright.strength.ring_modes import ring_modes
from racewright.strength.section_area import section_area
from racewright.strength.shaft import shaft_stress
from racewright.strength.sn_curves import sn_curve
from racewright.strength.span_load import SpanLoad, root_loads
from racewright.strength.span_modes import span_modes
from racewright.strength.stress_check import check_stress
from tests.holding.bodies import STREAM, spread, states
from tests.holding.machines import machine, strike

FACTOR = StrengthFactor("synthetic line", 3.0, "UFC 4-159-03, table 3-7", "2005", "both")
SPEEDS = [1.0, 2.5]
POPULATION = LogPopulation(
    (LogKind("driftwood", "floating", 2.5, 0.6, 0.25, 0.4, 12.0, 500.0, 950.0, (2e-5,)),),
    (Season("year", 1.0, np.array([1.0, 2.0]), np.array([0.5, 0.5])),),
)


@cache
def holding_results() -> dict[str, Any]:
    """Public functions of holding by name."""
    table = statics(spread(), STREAM, states()[:2], SPEEDS)
    rolls = (steady_state("rolls", 4000.0, 900.0, 300.0, 2.5),)
    waters = ((STREAM, np.array(SPEEDS)),)
    drag_anchor = DragAnchor("light twin fluke", "hard", 453.592)
    load = AnchorLoad("flood", "intact", 20e3, -1e3)
    trunk = held_trunk(Log(8.0, 0.4, 800.0), 2.0, (0.0, 0.0, 0.0))
    tether = front_tether(20e3, 2e3, 20.0, 0.3, 9e3)
    return {
        "line": line((segment("HMPE", 10.0, 0.016),), (0.0, 0.0, 1.0), (9.9, 0.0, 2.0)),
        "breaking strength": breaking_strength("polyester", 0.032),
        "segment": segment("nylon", 10.0, 0.02, strength=5e4),
        "statics": table,
        "worst lines": worst_lines(table, one_line_lost(spread(), STREAM, states()[:1], SPEEDS[:1]), (FACTOR,)),
        "watch circle": watch_circle(spread(), STREAM, states()[0], [0.0, 0.3], SPEEDS[:1]),
        "low water": low_water(spread(), STREAM, still(), [8.0, 4.0], cover=0.5),
        "line choices": line_choices(15e3, FACTOR, 20.0),
        "buoyancy": propose_buoyancy(Wished(spread(), waters, states()[:1], Wishes(bed_clearance=1.5, cover=1.0))),
        "bridle": propose_bridle_width(Wished(spread(), waters, rolls, Wishes(roll=radians(6.0)))),
        "pontoon": pontoon(6.0, 2.0, 0.4, 0.8),
        "anchor": check_anchor(drag_anchor, (load,), {"intact": safety_factor("iso_drag_intact")}),
        "proof load": proof_load("drag", (load,)),
        "first blow": first_blow(strike()),
        "two phase": two_phase(strike()),
        "slow response": slow_response(300.0, 600.0, 2.0, tether),
        "outcome": strike_outcome(strike(), until=20.0),
        "passes by": strike_outcome(strike(offset=9.0)),
        "frictions": outcome_by_friction(strike(), (0.2, 0.5), until=20.0),
        "beside fixed": beside_fixed(strike(), until=20.0),
        "line strike": line_strike(300.0, 2.0, 1.0, 5e3, 20.0, 1e6, 1.0),
        "codes": code_estimates(400.0, 0.4, 2.0),
        "exceedance": log_exceedance(POPULATION, machine(), tether, Front(0.6, 0.1, 1.2), strikes=100),
        "held trunk": trunk,
        "release": release([trunk], WeakLink("pin", 5e3), 2.0, 1.0, 1500.0, retaining=RetainingLine(4.0, 8e3, 3e4)),
    }


@cache
def strength_results() -> dict[str, Any]:
    """Public functions of strength by name."""
    contour = 0.16 * section_points("circular_arc", 0.4, 0.12, 200)
    section = section_area(contour)
    radius = np.array([0.15, 0.30, 0.50])
    ring = rectangular_ring(0.8, 1.0, 0.03, 20e9)
    series = np.array([-2, 1, -3, 5, -1, 3, -4, 4, -2]) * 1e7
    steel = material("s355")
    modes = span_modes(radius, [section] * 3, 115e9, 7640.0, 1000.0)
    return {
        "bending": bending_stress(section, contour, 100.0, 20.0),
        "damage": rainflow_damage(series, sn_curve("d_sea_protected"), duration=3600.0),
        "curve": sn_curve("d_sea_protected"),
        "bolts": bolt_loads(bolt_circle(8, 0.1), 157e-6, pull=1e4, bending_x=500.0, preload=5e4),
        "energy": stored_energy(2e4, 20.0, 1e6),
        "material": steel,
        "resonance": resonance({"blade": modes.in_water, "vane": [30.0]}, 3.0, 9.0, 5, 7),
        "ring loads": ring_loads(ring, 5e3),
        "ring pressure": ring_pressure(ring, 5e3),
        "ring modes": ring_modes(ring, 60.0, 1000.0),
        "span modes": modes,
        "shaft": shaft_stress(0.05, 200.0, 50.0, 1000.0),
        "root": root_loads(SpanLoad(radius, 100.0 * radius, 50.0 * radius), 0.15),
        "check": check_stress(100e6, steel, safety_factor("en_variable"), safety_factor("en_steel_yield")),
    }
