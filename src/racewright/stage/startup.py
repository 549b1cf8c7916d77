"""Whether the standing rotor starts by itself, and whether it gets up to its load."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.stage.balance import torque_at
from racewright.stage.root import bracketed_root
from racewright.stage.stage_ready import Stage

Floats = NDArray[np.float64]
_RATIOS = 13
_SLOWEST = 1e-2


@dataclass(frozen=True)
class StartUp:
    """Start of the standing rotor without the help of the generator.

    Attributes
    ----------
    breakaway_torque : float
        Torque that must be overcome at rest: cogging of the generator and friction [N m].
    start_speed : float
        Least stream speed at which the standing rotor's torque reaches it; 0 where none up to `fastest` does [m/s].
    starts : bool
        Whether it does, up to `fastest`.
    fastest : float
        Highest stream speed that was looked at [m/s].
    gets_to_load : bool
        Whether, at the start speed, torque stays above the break-away torque from rest to the design tip-speed ratio.
    load_speed : float
        Least stream speed at which it does; 0 where none up to `fastest` does [m/s].
    least_torque : float
        Least torque on that way at the start speed [N m].
    least_at : float
        Tip-speed ratio of the least torque [-].
    """

    breakaway_torque: float
    start_speed: float
    starts: bool
    fastest: float
    gets_to_load: bool
    load_speed: float
    least_torque: float
    least_at: float


def start_up(stage: Stage, breakaway_torque: float, fastest: float) -> StartUp:
    """Start of a machine made ready.

    Parameters
    ----------
    stage : Stage
    breakaway_torque : float
        Cogging and friction at rest, and taken to act at every speed here, 0 or more [N m].
    fastest : float
        Highest stream speed to look at, > 0 [m/s].

    Raises
    ------
    InputError
        For values outside these ranges.
    """
    if not (math.isfinite(breakaway_torque) and breakaway_torque >= 0.0):
        raise InputError(f"The break-away torque is 0 N m or more; found {breakaway_torque}.", key="breakaway_torque")
    if not (math.isfinite(fastest) and fastest > 0.0):
        raise InputError(f"The fastest stream is above 0 m/s; found {fastest}.", key="fastest")

    def short(speed: Floats) -> Floats:
        torque, _ = torque_at(stage, speed, np.zeros_like(speed))
        return torque - breakaway_torque

    ratios = np.linspace(0.0, stage.unit.design.tip_speed_ratio, _RATIOS)

    def short_on_the_way(speed: Floats) -> Floats:
        torque, _ = torque_at(stage, np.full(_RATIOS, speed[0]), ratios)
        return np.array([np.min(torque)]) - breakaway_torque

    start = _least(short, fastest, breakaway_torque)
    load = _least(short_on_the_way, fastest, breakaway_torque)
    at_speed = fastest if start is None else start
    torque, _ = torque_at(stage, np.full(_RATIOS, at_speed), ratios)
    at = int(np.argmin(torque))
    return StartUp(
        breakaway_torque,
        0.0 if start is None else start,
        start is not None,
        fastest,
        start is not None and bool(torque[at] >= breakaway_torque * (1.0 - 1e-6)),
        0.0 if load is None else load,
        float(torque[at]),
        float(ratios[at]),
    )


def _least(short: Callable[[Floats], Floats], fastest: float, torque: float) -> float | None:
    """Least speed where `short` comes up to 0; None where it does not up to `fastest`."""
    low, high = np.array([_SLOWEST * fastest]), np.array([fastest])
    at_low, at_high = short(low), short(high)
    if at_high[0] < 0.0:
        return None
    if at_low[0] >= 0.0:
        return float(low[0])
    return float(bracketed_root(short, low, high, tolerance=1e-6 * max(torque, 1e-6), ends=(at_low, at_high))[0])
