"""Curves of the stage: coefficients over tip-speed ratio, power over stream speed."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.flow.result import Axisymmetric
from racewright.machine.drive import Drive
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.operating_point import Stage, ready_stage, solve_stage
from racewright.stage.result import OperatingPoint, PowerCurve, SpeedRatioCurve
from racewright.tick import Tick, silent
from racewright.uncertainty import PRIOR_DUCTED_POWER
from racewright.water import Water

Floats = NDArray[np.float64]


def speed_ratio_curve(
    unit: Unit,
    vanes: Row,
    blades: Row,
    flow: Axisymmetric,
    water: Water,
    stream_speed: float,
    tip_speed_ratio: Floats,
    *,
    tick: Tick = silent,
) -> SpeedRatioCurve:
    """CP, CT and CH over tip-speed ratio at one stream speed.

    Parameters
    ----------
    unit, vanes, blades, flow, water
        As `operating_point`.
    stream_speed : float
        > 0 [m/s].
    tip_speed_ratio : ndarray, shape (n,)
        0 or more [-].
    tick : callable
        Progress and cancel, between points.

    Returns
    -------
    SpeedRatioCurve
        Ratios without an answer (braking, or above the flow's reach) are left out.

    Raises
    ------
    NoAnswerError
        Where no ratio has an answer; InputError as `operating_point`.
    """
    stage = ready_stage(unit, vanes, blades, flow, water)
    ratios = _numbers(tip_speed_ratio, "tip-speed ratio")
    points: list[OperatingPoint] = []
    reason = ""
    for i, ratio in enumerate(ratios):
        tick(i / ratios.size)
        try:
            point = solve_stage(stage, stream_speed, ratio * stream_speed / stage.tip_radius)
        except NoAnswerError as error:
            reason = str(error)
            continue
        if point.converged:
            points.append(point)
    tick(1.0)
    if not points:
        raise NoAnswerError(f"No tip-speed ratio has an operating point. {reason}")
    return SpeedRatioCurve(
        stream_speed,
        np.array([p.tip_speed_ratio for p in points]),
        np.array([p.power_coefficient for p in points]),
        np.array([p.thrust_coefficient for p in points]),
        np.array([p.head_coefficient for p in points]),
    )


def power_curve(
    unit: Unit,
    drive: Drive,
    vanes: Row,
    blades: Row,
    flow: Axisymmetric,
    water: Water,
    stream_speed: Floats,
    *,
    tick: Tick = silent,
) -> PowerCurve:
    """Power over stream speed with the rotor held at the design tip-speed ratio.

    Electrical power = shaft power x gear x generator efficiency, nothing below the cut-in speed, never
    above rated power. How rated power is held (by speed, by a brake, by a valve) is a matter of control and
    is not modelled: above it shaft power is what rated power needs, while rotor speed and thrust stay those
    of the design tip-speed ratio, unlimited. Below cut-in they are those of the rotor turning under load.

    Parameters
    ----------
    unit, vanes, blades, flow, water
        As `operating_point`.
    drive : Drive
    stream_speed : ndarray, shape (n,)
        Cube-mean stream speed over the capture area, growing, from 0 [m/s].
    tick : callable
        Progress and cancel, between points.

    Raises
    ------
    NoAnswerError
        Where a speed has no operating point; InputError for speeds that do not grow or are negative.
    """
    speeds = _numbers(stream_speed, "stream speed")
    if np.any(np.diff(speeds) <= 0.0):
        raise InputError("The stream speeds of a power curve must grow.")
    stage = ready_stage(unit, vanes, blades, flow, water)
    turn = unit.design.tip_speed_ratio * speeds / stage.tip_radius
    shaft, thrust = np.zeros_like(speeds), np.zeros_like(speeds)
    for i, (speed, rotor) in enumerate(zip(speeds, turn, strict=True)):
        tick(i / speeds.size)
        if speed > 0.0:
            shaft[i], thrust[i] = _point(stage, float(speed), float(rotor))
    tick(1.0)
    efficiency = drive.gear_efficiency * drive.generator_efficiency
    free = np.where(speeds < drive.cut_in_speed, 0.0, np.maximum(shaft, 0.0) * efficiency)
    limited = free > drive.rated_power
    electrical = np.minimum(free, drive.rated_power)
    return PowerCurve(
        speeds,
        turn,
        np.where(limited, drive.rated_power / efficiency, np.where(speeds < drive.cut_in_speed, 0.0, shaft)),
        electrical,
        thrust,
        limited,
        np.minimum(free * (1.0 - PRIOR_DUCTED_POWER), drive.rated_power),
        np.minimum(free * (1.0 + PRIOR_DUCTED_POWER), drive.rated_power),
    )


def _point(stage: Stage, stream_speed: float, rotor_speed: float) -> tuple[float, float]:
    point = solve_stage(stage, stream_speed, rotor_speed)
    return point.shaft_power, point.thrust


def _numbers(values: Floats, name: str) -> Floats:
    found = np.asarray(values, dtype=np.float64)
    if found.ndim != 1 or found.size == 0 or not np.all(np.isfinite(found)) or np.any(found < 0.0):
        raise InputError(f"A curve needs a list of {name}s, numbers that are not negative.")
    return found
