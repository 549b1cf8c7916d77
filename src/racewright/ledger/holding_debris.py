"""Debris that stays on a holding, from its plain scheme values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from racewright.holding.debris_held import held_crown, held_trunk
from racewright.holding.debris_load import DebrisLoad
from racewright.holding.debris_raft import Raft, raft_loads, raft_size
from racewright.holding.log_body import Log
from racewright.ledger.holding_things import said

Table = Mapping[str, Any]

DEFAULT_TREE = (6.0, 0.3)
"""Length and diameter of the trunk that every holding is asked to bear, where the scheme names none. Own choice, no
source: who lives at the river knows its trees [m]."""
_DAY = 86400.0
_SOAKED = 1000.0


def debris_load(name: str, table: Table, speed: float, density: float, depth: float) -> DebrisLoad:
    """One thing that stays; a raft as large as it is when its time is over.

    Parameters
    ----------
    name : str
    table : mapping
        Plain values of its scheme table.
    speed : float
        Of the stream [m/s].
    density : float
        Of the water [kg/m3].
    depth : float
        Of the water [m].
    """
    point = (-table["ahead"], 0.0, table["up"])
    if table["kind"] == "trunk":
        log = Log(table["length"], table["diameter"], _SOAKED, "submerged", density)
        found = held_trunk(log, speed, point)
    elif table["kind"] == "crown":
        found = held_crown(table["width"], table["height"], speed, point, water_density=density)
    else:
        time = np.array([table["time"]])
        found = raft_loads(_raft(table, depth), time, speed, table["up"], x=point[0], water_density=density)[-1]
    return replace(found, name=f"held {table['kind']}: {said(name)}")


def size_words(table: Table, depth: float) -> str:
    """How large the thing is."""
    if table["kind"] == "trunk":
        return f"{table['length']:g} m long, {table['diameter']:g} m thick, square across"
    if table["kind"] == "crown":
        return f"{table['width']:g} m wide, {table['height']:g} m high in the water"
    size = raft_size(_raft(table, depth), [table["time"]])
    return f"{size.width[0]:.1f} m wide, {size.depth[0]:.1f} m deep after {table['time'] / _DAY:g} days"


def debris_tables(tables: Mapping[str, Table]) -> dict[str, Table]:
    """Debris of the scheme by name, or the trunk that every holding is asked to bear."""
    if tables:
        return dict(sorted(tables.items()))
    length, diameter = DEFAULT_TREE
    trunk = {"kind": "trunk", "length": length, "diameter": diameter, "ahead": 0.0, "up": 0.0}
    return {"tree taken for granted": trunk}


def _raft(table: Table, depth: float) -> Raft:
    return Raft(table["wood"] / _DAY, table["caught"], table["length"], table["length"], depth)
