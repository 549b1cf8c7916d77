"""Nodes of what drifts against a holding: debris that stays, logs that strike, a year of logs, help with sizes."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from racewright.holding.body import Body
from racewright.holding.debris_load import DebrisLoad
from racewright.holding.debris_release import Release, RetainingLine, WeakLink, release
from racewright.holding.layout import Layout
from racewright.holding.layout_lines import LineChoice, line_choices
from racewright.holding.log_body import Log
from racewright.holding.log_draws import Front
from racewright.holding.log_population import LogPopulation
from racewright.holding.log_strikes import log_exceedance
from racewright.holding.stream import STANDARD_GRAVITY
from racewright.holding.strike_estimates import code_estimates
from racewright.holding.strike_fixed import beside_fixed
from racewright.holding.strike_outcome import FrictionSensitivity, outcome_by_friction
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_tether import Tether
from racewright.holding.strike_touch import first_touch
from racewright.holding.strike_two_phase import two_phase
from racewright.ledger.convert import duct_of
from racewright.ledger.fastest import design_water
from racewright.ledger.holding_debris import debris_load, debris_mass, debris_tables, size_words
from racewright.ledger.holding_findings import DebrisHeld, Held, HeldLoad, HoldingHelp, StiffnessTrade
from racewright.ledger.holding_proposals import proposals
from racewright.ledger.holding_struck import (
    Met,
    held_point,
    speed_covers,
    struck_machine,
    tether_at,
    water_at,
    water_met,
)
from racewright.ledger.holding_things import BODY_KEYS, LAYOUT_KEYS, body_of, said
from racewright.ledger.holding_trade import holding_against, trade_of
from racewright.ledger.holding_waters import DEPTH_KEYS, drawn_layout, stream_of
from racewright.ledger.node import Given, Node
from racewright.ledger.nodes_holding import line_factors
from racewright.ledger.place_inputs import outer_radius
from racewright.ledger.struck_findings import StruckBy, StruckYear
from racewright.ledger.struck_yearly import kind_of, seasons_of, yearly_curves
from racewright.machine.duct import Duct
from racewright.tick import Tick, part_of

Table = Mapping[str, Any]

_SHOWN = 40.0
"""Time that a log's way is followed. Own choice [s]."""


def _body(given: Given) -> tuple[Body, Duct, float]:
    """The body, its duct and the duct's outer radius [m]."""
    duct = duct_of(given.keys)
    return body_of(given.keys, given.nodes["water"].density, STANDARD_GRAVITY), duct, outer_radius(duct)


def _debris_held(given: Given, _tick: Tick) -> tuple[DebrisHeld, ...]:
    """In the fastest water of the place; the machine's own drag is that of its stopped rotor where it is known."""
    density, site = given.nodes["water"].density, given.nodes["site"]
    held: Held = given.nodes["held"]
    speed, depth = design_water(site, given.keys["holding.speed_allowance"]), held.depths[0].depth
    body, _duct, outer = _body(given)
    loads: tuple[HeldLoad, ...] = given.nodes["held_loads"]
    base = next((load for load in loads if load.name == "held"), loads[0])
    area = float((base.thrust + base.drag)[-1] / (0.5 * density * base.stream_speed[-1] ** 2))
    found = []
    for name, table in debris_tables(given.keys["holding.debris"]).items():
        load = debris_load(name, table, speed, density, depth, 2.0 * outer)
        mass = float(body.inertia[0, 0]) + debris_mass(table, density, depth, 2.0 * outer)
        words = size_words(table, depth, 2.0 * outer)
        found.append(DebrisHeld(said(name), table["kind"], speed, load, words, _release(given, load, area, mass)))
    return tuple(found)


def _release(given: Given, load: DebrisLoad, area: float, mass: float) -> Release | None:
    """Of machine and debris, freed together [m2], [kg]."""
    link = given.keys["holding.weak_link"]
    if link is None:
        return None
    retaining = None
    if link["slack"] is not None:
        retaining = RetainingLine(link["slack"], link["stiffness"], link["retained"])
    return release(
        (load,),
        WeakLink(link["what"], link["capacity"]),
        design_water(given.nodes["site"], given.keys["holding.speed_allowance"]),
        area,
        mass,
        retaining=retaining,
        water_density=given.nodes["water"].density,
    )


def _struck(given: Given, tick: Tick) -> tuple[StruckBy, ...]:
    """Each log of the scheme against the machine on load, in the fastest water in which it reaches the machine."""
    strikes = sorted(given.keys["holding.strike"].items())
    found = []
    for place, (name, table) in enumerate(strikes):
        strike, met = _strike(given, table)
        found.append(_answered(given, said(name), strike, met, part_of(tick, place, len(strikes))))
    return tuple(found)


def _strike(given: Given, t: Table) -> tuple[Strike, Met]:
    water, held = given.nodes["water"], given.nodes["held"]
    body, duct, outer = _body(given)
    log = Log(t["length"], t["diameter"], t["density"], t["attitude"], water.density)
    machine = struck_machine(
        body, outer, duct.length, given.keys["holding.guard"], given.nodes["held_loads"][0], water.density
    )
    link = given.keys["holding.weak_link"]
    met = water_met(held, log, t["speed"])
    capacity = None if link is None else link["capacity"]
    tether = tether_at(held, met.speed, capacity, 0.5 * duct.length, table=met.water.intact)
    struck_depth = None
    if log.attitude == "upright" and met.over is None:  # the middle of what it has at the machine's height
        struck_depth = 0.5 * (max(met.cover, 0.0) + min(log.length, max(met.cover, 0.0) + 2.0 * outer))
    strike = Strike(
        log, machine, tether, met.speed, heading=t["heading"], offset=t["offset"], struck_depth=struck_depth,
        friction=t["friction"], restitution=t["restitution"],
    )  # fmt: skip
    return strike, met


