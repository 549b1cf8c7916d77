"""Upkeep: availability from parts, spares, pieces against carriers, recovery from the water."""

from __future__ import annotations

from typing import Any

import numpy as np

from racewright.ledger.node import Given, Node
from racewright.ledger.place_inputs import said
from racewright.ledger.supply_inputs import priced
from racewright.ledger.upkeep_things import Recovery, RecoveryCase
from racewright.stage.result import State
from racewright.tick import Tick
from racewright.upkeep.carrying import Carried, Carrying, carried
from racewright.upkeep.parts import MachinePart, rate_between_failures, sure_band
from racewright.upkeep.parts_availability import PartsAvailability, parts_availability
from racewright.upkeep.pieces import LiftedPiece
from racewright.upkeep.recovery import recovery_pull
from racewright.upkeep.spares import Spares, choose_spares


def parts_of_machine(tables: Any) -> tuple[MachinePart, ...]:
    """Kinds of part in order of their names."""
    found = []
    for name, table in sorted(tables.items()):
        likely = table["between_failures"]
        shortest = likely if table["shortest"] is None else table["shortest"]
        longest = likely if table["longest"] is None else table["longest"]
        found.append(
            MachinePart(
                name=said(name),
                failure_rate=rate_between_failures(shortest, likely, longest, "as given"),
                mend_time=sure_band(table["mend"]),
                wait=sure_band(table["wait"]),
                count=table["count"],
                held=table["held"],
                price=0.0 if table["price"] is None else table["price"]["si"],
                life=table["life"],
                planned_time=table["planned"],
            )
        )
    return tuple(found)


def _parts(given: Given, _tick: Tick) -> PartsAvailability | None:
    """None where no parts are given."""
    parts = parts_of_machine(given.keys["machine.part"])
    return parts_availability(parts) if parts else None


def _spares(given: Given, _tick: Tick) -> Spares | None:
    """By the fuel and running cost that lost energy makes; None without parts or energy."""
    keys, energy, parts = given.keys, given.nodes["energy"], parts_of_machine(given.keys["machine.part"])
    if not parts or energy is None:
        return None
    diesel, share = keys["community.diesel"], given.nodes["availability"].share
    price, _way = priced(diesel, keys["community.supply.fuel"])
    worth = diesel["fuel_slope"] * price + diesel["running"]["si"]
    return choose_spares(parts, energy.mean_power / share if share > 0.0 else 0.0, worth, keys["community.interest"])


def _carrying(given: Given, _tick: Tick) -> Carried | None:
    """None without pieces."""
    tables, means = given.keys["machine.piece"], given.keys["community.carrier"] or {}
    if not tables:
        return None
    pieces = tuple(
        LiftedPiece(
            said(name), t["dry_mass"], t["length"], t["width"], t["height"], t["hollow_volume"], t["solid_volume"]
        )
        for name, t in sorted(tables.items())
    )
    carriers = tuple(
        Carrying(said(name), t["most_mass"], _space(t), t["carries"]) for name, t in sorted(means.items())
    )
    return carried(pieces, carriers, given.nodes["water"].density)


def _space(table: Any) -> tuple[float, float, float] | None:
    if table["length"] is None:
        return None
    return (table["length"], table["width"], table["height"])


def _recovery(given: Given, _tick: Tick) -> Recovery | None:
    """Rotor parked in the median and the fastest water of the place, and there with its passage clogged.

    None where no parked state is solved.
    """
    table, water, climate = given.keys["machine.recovery"], given.nodes["water"], given.nodes["site"].climate
    parked = [s for s in given.nodes["states"] if s.name in ("parked", "held") and s.stream_speed > 0.0]
    if not parked:
        return None
    area = _drag_area(parked, water.density)
    shut = [s for s in given.nodes["states"] if s.name == "clogged 100 %" and s.stream_speed > 0.0]
    running = np.cumsum(climate.share)
    place = int(np.searchsorted(running, 0.5))
    median = 0.5 * float(climate.edge[place] + climate.edge[place + 1])
    fastest = float(climate.edge[1:][climate.share > 0.0][-1])
    asked = [("median water", median, area), ("fastest water", fastest, area)]
    if shut:
        asked.append(("fastest water, passage clogged", fastest, _drag_area(shut, water.density)))
    cases = tuple(
        RecoveryCase(
            name,
            speed,
            recovery_pull(
                drag,
                speed,
                water.density,
                hauling_speed=table["hauling_speed"],
                debris_drag_area=table["debris_drag_area"],
                weight_in_water=table["weight_in_water"],
                slope=table["slope"],
                friction=table["friction"],
                winch=table["winch"],
            ),
        )
        for name, speed, drag in asked
    )
    told = dict.fromkeys(remark for case in cases for remark in case.pull.remarks)
    return Recovery(area, cases, tuple(told))


def _drag_area(states: list[State], density: float) -> float:
    """Drag coefficient x area of the state that has most of it [m2]."""
    return max(max(0.0, s.thrust) / (0.5 * density * s.stream_speed**2) for s in states)


UPKEEP_NODES = (
    Node("parts", 1, _parts, keys=("machine.part",), needs=("machine",)),
    Node(
        "spares",
        1,
        _spares,
        keys=("machine.part", "community.diesel", "community.supply.fuel", "community.interest"),
        nodes=("energy", "availability"),
        needs=("place", "machine", "community"),
    ),
    Node(
        "carrying",
        1,
        _carrying,
        keys=("machine.piece", "community.carrier"),
        nodes=("water",),
        needs=("machine", "community"),
    ),
    Node(
        "recovery",
        2,
        _recovery,
        keys=("machine.recovery",),
        nodes=("site", "states", "water"),
        needs=("place", "machine", "machine.recovery"),
    ),
)
