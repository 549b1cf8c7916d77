"""Curves of the stage: coefficients over tip-speed ratio, power over stream speed."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.flow.result import Axisymmetric
from racewright.machine.drive import Drive
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.bands import PowerBands, power_bands, relative_ends
from racewright.stage.forces import forces
from racewright.stage.result import PowerCurve, SpeedRatioCurve
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import ready_stage
from racewright.tick import Tick, silent
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
        Ratios without an answer (braking) are left out.

    Raises
    ------
    NoAnswerError
        Where no ratio has an answer; InputError as `operating_point`.
    """
    stage = ready_stage(unit, vanes, blades, flow, water)
    ratios = _numbers(tip_speed_ratio, "tip-speed ratio")
    solved = solve_many(
        stage, np.full(ratios.size, stream_speed), ratios * stream_speed / stage.tip_radius, tick=tick
    )
    if not np.any(solved.answered):
        raise NoAnswerError(
            "No tip-speed ratio has an operating point: the rotor gives head to the water (braking), or the flow was "
            "cut too short."
        )
    trial = solved.trial
    dynamic = 0.5 * stage.water.density * stream_speed**2 * float(np.sum(stage.annulus.area))
    return SpeedRatioCurve(
        stream_speed,
        solved.rotor_speed * stage.tip_radius / stream_speed,
        stage.water.density * trial.rows.torque * solved.rotor_speed / (dynamic * stream_speed),
        forces(stage, solved).thrust / dynamic,
        trial.head_coefficient,
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
    bands: PowerBands | None = None,
    tick: Tick = silent,
) -> PowerCurve:
    """Power over stream speed with the rotor held at the design tip-speed ratio.

    Electrical power = shaft power x gear x generator efficiency, nothing below the cut-in speed, never
    above rated power. How rated power is held (by speed, by a brake, by a valve) is a matter of control and
    is not modelled: above it shaft power is what rated power needs, while rotor speed and thrust stay those
    of the design tip-speed ratio, unlimited. Below cut-in they are those of the rotor turning under load. The band is
    that of the design point, `bands.power_bands`, in the same proportion at every speed.

    Parameters
    ----------
    unit, vanes, blades, flow, water
        As `operating_point`.
    drive : Drive
    stream_speed : ndarray, shape (n,)
        Cube-mean stream speed over the capture area, growing, from 0 [m/s].
    bands : PowerBands, optional
        `power_bands` of the same machine, where they are at hand already.
    tick : callable
        Progress and cancel, between points.

    Raises
    ------
    NoAnswerError
        Where a speed or the design point has no operating point; InputError for speeds that do not grow or are
        negative.
    """
    speeds = _numbers(stream_speed, "stream speed")
    if np.any(np.diff(speeds) <= 0.0):
        raise InputError("The stream speeds of a power curve must grow.")
    stage = ready_stage(unit, vanes, blades, flow, water)
    turn = unit.design.tip_speed_ratio * speeds / stage.tip_radius
    moving = speeds > 0.0
    shaft, thrust = np.zeros_like(speeds), np.zeros_like(speeds)
    solved = solve_many(stage, speeds[moving], turn[moving], tick=tick)
    if not np.all(solved.answered):
        slowest = float(speeds[moving][~solved.answered][0])
        raise NoAnswerError(
            f"At {slowest:.3g} m/s the rotor has no operating point at its design tip-speed ratio: it brakes, or the "
            "flow was cut too short."
        )
    shaft[moving] = stage.water.density * solved.trial.rows.torque * solved.rotor_speed
    thrust[moving] = forces(stage, solved).thrust
    if bands is None:
        bands = power_bands(unit, vanes, blades, flow, water, table=stage.table)
    low, high = relative_ends(bands)
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
        np.minimum(free * low, drive.rated_power),
        np.minimum(free * high, drive.rated_power),
    )


def _numbers(values: Floats, name: str) -> Floats:
    found = np.asarray(values, dtype=np.float64)
    if found.ndim != 1 or found.size == 0 or not np.all(np.isfinite(found)) or np.any(found < 0.0):
        raise InputError(f"A curve needs a list of {name}s, numbers that are not negative.")
    return found