def _answered(given: Given, name: str, strike: Strike, met: Met, tick: Tick) -> StruckBy:
    touches = met.over is None and first_touch(strike) is not None
    outcomes = FrictionSensitivity((), False, None)
    if met.over is None:
        outcomes = outcome_by_friction(strike, until=_SHOWN, tick=tick)
    stiffness = strike.tether.along
    return StruckBy(
        name,
        strike.log.mass,
        strike.machine.surge_mass,
        strike.stream_speed,
        stiffness,
        strike.tether.pretension,
        strike.tether.capacity if math.isfinite(strike.tether.capacity) else None,
        met.label,
        met.depth,
        met.over,
        two_phase(strike) if touches else None,
        outcomes,
        beside_fixed(strike, until=_SHOWN) if touches else (),
        code_estimates(strike.log.mass, strike.log.diameter, strike.approach_speed),
    )


def _struck_year(given: Given, tick: Tick) -> StruckYear | None:
    """None where the scheme names no logs. It is a climate, at the record's own speeds: no allowance is on them."""
    keys, site, water = given.keys, given.nodes["site"], given.nodes["water"]
    if not keys["holding.log"]:
        return None
    held: Held = given.nodes["held"]
    body, duct, outer = _body(given)
    machine = struck_machine(
        body, outer, duct.length, keys["holding.guard"], given.nodes["held_loads"][0], water.density
    )
    link, allowance = keys["holding.weak_link"], keys["holding.speed_allowance"]
    capacity = None if link is None else link["capacity"]
    seasons = seasons_of(site, keys["holding.season"])
    kinds = tuple(kind_of(said(n), t, seasons, held.depths[0].depth) for n, t in sorted(keys["holding.log"].items()))
    front = Front(
        outer, max(held.cover if math.isfinite(held.cover) else 0.0, 0.0), 2.0 * outer, speed_covers(held, allowance)
    )
    population = LogPopulation(kinds, tuple(season for season, _ in seasons))
    found = log_exceedance(
        population,
        machine,
        _by_speed(held, capacity, 0.5 * duct.length),
        front,
        strikes=keys["holding.strikes"],
        seed=given.seed % 2**31,
        water_density=water.density,
        tick=tick,
    )
    return yearly_curves(found, capacity)


def _by_speed(held: Held, capacity: float | None, middle: float) -> Callable[[float], Tether]:
    return lambda speed: tether_at(held, speed, capacity, middle)


def _help(given: Given, tick: Tick) -> HoldingHelp | None:
    """Sizes for the load case that comes nearest to a line's strength; None where nothing settles."""
    held: Held = given.nodes["held"]
    if not held.worst:
        return None
    worst = max(held.worst, key=lambda w: max([u.wanted_strength for u in w.utilisations] or [0.0]))
    use = max(worst.utilisations, key=lambda u: u.wanted_strength)
    factor = next(f for f in line_factors(given) if f.name == use.name)
    stream = stream_of(given, held.depths[0].depth, worst.stream_speed)
    layout = drawn_layout(given, given.nodes["site"])
    tether = next(t for t in layout.tethers if t.name == worst.name)
    choices = line_choices(worst.tension, factor, tether.length, density=stream.density)
    tick(0.2)
    return HoldingHelp(
        worst.name, worst.case, worst.state, worst.stream_speed, worst.tension, use.wanted_strength, choices,
        _trade(given, held, choices, layout), proposals(given, held, layout, stream),
    )  # fmt: skip


def _trade(given: Given, held: Held, choices: tuple[LineChoice, ...], layout: Layout) -> tuple[StiffnessTrade, ...]:
    """The hardest strike of the scheme on lines of each kind, all tethers that hold against it taken alike."""
    struck: tuple[StruckBy, ...] = given.nodes["struck"]
    hit = [one for one in struck if one.phases is not None]
    first = max(hit, key=lambda one: one.phases.first.force.high if one.phases else 0.0, default=None)
    if first is None:
        return ()
    point = held_point(water_at(held, first.stream_speed).intact, "on load", first.stream_speed)
    return trade_of(choices, holding_against(layout, point), first)


_NEEDS = ("holding", "machine", "place")
STRUCK_NODES = (
    Node(
        "debris_held",
        3,
        _debris_held,
        keys=(*BODY_KEYS, "holding.debris", "holding.weak_link", "holding.speed_allowance"),
        nodes=("held", "held_loads", "site", "water"),
        needs=_NEEDS,
    ),
    Node(
        "struck",
        4,
        _struck,
        keys=(*BODY_KEYS, "holding.strike", "holding.guard", "holding.weak_link", "holding.speed_allowance"),
        nodes=("held", "held_loads", "site", "water"),
        needs=_NEEDS,
    ),
    Node(
        "struck_year",
        4,
        _struck_year,
        keys=(
            *BODY_KEYS,
            "holding.log",
            "holding.season",
            "holding.strikes",
            "holding.guard",
            "holding.weak_link",
            "holding.speed_allowance",
        ),
        nodes=("held", "held_loads", "site", "water"),
        needs=_NEEDS,
    ),
    Node(
        "holding_help",
        6,
        _help,
        keys=(
            *LAYOUT_KEYS,
            *DEPTH_KEYS,
            "place.profile_exponent",
            "holding.cover",
            "holding.bed_clearance",
            "holding.roll",
            "holding.factors",
            "holding.speed_allowance",
        ),
        nodes=("held", "held_loads", "struck", "site", "water"),
        needs=_NEEDS,
    ),
)
