"""The holding's nodes: load states, statics in the depths of the place, anchors."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.holding.anchor_result import AnchorLoad
from racewright.holding.safety import StrengthFactor
from racewright.holding.statics_low_water import low_water
from racewright.holding.statics_result import swung
from racewright.holding.statics_sweep import Statics
from racewright.holding.statics_watch import watch_circle
from racewright.holding.statics_worst import WorstLine, worst_lines
from racewright.ledger.convert import duct_of
from racewright.ledger.holding_anchors import anchor_found, pull_of
from racewright.ledger.holding_debris import debris_load, debris_tables, size_words
from racewright.ledger.holding_findings import AnchorFound, AtDepth, Held, HeldLoad
from racewright.ledger.holding_said import lowest_remarks, remarks_of
from racewright.ledger.holding_states import stage_loads, swept, turned, with_debris
from racewright.ledger.holding_things import LAYOUT_KEYS, said
from racewright.ledger.holding_waters import DEPTH_KEYS, drawn_layout, hub_height, reference, stream_of, waters
from racewright.ledger.node import Given, Node
from racewright.ledger.place_inputs import outer_radius
from racewright.safety_factors import SafetyFactor, safety_factor, safety_factors
from racewright.tick import Tick, part_of

Floats = NDArray[np.float64]

SPEEDS = 8
"""Stream speeds that the statics are asked at, up to the fastest water of the place. Own choice."""
OTHER_SPEEDS = 4
"""The same in the other waters of the place. Own choice."""
WATCHED = (0.25, 0.75, 1.0)
"""Shares of the fastest speed at which the watch circle is asked. Own choice [-]."""
NOT_LOST = ("held", "clogged 50 %")
"""States that are not asked again with a line lost: others load the lines more. Own choice."""


def _held_loads(given: Given, _tick: Tick) -> tuple[HeldLoad, ...]:
    """States of the stage with the frame's drag; each held thing on the machine as something holds its rotor."""
    body, water, site = given.keys["holding.body"], given.nodes["water"], given.nodes["site"]
    middle = 0.5 * given.keys["machine.duct"]["length"]
    loads = list(
        stage_loads(
            given.nodes["states"], given.nodes["control"].way.curve, water.density, body["drag_area"],
            body["drag_up"], middle,
        )
    )  # fmt: skip
    base = next((load for load in loads if load.name == "held"), loads[0])
    depth, width = waters(given, site)[0].depth, 2.0 * outer_radius(duct_of(given.keys))
    for name, table in debris_tables(given.keys["holding.debris"]).items():
        found = debris_load(name, table, 1.0, water.density, depth, width)
        area = found.along.high / (0.5 * water.density)  # at 1 m/s
        words = f"{found.along.safety.basis}; the high end of that range, on the machine with its rotor stopped"
        if table["kind"] == "raft":
            words = f"{size_words(table, depth, width)}; {words}"
        at = (found.point[0], found.point[2])
        loads.append(with_debris(found.name, base, area, at, water.density, words))
    return tuple(loads)


