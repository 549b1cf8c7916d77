"""What a neighbours' node sees, on the coarse machine of the passage tests: quick, without the ledger."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from racewright.ledger.convert import UNIT_KEYS
from racewright.ledger.graph import NODES
from racewright.ledger.inputs import case_of
from racewright.ledger.neighbours_things import DEPTH_KEYS
from racewright.ledger.node import Given
from racewright.ledger.roles import roles_of
from racewright.place.result import Standing
from racewright.scheme import load_scheme
from racewright.stage.result import State
from racewright.tick import silent
from tests.ledger.common import FULL_EXAMPLE
from tests.passage.machine import FRESH, machine

STANDINGS = (
    Standing("low water (Q95)", 60.0, 3.0, 2.9, 0.5, 1.0, 1.3),
    Standing("median", 200.0, 4.6, 4.5, 0.5, 2.6, 2.0),
    Standing("high water (Q5)", 500.0, 6.8, 6.7, 0.5, 4.8, 2.9),
)


class Place:
    """The part of a site that the nodes read."""

    standings: tuple[Standing, ...] = STANDINGS


def given(*changes: tuple[str, Any], files: dict[str, Path] | None = None, **nodes: Any) -> Given:
    """Keys of the bundled example, some replaced by role path; nodes of the coarse machine."""
    loaded = load_scheme(FULL_EXAMPLE / "scheme.toml")
    name, case = case_of(loaded, None)
    roles = roles_of(loaded.scheme, name, case)
    paths = (
        *UNIT_KEYS, *DEPTH_KEYS, "neighbours.fish", "neighbours.debris", "neighbours.screen", "neighbours.trade",
        "neighbours.sound", "neighbours.sound.measured", "place.turbulence",
    )  # fmt: skip
    keys = {path: roles.plain(path) for path in paths} | dict(changes)
    one = machine()
    values = {
        "rows": (one.vanes, one.blades), "flow": one.flow, "water": FRESH, "design_point": one.point, "doses": None,
        "states": (on_load(),), "site": Place(),
    }  # fmt: skip
    return Given(keys, files or {}, {**values, **nodes}, 1)


def on_load(stream_speed: float = 2.4) -> State:
    """The machine on load at its design point."""
    point = machine().point
    return State(
        "on load", stream_speed, point.rotor_speed * stream_speed / 2.4, point.shaft_power, point.torque,
        point.thrust, point.roll_moment, point.head_coefficient, True, "", point.swirl_exit, point.flow_rate,
        point.lowest_pressure, point.speed_ratio,
    )  # fmt: skip


def run(name: str, what: Given) -> Any:
    """The node's value; it sees only what it declares."""
    node = NODES[name]
    seen = Given(
        {key: what.keys[key] for key in node.keys}, what.files, {up: what.nodes[up] for up in node.nodes}, what.seed
    )
    return node.compute(seen, silent)
