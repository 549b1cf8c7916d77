"""The neighbours' nodes: fish, the machine beside bare fast rotors, debris, a screen, a trade, sound."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np

from racewright.errors import InputError, NoAnswerError
from racewright.ledger.convert import UNIT_KEYS, unit_of
from racewright.ledger.neighbours_findings import (
    DebrisFound,
    DriftFound,
    FishAt,
    FishBeside,
    FishFound,
    RiverFish,
    ScreenFound,
    TradeFound,
)
from racewright.ledger.neighbours_things import (
    DAY,
    DEPTH_KEYS,
    DESIGN,
    Condition,
    axis_depth,
    conditions,
    discharge_at,
    dose_of,
    flowing,
    screen_of,
)
from racewright.ledger.node import Given, Node
from racewright.ledger.nodes_sound import SOUND_NODES
from racewright.passage.beside import bare_rotors, beside_bare
from racewright.passage.crossing import row_crossings
from racewright.passage.debris import debris_class
from racewright.passage.exposure import Exposure, exposure
from racewright.passage.fate import fates
from racewright.passage.fish import FishPassage, fish_passage
from racewright.passage.opening import opening
from racewright.passage.screen import fill_time, held_back
from racewright.passage.screen_option import screen_option
from racewright.passage.species import fish_class
from racewright.passage.trade import trade
from racewright.place.result import Site
from racewright.stage.result import OperatingPoint
from racewright.stage.stage_ready import ready_stage
from racewright.tick import Tick

STEEPEST = math.degrees(1.2)
"""Largest sweep that is tried [deg]."""


def _fish(given: Given, tick: Tick) -> tuple[FishFound, ...]:
    """Every fish at the design point and in the fastest water; the river's at each standing."""
    keys, site = given.keys, given.nodes["site"]
    depth, points = axis_depth(keys, site), conditions(unit_of(keys), given)
    felt: dict[tuple[str, float | None], Exposure | str] = {}
    found = []
    fish = sorted(keys["neighbours.fish"].items())
    for done, (name, table) in enumerate(fish):
        tick(done / len(fish))
        at = tuple(_fish_at(given, name, table, depth, one, felt) for one in points)
        design = next((a.passage for a in at if a.condition == DESIGN), None)
        kind = fish_class(table["kind"])
        found.append(
            FishFound(
                name,
                table["kind"],
                kind.title,
                table["length"],
                table["heading"],
                table["avoidance"],
                table["acclimation_depth"],
                at,
                _river(design, given.nodes["design_point"], site),
            )
        )
    return tuple(found)


def _fish_at(
    given: Given,
    name: str,
    table: Any,
    depth: float,
    one: Condition,
    felt: dict[tuple[str, float | None], Exposure | str],
) -> FishAt:
    """One fish at one point; what it feels is shared by all that are used to the same depth."""
    river = discharge_at(given.nodes["site"], one.stream_speed)
    reason, passage = one.reason, None
    if one.point is not None:
        used = table["acclimation_depth"]
        if (one.name, used) not in felt:
            felt[one.name, used] = _felt(given, one.point, depth, used)
        known = felt[one.name, used]
        if isinstance(known, str):
            reason = known
        else:
            passage = _passage(given, name, table, depth, one.point, river, known)
    return FishAt(one.name, one.stream_speed, one.rotor_speed, river, passage, reason)


def _felt(given: Given, point: OperatingPoint, depth: float, used: float | None) -> Exposure | str:
    """Pressures and strains, or why there is no answer."""
    vanes, blades = given.nodes["rows"]
    flow, water = given.nodes["flow"], given.nodes["water"]
    try:
        return exposure(vanes, blades, flow, water, point, depth, acclimation_depth=used)
    except NoAnswerError as error:
        return str(error)


def _passage(
    given: Given, name: str, table: Any, depth: float, point: OperatingPoint, river: float | None, felt: Exposure
) -> FishPassage:
    vanes, blades = given.nodes["rows"]
    try:
        return fish_passage(
            unit_of(given.keys),
            vanes,
            blades,
            given.nodes["flow"],
            given.nodes["water"],
            point,
            fish_class(table["kind"]),
            table["length"],
            depth,
            heading=table["heading"],
            discharge=river,
            avoidance=table["avoidance"],
            acclimation_depth=table["acclimation_depth"],
            felt=felt,
        )
    except InputError as fault:
        raise _of_fish(name, fault) from None


def _of_fish(name: str, fault: InputError) -> InputError:
    """A fault of a fish, pointed at its own key; others stay."""
    own = fault.key in ("length", "heading", "avoidance", "acclimation_depth")
    return InputError(fault.message, key=f"{name}.{fault.key}") if own else fault


def _river(passage: FishPassage | None, design: OperatingPoint, site: Site) -> tuple[RiverFish, ...]:
    """At each standing, the flow through the machine in proportion to the stream speed, the chances as designed."""
    if passage is None:
        return ()
    found = []
    for standing in flowing(site):
        share = min(1.0, design.flow_rate / design.stream_speed * standing.speed / standing.discharge)
        come = share * (1.0 - passage.avoidance)
        chances = (passage.strike.chance, passage.death_low, passage.death, passage.death_high)
        found.append(
            RiverFish(
                standing.label, standing.discharge, standing.speed, share, *(come * float(c[0]) for c in chances)
            )
        )
    return tuple(found)