def _held(given: Given, tick: Tick) -> Held:
    site, loads = given.nodes["site"], given.nodes["held_loads"]
    asked = waters(given, site)
    depth, fastest = asked[0].depth, asked[0].fastest
    stream = stream_of(given, depth, fastest)
    layout = drawn_layout(given, site)
    tethers = [t.name for t in layout.tethers if t.purpose == "tether"]
    heavy = [load for load in loads if load.name not in NOT_LOST]
    headings = 3 if given.keys["holding.swing"] else 1
    parts = len(asked) + headings - 1 + headings * len(tethers)
    done = iter(range(parts))
    depths, ways = [], []
    for water in asked:
        there = stream_of(given, water.depth, water.fastest)
        count = SPEEDS if water is asked[0] else OTHER_SPEEDS
        speeds = water.fastest * np.arange(1, count + 1) / count
        ways.append(swept(layout, there, loads, speeds, part_of(tick, next(done), parts)))
        depths.append(AtDepth(water.label, water.depth, there.reference_height, ways[-1].table))
    speeds, swing = depths[0].intact.stream_speed, given.keys["holding.swing"]
    aside = [replace(stream, heading=turn) for turn in ((-swing, swing) if swing else ())]
    for there in aside:
        table = turned(layout, there, loads, ways[0], part_of(tick, next(done), parts))
        label = f"{asked[0].label}{swung(table.points[0][0])}"
        depths.append(AtDepth(label, depth, there.reference_height, table))
    gone = tethers if len(tethers) > 1 else []
    without = [swept(layout, stream, heavy, speeds[-1:], part_of(tick, next(done), parts), name) for name in gone]
    lost = [one.table for one in without]
    for there in aside:
        lost += [turned(layout, there, heavy, one, part_of(tick, next(done), parts)) for one in without]
    factors = line_factors(given)
    on_load = loads[0]
    body = replace(layout.body, drag_centre=(on_load.drag_x, 0.0, on_load.drag_up))
    keys = given.keys
    layout_depth = reference(given, site)[1]
    lowest = None if site.lowest is None else site.lowest.depth
    low = low_water(
        replace(layout, body=body),
        replace(stream, speed=0.5 * fastest),
        on_load.state,
        np.union1d(layout_depth * np.linspace(1.0, 0.35, 14), [lowest] if lowest and lowest > 0.0 else []),
        cover=keys["holding.cover"],
        bed_clearance=keys["holding.bed_clearance"],
    )
    circle = watch_circle(
        replace(layout, body=body),
        stream,
        on_load.state,
        np.linspace(-swing, swing, 7) if swing else np.zeros(1),
        fastest * np.array(WATCHED),
    )
    pose = _least_cover(depths)
    anchors = [keys["holding.anchor"][line["anchor"]] for _, line in sorted(keys["holding.line"].items())]
    return Held(
        tuple(depths),
        tuple(lost),
        _worst(depths, tuple(lost), factors),
        factors,
        tuple(said(line["anchor"]) for _, line in sorted(keys["holding.line"].items())),
        np.array([[-a["ahead"], a["left"], a["height"]] for a in anchors]),
        circle,
        low,
        lowest,
        keys["holding.cover"],
        keys["holding.bed_clearance"],
        keys["holding.roll"],
        hub_height(given, layout_depth),
        pose[0],
        _extreme(depths, "bed_clearance", np.nanmin),
        _extreme(depths, "roll", lambda roll: np.nanmax(np.abs(roll))),
        pose[1],
        (*remarks_of(given, depths, tuple(lost), tethers), *lowest_remarks(low, lowest)),
    )


def line_factors(given: Given) -> tuple[StrengthFactor, ...]:
    """Wanted factors of the lines, intact and with one lost, by their packaged keys and the user's edits."""
    wanted = given.keys["holding.factors"]
    table = safety_factors(
        {
            k: {"factor": e["factor"], "source": e["source"], "edition": e["edition"]}
            for k, e in wanted["edit"].items()
        }
    )
    return (
        _strength_factor(safety_factor(wanted["line_intact"], table), "intact"),
        _strength_factor(safety_factor(wanted["line_lost"], table), "one line lost"),
    )


def _strength_factor(row: SafetyFactor, case: str) -> StrengthFactor:
    told = f"{row.standard}: {row.item}, {row.conditions}"
    name = f"{case}, {row.analysis}"
    edition = row.safety.edition
    if case == "intact":
        return StrengthFactor(name, row.single() / row.share, told, edition, "intact")
    return StrengthFactor(name, row.single() / row.share, told, edition, "one line lost")


