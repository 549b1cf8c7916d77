"""From plain scheme values to the things that the physics knows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from racewright.machine.drive import Drive
from racewright.machine.duct import Duct
from racewright.machine.hub import Hub
from racewright.machine.unit import DesignIntent, RowIntent, Unit

Keys = Mapping[str, Any]

UNIT_KEYS = (
    "machine.duct",
    "machine.hub",
    "machine.vanes",
    "machine.rotor",
    "machine.design",
    "machine.roughness",
)
"""Role paths that make a `Unit`."""


def duct_of(keys: Keys) -> Duct:
    """The duct."""
    duct = keys["machine.duct"]
    return Duct(
        0.5 * duct["throat_diameter"],
        duct["exit_area_ratio"],
        duct["length"],
        duct["thickness"],
        duct["inlet_area_ratio"],
        duct["camber"],
        duct["lip"],
    )


def hub_of(keys: Keys) -> Hub:
    """The hub."""
    hub = keys["machine.hub"]
    return Hub(0.5 * hub["diameter"], hub["nose_x"], hub["nose_length"], hub["cylinder_length"], hub["tail_length"])


def unit_of(keys: Keys) -> Unit:
    """The machine as it is meant, up to its shaft."""
    design = keys["machine.design"]
    return Unit(
        duct=duct_of(keys),
        hub=hub_of(keys),
        vanes=_row(keys["machine.vanes"]),
        blades=_row(keys["machine.rotor"]),
        design=DesignIntent(design["stream_speed"], design["head_coefficient"], design["tip_speed_ratio"]),
        roughness=keys["machine.roughness"],
    )


def drive_of(keys: Keys) -> Drive:
    """Gear, generator and limits."""
    drive = keys["machine.drive"]
    return Drive(drive["gear_efficiency"], drive["generator_efficiency"], drive["cut_in_speed"], drive["rated_power"])


def _row(row: Keys) -> RowIntent:
    return RowIntent(
        row["count"],
        row["place_x"],
        row["hub_chord"],
        row["tip_chord"],
        row["thickness"],
        clearance=row.get("clearance", 0.0),
        turned=row["turned"],
    )
