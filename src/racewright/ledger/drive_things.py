"""From the scheme's drive table to the chain, law, limits and brake that the physics knows."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from racewright.errors import InputError, NoAnswerError
from racewright.machine.drive_battery import Battery
from racewright.machine.drive_brake import Brake, DumpLoad
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_gear import Gear
from racewright.machine.drive_generator import ConstantGenerator, Generator
from racewright.machine.drive_magnets import PermanentMagnet, magnets_behind_bridge
from racewright.machine.drive_rows import generator_of_rows
from racewright.machine.drive_table import GeneratorTable
from racewright.record_rules import check_grid
from racewright.records.table_csv import read_columns
from racewright.stage.control_law import BatteryLaw, FixedSpeed, Law, torque_law
from racewright.stage.rotor_map import RotorMap

Table = Mapping[str, Any]


def chain_of(drive: Table, path: Path | None) -> DriveChain:
    """Gear, generator and converter; a generator as circuit or table has its converter apart."""
    gear = Gear(
        drive["gear"]["ratio"],
        1.0 - drive["gear_efficiency"],
        drive["gear"]["drag_torque"],
        drive["gear"]["standstill_torque"],
    )
    generator, converter = _generator(drive, path)
    return DriveChain(gear, generator, converter, drive["rotor_inertia"] or 0.0, drive["generator_inertia"])


def _generator(drive: Table, path: Path | None) -> tuple[Generator, float]:
    efficiency = drive["generator_efficiency"]
    magnets = drive["magnets"]
    if magnets is not None:
        found = magnets_behind_bridge(
            magnets["line_voltage_constant"],
            magnets["phase_resistance"],
            magnets["largest_current"],
            phase_inductance=magnets["phase_inductance"],
            pole_pairs=magnets["pole_pairs"],
            hysteresis_torque=magnets["hysteresis_torque"],
            eddy_torque=magnets["eddy_torque"],
            cogging_torque=magnets["cogging_torque"],
        )
        return found, drive["converter_efficiency"]
    if drive["table"] is not None and path is not None:
        return generator_table(drive["table"], path), drive["converter_efficiency"]
    return ConstantGenerator(efficiency), 1.0


def generator_table(table: Table, path: Path) -> GeneratorTable:
    """The generator's test sheet.

    Raises
    ------
    InputError
        With the file: a column or a point is missing, or the sheet does not hang together.
    """
    names = {"speed": table["speed_unit"], "current": "A", "voltage": "V", "loss": "W"}
    if table["torque_column"] is not None:
        names["torque"] = "N m"
    found = read_columns(path, {table[f"{key}_column"]: unit for key, unit in names.items()}, str(path))
    columns = {key: found[table[f"{key}_column"]] for key in names}
    try:
        check_grid(columns["speed"].tolist(), columns["current"].tolist())
        return generator_of_rows(**columns, cogging_torque=table["cogging_torque"])
    except InputError as fault:
        raise InputError(fault.message, file=str(path)) from None


def law_of(drive: Table, design: Table, rotor: RotorMap, chain: DriveChain) -> Law:
    """What sets the rotor's speed below rated power.

    Raises
    ------
    NoAnswerError
        The rotor gives no torque at its design point, so no torque law holds it there.
    """
    if drive["law"] == "fixed speed":
        return FixedSpeed(drive["fixed_speed"])
    battery = drive["battery"]
    if drive["law"] == "battery" and isinstance(chain.generator, PermanentMagnet | GeneratorTable):
        return BatteryLaw(
            Battery(battery["voltage"], battery["diode_drop"], battery["line_resistance"]), chain.generator
        )
    ratio, speed = design["tip_speed_ratio"], design["stream_speed"]
    if not float(rotor.torque_at(speed, ratio * speed / rotor.tip_radius)) > 0.0:
        raise NoAnswerError("the rotor gives no torque at its design point, so no torque law can hold it there")
    return torque_law(rotor, ratio, speed)


def brake_of(drive: Table) -> Brake | None:
    """The brake, if there is one."""
    brake = drive["brake"]
    return None if brake is None else Brake(brake["torque"], brake["heat"])


def dump_of(drive: Table) -> DumpLoad | None:
    """The dump load, if there is one."""
    dump = drive["dump"]
    return None if dump is None else DumpLoad(dump["power"], dump["duration"])