def _worst(
    depths: list[AtDepth], lost: tuple[Statics, ...], factors: tuple[StrengthFactor, ...]
) -> tuple[WorstLine, ...]:
    """The worst of all depths; one line lost is looked at in the first alone."""
    best: dict[tuple[str, str], WorstLine] = {}
    for place, one in enumerate(depths):
        for line in worst_lines(one.intact, lost if place == 0 else (), factors):
            key = (line.name, line.case)
            uses = [u.value for u in line.utilisations] or [line.tension / line.strength]
            kept = best.get(key)
            unknown = line.left_out + (0 if kept is None else kept.left_out)
            if kept is None or max(uses) > max([u.value for u in kept.utilisations] or [0.0]):
                water = one.label.split(",")[0]  # a turned stream stands in the state
                kept = replace(line, state=f"{line.state}, {water}")
            best[key] = replace(kept, left_out=unknown)
    return tuple(best.values())


def _extreme(depths: list[AtDepth], name: str, of: Callable[[Floats], float]) -> float:
    values = np.concatenate([getattr(one.intact, name).ravel() for one in depths])
    return float(of(values)) if np.isfinite(values).any() else math.nan


def _least_cover(depths: list[AtDepth]) -> tuple[float, str]:
    best, told = math.inf, ""
    for one in depths:
        cover = one.intact.cover
        if np.isfinite(cover).any():
            i, j = np.unravel_index(int(np.nanargmin(cover)), cover.shape)
            if cover[i, j] < best:
                speed = one.intact.stream_speed[j]
                best, told = float(cover[i, j]), f"{one.intact.states[i]} at {speed:.2f} m/s, {one.label}"
    return (best, told) if told else (math.nan, "")


def _anchors(given: Given, _tick: Tick) -> tuple[AnchorFound, ...]:
    """Each anchor against the loads of its lines, in every depth, state and speed."""
    held: Held = given.nodes["held"]
    intact = [one.intact for one in held.depths]
    density = given.nodes["water"].density
    found = []
    for name, anchor in sorted(given.keys["holding.anchor"].items()):
        lines = tuple(said(n) for n, line in sorted(given.keys["holding.line"].items()) if line["anchor"] == name)
        if lines:
            loads = [*_loads(intact, lines, anchor), *_loads(list(held.lost), lines, anchor)]
            found.append(anchor_found(said(name), anchor, lines, loads, density))
    return tuple(found)


def _loads(tables: list[Statics], lines: tuple[str, ...], anchor: Mapping[str, Any]) -> list[AnchorLoad]:
    """The heaviest load of the anchor in each state: pulls of its lines added up as if all pulled one way."""
    best: dict[str, AnchorLoad] = {}
    for table in tables:
        for i, row in enumerate(table.points):
            for point in row:
                here = [line for line in point.lines if line.name in lines and point.settled]
                if not here:
                    continue
                across = sum(line.anchor_tension * math.cos(line.anchor_angle) for line in here)
                up = sum(line.anchor_tension * math.sin(line.anchor_angle) for line in here)
                label = f"{table.states[i]}{swung(point)}" + (f", '{table.lost}' lost" if table.lost else "")
                load = AnchorLoad(label, "one line lost" if table.lost else "intact", max(across, 1e-9), up)
                if label not in best or pull_of(load, anchor) > pull_of(best[label], anchor):
                    best[label] = load
    return list(best.values())


HELD_KEYS = (
    *LAYOUT_KEYS, *DEPTH_KEYS, "place.profile_exponent", "holding.cover", "holding.bed_clearance", "holding.roll",
    "holding.swing", "holding.factors", "holding.debris", "holding.speed_allowance",
)  # fmt: skip
HOLDING_NODES = (
    Node(
        "held_loads",
        4,
        _held_loads,
        keys=(*DEPTH_KEYS, "holding.body", "holding.debris", "machine.duct", "holding.speed_allowance"),
        nodes=("states", "control", "water", "site"),
        needs=("holding", "machine", "place"),
    ),
    Node(
        "held",
        9,
        _held,
        keys=HELD_KEYS,
        nodes=("held_loads", "site", "water"),
        needs=("holding", "machine", "place"),
    ),
    Node(
        "held_anchors",
        4,
        _anchors,
        keys=("holding.anchor", "holding.line"),
        nodes=("held", "water"),
        needs=("holding", "machine", "place"),
    ),
)
