"""States away from the design point: on load, runaway, held; and the stream speed where rated power begins."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from racewright.errors import NoAnswerError
from racewright.flow.result import Axisymmetric
from racewright.machine.drive import Drive
from racewright.machine.row import Row
from racewright.machine.unit import Unit
from racewright.stage.operating_point import Stage, ready_stage, solve_stage
from racewright.stage.result import OperatingPoint, State
from racewright.water import Water

Floats = NDArray[np.float64]

_FASTEST = 8.0
"""Runaway is looked for up to this many times the design tip-speed ratio."""


def machine_states(
    unit: Unit, vanes: Row, blades: Row, flow: Axisymmetric, water: Water, stream_speed: Floats
) -> tuple[State, ...]:
    """On load, runaway and held at each stream speed.

    Runaway is the rotor speed above the design's at which the rotor's torque vanishes, generator and bearings
    taken as free of friction. The duct and the rows stay as computed for steady flow; stall is the row model's.

    Parameters
    ----------
    unit, vanes, blades, flow, water
        As `operating_point`.
    stream_speed : ndarray, shape (n,)
        > 0 [m/s].

    Returns
    -------
    tuple of State
        A state that the flow cannot answer (the duct clogs) is left out.
    """
    stage = ready_stage(unit, vanes, blades, flow, water)
    found: list[State] = []
    for speed in np.asarray(stream_speed, dtype=np.float64):
        on_load = unit.design.tip_speed_ratio
        for name, ratio in (("on load", on_load), ("runaway", None), ("held", 0.0)):
            try:
                turning = runaway_ratio(stage, float(speed), on_load) if ratio is None else ratio
                point = _at(stage, float(speed), turning)
            except NoAnswerError:
                continue
            found.append(
                State(
                    name,  # type: ignore[arg-type]
                    point.stream_speed,
                    point.rotor_speed,
                    point.shaft_power,
                    point.torque,
                    point.thrust,
                    point.roll_moment,
                    point.head_coefficient,
                    True,
                    "",
                )
            )
    return tuple(found)


def runaway_ratio(stage: Stage, stream_speed: float, on_load: float) -> float:
    """Tip-speed ratio above `on_load` at which the torque vanishes [-].

    Raises
    ------
    NoAnswerError
        No torque on load, or none found up to 8 times `on_load`.
    """
    if _at(stage, stream_speed, on_load).torque <= 0.0:
        raise NoAnswerError("the rotor gives no torque at the design tip-speed ratio, so it has no runaway above it")
    low = on_load
    while low < _FASTEST * on_load:
        high = 1.15 * low
        try:
            torque = _at(stage, stream_speed, high).torque
        except NoAnswerError:
            torque = -1.0
            high = _last_answer(stage, stream_speed, low, high)
            if _at(stage, stream_speed, high).torque > 0.0:
                raise NoAnswerError("the rotor brakes before its torque vanishes") from None
        if torque <= 0.0:
            return float(brentq(lambda r: _at(stage, stream_speed, r).torque, low, high, xtol=1e-9))
        low = high
    raise NoAnswerError(f"the torque does not vanish up to {_FASTEST:g} times the design tip-speed ratio")


def rated_speed(stage: Stage, drive: Drive, fastest: float) -> float | None:
    """Stream speed at which rated power begins, the rotor at its design tip-speed ratio; None up to `fastest` [m/s]."""
    ratio = stage.unit.design.tip_speed_ratio
    efficiency = drive.gear_efficiency * drive.generator_efficiency

    def excess(speed: float) -> float:
        return _at(stage, speed, ratio).shaft_power * efficiency - drive.rated_power

    if excess(fastest) <= 0.0:
        return None
    if excess(drive.cut_in_speed) >= 0.0:
        return drive.cut_in_speed
    return float(brentq(excess, drive.cut_in_speed, fastest, xtol=1e-9))


def _at(stage: Stage, stream_speed: float, ratio: float) -> OperatingPoint:
    return solve_stage(stage, stream_speed, ratio * stream_speed / stage.tip_radius)


def _last_answer(stage: Stage, stream_speed: float, low: float, high: float) -> float:
    """Highest ratio between an answered and an unanswered one that still has an answer."""
    for _ in range(30):
        middle = 0.5 * (low + high)
        try:
            _at(stage, stream_speed, middle)
            low = middle
        except NoAnswerError:
            high = middle
    return low
