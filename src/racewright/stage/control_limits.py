"""What the maker has not said: the ratio to hold, and limits of torque and rotor speed."""

from __future__ import annotations

import math

import numpy as np

from racewright.errors import NoAnswerError
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_checks import Floats, number
from racewright.stage.control import rated_stream_speed
from racewright.stage.control_hold import Limits
from racewright.stage.control_law import Law, law_speed
from racewright.stage.drive_equilibrium import ladder
from racewright.stage.rotor_map import RotorMap

TORQUE_MARGIN = 1.25
"""Largest torque over the torque where rated power begins; common practice, no source [-]."""


def limits_from_rated(
    rotor: RotorMap,
    chain: DriveChain,
    law: Law,
    rated_power: float,
    stream_speed: Floats,
    *,
    torque_margin: float = TORQUE_MARGIN,
    speed_margin: float | None = None,
) -> Limits:
    """Margins on torque and rotor speed at the stream speed where rated power begins.

    Parameters
    ----------
    rotor, chain, law
        As `control_curve`.
    rated_power : float
        > 0 [W].
    stream_speed : ndarray
        Growing; where rated power is looked for [m/s].
    torque_margin : float
        1 to 20 [-].
    speed_margin : float, optional
        1 to 20; without it the rotor's speed is not limited, for rotor, bearings and generator must bear runaway in
        the fastest water anyway [-].

    Returns
    -------
    Limits
        Without limits of torque and speed where rated power is not reached.
    """
    number("The torque margin", torque_margin, 1.0, 20.0)
    if speed_margin is not None:
        number("The speed margin", speed_margin, 1.0, 20.0)
    rated = rated_stream_speed(rotor, chain, law, rated_power, stream_speed)
    if rated is None:
        return Limits(rated_power)
    turning = law_speed(rotor, chain, law, rated).rotor_speed
    if turning is None:
        return Limits(rated_power)
    torque = float(rotor.torque_at(rated, turning))
    return Limits(rated_power, torque * torque_margin, math.inf if speed_margin is None else turning * speed_margin)


def best_ratio(rotor: RotorMap, chain: DriveChain, stream_speed: float) -> float:
    """Tip-speed ratio of greatest electrical power at one stream speed [m/s]; by a parabola through the ladder's top.

    Raises
    ------
    NoAnswerError
        Where no ratio of the map makes power.
    """
    steps = ladder(rotor, stream_speed)
    torque = rotor.torque_at(stream_speed, steps)
    known = np.isfinite(torque)
    power = np.where(known, chain.output(np.where(known, torque, 0.0), steps).electrical_power, 0.0)
    top = int(np.argmax(power))
    if power[top] <= 0.0:
        raise NoAnswerError(f"At {stream_speed:.3g} m/s the drive makes no power at any ratio of the rotor map.")
    ratio = rotor.ratio(stream_speed, steps)
    if not 0 < top < power.size - 1:
        return float(ratio[top])
    (x0, x1, x2), (p0, p1, p2) = ratio[top - 1 : top + 2], power[top - 1 : top + 2]
    rise, fall = (p1 - p0) / (x1 - x0), (p2 - p1) / (x2 - x1)
    bend = (fall - rise) / (x2 - x0)
    return float(0.5 * (x0 + x1) - 0.5 * rise / bend) if bend < 0.0 else float(x1)
