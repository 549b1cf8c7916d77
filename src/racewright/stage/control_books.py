"""Where the shaft's power goes on its way to the terminals, over stream speed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.machine.drive_battery import battery_line
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_checks import Floats
from racewright.stage.control import ControlCurve
from racewright.stage.control_law import BatteryLaw, Law


@dataclass(frozen=True)
class DriveBooks:
    """Power along the drive, shape (n,) each; 0 where there is no point or the generator does not answer.

    Attributes
    ----------
    stream_speed : ndarray
        [m/s]
    shaft_power : ndarray
        Into the gear [W].
    gear_loss, generator_loss, line_loss : ndarray
        In gear and bearings, in the generator, in the converter or in diodes and cable [W].
    electrical_power, dumped_power : ndarray
        Passed on, and dumped above rated [W].
    missing : ndarray
        Shaft power less all the others, each found by its own route [W].
    answered : ndarray of bool
        False where the columns are 0 because nothing is known.
    """

    stream_speed: Floats
    shaft_power: Floats
    gear_loss: Floats
    generator_loss: Floats
    line_loss: Floats
    electrical_power: Floats
    dumped_power: Floats
    missing: Floats
    answered: NDArray[np.bool_]


def drive_books(curve: ControlCurve, chain: DriveChain, law: Law) -> DriveBooks:
    """Books of a control curve.

    Parameters
    ----------
    curve : ControlCurve
    chain, law
        Those that the curve was made with.
    """
    known = np.array([s in ("on law", "held", "not held") for s in curve.status]) & (curve.torque >= 0.0)
    output = chain.output(np.where(known, curve.torque, 0.0), np.where(known, curve.rotor_speed, 0.0))
    generator, line, answered = output.generator_loss, output.converter_loss, output.answered
    if isinstance(law, BatteryLaw):
        points = battery_line(law.generator, law.battery, chain.gear.ratio * curve.rotor_speed)
        generator, line, answered = points.generator_loss, points.line_loss, points.answered
    known = known & answered
    shaft, gear, generator, line, made, dumped = (
        np.where(known, column, 0.0)
        for column in (
            curve.shaft_power,
            output.gear_loss,
            generator,
            line,
            curve.electrical_power,
            curve.dumped_power,
        )
    )
    missing = shaft - gear - generator - line - made - dumped
    return DriveBooks(curve.stream_speed, shaft, gear, generator, line, made, dumped, missing, known)