def _beside(given: Given, tick: Tick) -> tuple[FishBeside, ...]:
    """Every fish in the machine and in bare rotors; empty where the design point gives no power."""
    unit, point, water = unit_of(given.keys), given.nodes["design_point"], given.nodes["water"]
    fish = sorted(given.keys["neighbours.fish"].items())
    if not (point.shaft_power > 0.0 and fish):
        return ()
    vanes, blades = given.nodes["rows"]
    bare = bare_rotors(unit, water, point)
    found = []
    for done, (name, table) in enumerate(fish):
        tick((done + 1) / (len(fish) + 1))
        kind = fish_class(table["kind"])
        try:
            one = beside_bare(
                unit, vanes, blades, water, point, kind, table["length"], heading=table["heading"], bare=bare
            )
        except InputError as fault:
            raise _of_fish(name, fault) from None
        found.append(FishBeside(name, one))
    return tuple(found)


def _debris(given: Given, tick: Tick) -> DebrisFound:
    """Openings, and what becomes of each kind at the design point."""
    vanes, blades = given.nodes["rows"]
    rows = row_crossings(unit_of(given.keys), vanes, blades, given.nodes["design_point"])
    drift = sorted(given.keys["neighbours.debris"].items())
    free = opening(vanes, blades)
    found = []
    for done, (name, table) in enumerate(drift):
        tick((done + 1) / (len(drift) + 1))
        kind = debris_class(table["kind"])
        dose = dose_of(name, table, given.nodes["doses"])
        counted = {} if dose is None else {kind.name: dose}
        (fate,) = fates(vanes, blades, rows, [kind], doses=counted)
        found.append(DriftFound(name, table["dose"], fate))
    return DebrisFound(free, tuple(found))


def _screen(given: Given, _tick: Tick) -> ScreenFound | None:
    """None where the scheme has no screen."""
    table = given.keys["neighbours.screen"]
    if table is None:
        return None
    vanes, blades = given.nodes["rows"]
    point, screen = given.nodes["design_point"], screen_of(table)
    stage = ready_stage(unit_of(given.keys), vanes, blades, given.nodes["flow"], given.nodes["water"])
    closed = table["closed_share"]
    option = screen_option(stage, screen, point.stream_speed, point.rotor_speed, closed_share=closed)
    if table["arriving"] and closed > 0.0:
        through = option.clean.flow_rate
        option = replace(option, fill_time=fill_time(screen, through, table["arriving"] / DAY / through, closed))
    fish = sorted(given.keys["neighbours.fish"].items())
    held = tuple(name for name, one in fish if held_back(screen, fish_class(one["kind"]), one["length"]))
    return ScreenFound(option, held)


def _trade(given: Given, tick: Tick) -> TradeFound | None:
    """Of the longest fish and every kind of debris; None where nothing is to be moved."""
    table, fish = given.keys["neighbours.trade"], given.keys["neighbours.fish"]
    if table is None:
        return None
    if not fish:
        raise InputError("a trade tells strikes of a fish; add a [neighbours.NAME.fish.NAME] table", key="trade")
    name = max(sorted(fish), key=lambda n: float(fish[n]["length"]))
    one = fish[name]
    sweeps = table["sweeps"] or ()
    for sweep in sweeps:
        if not -STEEPEST <= sweep <= STEEPEST:
            message = f"{sweep:g} degrees of sweep is out of range; write -{STEEPEST:.0f} to {STEEPEST:.0f}"
            raise InputError(message, key="sweeps")
    kinds = dict.fromkeys(drift["kind"] for _n, drift in sorted(given.keys["neighbours.debris"].items()))
    try:
        rows = trade(
            unit_of(given.keys),
            given.nodes["flow"],
            given.nodes["water"],
            fish_class(one["kind"]),
            one["length"],
            tip_speed_ratios=table["tip_speed_ratios"] or (),
            vane_counts=[int(n) for n in table["vane_counts"] or ()],
            blade_counts=[int(n) for n in table["blade_counts"] or ()],
            sweeps=[float(np.radians(sweep)) for sweep in sweeps],
            debris=[debris_class(kind) for kind in kinds],
            heading=one["heading"],
            tick=tick,
        )
    except InputError as fault:
        raise _of_fish(name, fault) from None
    return TradeFound(name, one["length"], rows)


NEEDS = ("neighbours", "machine", "place")
_STAGE = ("rows", "flow", "water", "design_point")

NEIGHBOURS_NODES = (
    Node(
        "fish",
        1,
        _fish,
        keys=("neighbours.fish", *UNIT_KEYS, *DEPTH_KEYS),
        nodes=(*_STAGE, "states", "site"),
        needs=NEEDS,
    ),
    Node(
        "fish_beside",
        1,
        _beside,
        keys=("neighbours.fish", *UNIT_KEYS),
        nodes=("rows", "water", "design_point"),
        needs=NEEDS,
    ),
    Node(
        "debris",
        1,
        _debris,
        keys=("neighbours.debris", *UNIT_KEYS),
        nodes=("rows", "design_point", "doses"),
        needs=NEEDS,
    ),
    Node(
        "screen",
        1,
        _screen,
        keys=("neighbours.screen", "neighbours.fish", *UNIT_KEYS),
        nodes=_STAGE,
        needs=NEEDS,
    ),
    Node(
        "trade",
        1,
        _trade,
        keys=("neighbours.trade", "neighbours.fish", "neighbours.debris", *UNIT_KEYS),
        nodes=("flow", "water"),
        needs=NEEDS,
    ),
    *SOUND_NODES,
)
