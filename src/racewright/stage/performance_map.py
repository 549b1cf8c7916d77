"""The machine over stream speeds and tip-speed ratios, all points solved together."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.flow.result import Axisymmetric
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.cavitation import lowest_pressure
from racewright.stage.forces import forces
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import Stage, ready_stage
from racewright.tick import Tick, silent
from racewright.water import Water

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class PerformanceMap:
    """Points of a machine, shape (p, q) each unless said; 0 where a point has no answer.

    Attributes
    ----------
    stream_speed : ndarray, shape (p,)
        [m/s]
    tip_speed_ratio : ndarray, shape (q,)
        [-]
    answered : ndarray of bool
        False where the rows give head to the water (braking).
    closure : ndarray of bool
        True where a stated closure of the flow answers, above the loads that were solved.
    rotor_speed : ndarray
        [rad/s]
    head_coefficient, speed_ratio : ndarray
        CH that the rows take, u [-].
    flow_rate : ndarray
        Q [m3/s].
    torque, shaft_power, thrust, roll_moment : ndarray
        [N m], [W], [N], [N m]
    swirl_exit : ndarray
        K behind the rotor [m2/s].
    lowest_pressure : ndarray
        Of the through-flow, relative to the undisturbed water at the same depth [Pa].
    hydraulic_efficiency : ndarray
        Shaft power/(rho dh Q), 0 where the rows take no head [-].
    """

    stream_speed: Floats
    tip_speed_ratio: Floats
    answered: NDArray[np.bool_]
    closure: NDArray[np.bool_]
    rotor_speed: Floats
    head_coefficient: Floats
    speed_ratio: Floats
    flow_rate: Floats
    torque: Floats
    shaft_power: Floats
    thrust: Floats
    roll_moment: Floats
    swirl_exit: Floats
    lowest_pressure: Floats
    hydraulic_efficiency: Floats


def performance_map(
    unit: Unit,
    vanes: Row,
    blades: Row,
    flow: Axisymmetric,
    water: Water,
    stream_speeds: Floats,
    tip_speed_ratios: Floats,
    *,
    tick: Tick = silent,
) -> PerformanceMap:
    """Performance at every pair of a stream speed and a tip-speed ratio.

    Each point is the same to the byte whichever others are asked with it.

    Parameters
    ----------
    unit, vanes, blades, flow, water
        As `operating_point`.
    stream_speeds : ndarray, shape (p,)
        > 0 [m/s].
    tip_speed_ratios : ndarray, shape (q,)
        0 or more [-].
    tick : callable
        Progress and cancel, called once per trial of the loads.

    Raises
    ------
    InputError
        For speeds or ratios outside their ranges, or rows that do not fit the flow.
    """
    return map_of(ready_stage(unit, vanes, blades, flow, water), stream_speeds, tip_speed_ratios, tick=tick)


def map_of(stage: Stage, stream_speeds: Floats, tip_speed_ratios: Floats, *, tick: Tick = silent) -> PerformanceMap:
    """`performance_map` of a stage made ready."""
    speeds = np.asarray(stream_speeds, dtype=np.float64)
    ratios = np.asarray(tip_speed_ratios, dtype=np.float64)
    if speeds.ndim != 1 or ratios.ndim != 1 or speeds.size == 0 or ratios.size == 0:
        raise InputError("A map needs a list of stream speeds and a list of tip-speed ratios.")
    shape = speeds.size, ratios.size
    stream = np.repeat(speeds, ratios.size)
    rotor = np.tile(ratios, speeds.size) * stream / stage.tip_radius
    solved = solve_many(stage, stream, rotor, tick=tick)
    trial, density = solved.trial, stage.water.density
    rows = trial.rows
    found = forces(stage, solved)
    torque = density * rows.torque
    power = torque * solved.rotor_speed
    available = density * rows.head_drop * rows.flow_rate
    takes = available > 0.0

    def grid(values: Floats) -> Floats:
        return solved.spread(values).reshape(shape)

    return PerformanceMap(
        speeds,
        ratios,
        solved.answered.reshape(shape),
        grid(trial.flow.closed.astype(np.float64)) > 0.0,
        grid(solved.rotor_speed),
        grid(trial.head_coefficient),
        grid(trial.flow.speed_ratio),
        grid(rows.flow_rate),
        grid(torque),
        grid(power),
        grid(found.thrust),
        grid(density * rows.flow_rate * rows.swirl_exit),
        grid(rows.swirl_exit),
        grid(lowest_pressure(stage, solved, found)),
        grid(np.where(takes, power / np.where(takes, available, 1.0), 0.0)),
    )
