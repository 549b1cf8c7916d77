"""What the maker has not said: the ratio to hold, and limits of torque and rotor speed."""

from __future__ import annotations

import math

from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_checks import Floats, number
from racewright.stage.control import rated_stream_speed
from racewright.stage.control_hold import Limits
from racewright.stage.control_law import Law, law_speed
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
