"""The dataclasses that the drive's node values are made of."""

from __future__ import annotations

from racewright.ledger.drive_findings import DriveControl, DriveParts, FreeRunning, LettingGo
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_gear import Gear
from racewright.machine.drive_generator import ConstantGenerator
from racewright.machine.drive_magnets import PermanentMagnet
from racewright.machine.drive_mass import DriveMass
from racewright.machine.drive_table import GeneratorTable
from racewright.stage.control import ControlCurve
from racewright.stage.control_summary import ControlSummary, WayToHold
from racewright.stage.drive_start import StartUp
from racewright.stage.drive_transient import BrakeStop, LossOfLoad
from racewright.stage.rotor_map import RotorMap

DRIVE_CLASSES: tuple[type, ...] = (
    BrakeStop, ConstantGenerator, ControlCurve, ControlSummary, DriveChain, DriveControl, DriveMass, DriveParts,
    FreeRunning, Gear, GeneratorTable, LettingGo, LossOfLoad, PermanentMagnet, RotorMap, StartUp, WayToHold,
)  # fmt: skip
