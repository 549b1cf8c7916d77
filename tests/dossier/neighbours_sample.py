"""A machine's neighbours for the dossier's tests: the nodes run on the coarse machine, with a screen and a trade."""

from __future__ import annotations

import dataclasses
from functools import cache
from typing import Any

from racewright.ledger.findings import Findings, MachineFindings
from racewright.ledger.neighbours_findings import NeighboursFindings
from racewright.ledger.neighbours_parts import neighbours_remarks
from tests.dossier import sample
from tests.ledger.neighbours_given import given, on_load, run
from tests.ledger.test_neighbours_nodes import SCREEN, dose
from tests.passage.machine import FRESH, UNIT, machine

NASTY = "<b>eel</b> & \u202ereversed"


@cache
def neighbours() -> NeighboursFindings:
    """Three fish, three kinds of debris of which one was counted, a screen, a trade, sound at two points."""
    keys = given().keys
    drift = {
        "weed": {"kind": "water_weed", "dose": "autumn"},
        "leaves": {"kind": "leaf", "dose": None},
        "sticks": {"kind": "stick", "dose": None},
    }
    trade = {"tip_speed_ratios": (1.8,), "vane_counts": (2,), "blade_counts": None, "sweeps": None}
    fish = {NASTY if name == "eel" else name: table for name, table in keys["neighbours.fish"].items()}
    changes = (
        ("neighbours.debris", drift), ("neighbours.screen", SCREEN), ("neighbours.trade", trade),
        ("neighbours.fish", fish),
    )  # fmt: skip
    what = given(*changes, doses=(dose("autumn", 80, 4),), states=(on_load(), on_load(2.9)))
    names = ("fish", "fish_beside", "debris", "screen", "trade", "sound")
    values: dict[str, Any] = {name: run(name, what) for name in names}
    return NeighboursFindings(
        name="reach", description="Eels and salmon.", invented=True, hub_depth=1.2, fish=values["fish"],
        beside=values["fish_beside"], debris=values["debris"], screen=values["screen"], trade=values["trade"],
        sound=values["sound"], remarks=neighbours_remarks(values),
    )  # fmt: skip


def coarse() -> MachineFindings:
    """The sample machine with the rows and the point that the neighbours were computed with."""
    one = machine()
    return dataclasses.replace(
        sample.machine(), unit=UNIT, vanes=one.vanes, blades=one.blades, design_point=one.point, water=FRESH
    )


def findings(**change: object) -> Findings:
    """The full sample with neighbours; fields of these replaced."""
    found = dataclasses.replace(neighbours(), **change)  # type: ignore[arg-type]
    return sample.full(machine=coarse(), neighbours=found)
