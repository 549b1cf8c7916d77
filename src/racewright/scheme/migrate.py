"""Old schemes to today's format: one function for each step, applied to the tables as read."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

Tables = dict[str, Any]


def _availability_to_machine(tables: Tables) -> None:
    """Format 1 kept `availability` in [machine.NAME.cost]; since format 2 it stands in [machine.NAME]."""
    machines = tables.get("machine")
    for machine in machines.values() if isinstance(machines, dict) else ():
        cost = machine.get("cost") if isinstance(machine, dict) else None
        if isinstance(cost, dict) and "availability" in cost and "availability" not in machine:
            machine["availability"] = cost.pop("availability")


STEPS: tuple[Callable[[Tables], None], ...] = (_availability_to_machine,)
"""STEPS[n - 1] turns format n into format n + 1."""

FORMAT = len(STEPS) + 1
"""Format version that this program writes."""


def migrate(tables: Tables, found: int) -> Tables:
    """A copy of the tables of format `found` (1 to FORMAT) in today's format."""
    moved = copy.deepcopy(tables)
    for step in STEPS[found - 1 :]:
        step(moved)
    moved["format"] = FORMAT
    return moved
