"""The drive's nodes run on an invented rotor with closed-form answers, without flow or files."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from racewright.ledger.drive_findings import DriveFindings
from racewright.ledger.node import Given
from racewright.ledger.nodes_drive import DRIVE_NODES
from racewright.scheme.drive_tables import DriveTable
from racewright.stage.rotor_map import RotorMap
from racewright.tick import silent
from tests.stage.rotors import straight_rotor

NODES = {node.name: node for node in DRIVE_NODES}
PLAIN: dict[str, Any] = {
    "gear_efficiency": 0.96,
    "generator_efficiency": 0.9,
    "cut_in_speed": "0.8 m/s",
    "rated_power": "2.5 kW",
}
MAGNETS: dict[str, Any] = {
    "line_voltage_constant": "6 V s",
    "phase_resistance": "0.3 ohm",
    "largest_current": "200 A",
    "cogging_torque": "3 N m",
}
DESIGN = {"stream_speed": 2.0, "head_coefficient": 0.6, "tip_speed_ratio": 2.0}


_known: dict[str, dict[str, Any]] = {}
"""Values on the straight rotor by what was asked; nobody changes them."""


def drive_values(rotor: RotorMap | None = None, files: dict[str, Path] | None = None, **drive: Any) -> dict[str, Any]:
    """Values of the drive's nodes but the power curve; `drive` changes keys of the drive table as written."""
    if rotor is not None or files:
        return _computed(rotor or straight_rotor(), files or {}, drive)
    asked = repr(sorted(drive.items()))
    if asked not in _known:
        _known[asked] = _computed(straight_rotor(), {}, drive)
    return dict(_known[asked])


def _computed(rotor: RotorMap, files: dict[str, Path], drive: dict[str, Any]) -> dict[str, Any]:
    keys = {"machine.drive": DriveTable.model_validate({**PLAIN, **drive}).model_dump(), "machine.design": DESIGN}
    values: dict[str, Any] = {"rotor_map": rotor, "site": None}
    for name in ("drive_chain", "control", "start_up", "letting_go", "drive_parts"):
        node = NODES[name]
        upstream = {up: values[up] for up in node.nodes}
        values[name] = node.compute(Given(keys, files, upstream, 1), silent)
    return values


def drive_findings(rotor: RotorMap | None = None, **drive: Any) -> DriveFindings:
    """What the findings hold of the drive."""
    values = drive_values(rotor, **drive)
    return DriveFindings(values["control"], values["start_up"], values["letting_go"], values["drive_parts"])
