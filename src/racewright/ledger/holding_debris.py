"""Debris that stays on a holding, from its plain scheme values."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from racewright.holding.debris_held import held_crown, held_trunk
from racewright.holding.debris_load import DebrisLoad
from racewright.holding.debris_raft import WIDEST, Raft, raft_loads, raft_size
from racewright.holding.log_body import Log
from racewright.ledger.holding_things import said

Table = Mapping[str, Any]

DEFAULT_TREE = (6.0, 0.3)
"""Length and diameter of the trunk that every holding is asked to bear, where the scheme names none. Own choice, no
source: who lives at the river knows its trees [m]."""
_DAY = 86400.0
_SOAKED = 1000.0


def debris_load(name: str, table: Table, speed: float, density: float, depth: float, width: float) -> DebrisLoad:
    """One thing that stays; a raft as large as it is when it is cleared, at its `time`.

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
    width : float
        Of the machine, which a raft spans at the least [m].
    """
    point = (-table["ahead"], 0.0, table["up"])
    if table["kind"] == "trunk":
        found = held_trunk(_trunk(table, density), speed, point)
    elif table["kind"] == "crown":
        found = held_crown(table["width"], table["height"], speed, point, water_density=density)
    else:
        time = np.array([table["time"]])
        raft = _raft(table, depth, width)
        found = raft_loads(raft, time, speed, table["up"], x=point[0], water_density=density)[0]
    return replace(found, name=f"held {table['kind']}: {said(name)}")


def debris_mass(table: Table, density: float, depth: float, width: float) -> float:
    """What a thing that stays adds to the mass of a machine that is carried off across it, its water included [kg].

    A trunk as in strip theory: its own mass and as much water. Crown and raft alike, full of wood and of water that
    goes along, at the water's density: a crown as an ellipsoid as long as high, a raft as long as deep. Own choice,
    on the high side: the heavier it is, the harder the retaining line snatches.

    Parameters
    ----------
    table, density, depth, width
        As `debris_load`.
    """
    if table["kind"] == "trunk":
        return 1.0 / _trunk(table, density).in_plane().across
    if table["kind"] == "crown":
        return float(2.0 * density * math.pi / 6.0 * table["width"] * table["height"] ** 2)
    size = raft_size(_raft(table, depth, width), [table["time"]])
    return 2.0 * density * float(size.width[0] * size.depth[0] ** 2)


def size_words(table: Table, depth: float, width: float) -> str:
    """How large the thing is; of a raft that is cleared before it is full also how large it would be then."""
    if table["kind"] == "trunk":
        return f"{table['length']:g} m long, {table['diameter']:g} m thick, square across"
    if table["kind"] == "crown":
        return f"{table['width']:g} m wide, {table['height']:g} m high in the water"
    raft = _raft(table, depth, width)
    size = raft_size(raft, [table["time"]])
    area, full = float(size.width[0] * size.depth[0]), raft.limits
    if area <= 0.0:
        return "nothing: no wood comes by, or none stays"
    words = f"{_extent(float(size.width[0]), float(size.depth[0]))} after {table['time'] / _DAY:.3g} days"
    if table["time"] >= size.full_time:
        return f"{words}, as large as it gets"
    more = f"{full[0] * full[1] / area:.1f} times the force"
    return f"{words}; not cleared it is full after {size.full_time / _DAY:.3g} days, {_extent(*full)}: {more}"


def _extent(width: float, depth: float) -> str:
    return f"{width:.1f} m wide, {depth:.1f} m deep"


def debris_tables(tables: Mapping[str, Table]) -> dict[str, Table]:
    """Debris of the scheme by name, or the trunk that every holding is asked to bear."""
    if tables:
        return dict(sorted(tables.items()))
    length, diameter = DEFAULT_TREE
    trunk = {"kind": "trunk", "length": length, "diameter": diameter, "ahead": 0.0, "up": 0.0}
    return {"tree taken for granted": trunk}


def _trunk(table: Table, density: float) -> Log:
    return Log(table["length"], table["diameter"], _SOAKED, "submerged", density)


def _raft(table: Table, depth: float, width: float) -> Raft:
    """What comes by does so over the full raft's width, so it grows at a steady rate."""
    spanned = max(width, min(table["length"], WIDEST))
    return Raft(table["wood"] / _DAY, table["caught"], spanned, table["length"], depth)
