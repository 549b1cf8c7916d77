"""From a channel to the open stream in which the machine would feel the same forces and pass the same water."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from racewright.errors import NoAnswerError
from racewright.flow.far_wake import channel_thrust, far_wake
from racewright.trials.machine_response import MachineResponse

STEPS = 200
SETTLED = 1e-13
GRID = 240


@dataclass(frozen=True)
class Equivalent:
    """q = U_T/U_F, the load CT in the channel, kappa at the equivalent load [-]."""

    q: float
    load: float
    thrust_ratio: float


def settle(step: Callable[[float, float], float], load: float, response: MachineResponse | None) -> Equivalent:
    """q = step(CT, kappa) with kappa taken at the load CT q^2 in the open stream; kappa is 1 without a duct.

    Repeated from q = 1 (or a load of 0.9) until it stands: kappa moves slowly with load and enters only through
    the blockage.

    Raises
    ------
    NoAnswerError
        The open stream would see a load of 1 or more, where momentum theory ends.
    """
    q = min(1.0, (0.9 / load) ** 0.5) if load > 0.0 else 1.0
    for _ in range(STEPS):
        kappa = 1.0 if response is None else response.thrust_ratio(min(load * q * q, 1.0))
        new = step(load, kappa)
        if abs(new - q) <= SETTLED:
            break
        q = new
    else:
        raise NoAnswerError(f"the thrust ratio did not settle at a load of {load:.4g}")
    if load * q * q >= 1.0:
        raise NoAnswerError(
            f"the equivalent open stream would see a load of {load * q * q:.4g}; momentum theory ends at 1"
        )
    return Equivalent(new, load, kappa)


def settle_total(step: Callable[[float, float], float], total: float, response: MachineResponse) -> Equivalent:
    """The same where the whole body's thrust is known: CT is the least load whose kappa CT is that thrust.

    The whole thrust rises with load, passes a maximum, and falls; the rising side is taken.
    """

    def miss(load: float) -> float:
        one = settle(step, load, response)
        return one.load * one.thrust_ratio - total

    return settle(step, _least_load(miss, response.reach, total), response)


def same_speed(load: float, free: MachineResponse, walled: MachineResponse) -> float:
    """q = U_T/U_F with the same rotor thrust and rotor speed: u_free(CT q^2) = q u_walled(CT).

    Nothing is assumed of the duct's force: both curves are the machine's own.
    """
    through = walled.speed(load)
    top = min(1.5, (free.reach / load) ** 0.5) if load > 0.0 else 1.5

    def miss(q: float) -> float:
        return free.speed(load * q * q) - q * through

    if miss(top) > 0.0:
        raise NoAnswerError(f"the open stream's load would be above {free.reach:.4g}, where its flow was not solved")
    return float(brentq(miss, 1e-6, top, xtol=1e-14))


def load_behind_wall(total: float, walled: MachineResponse) -> float:
    """Least rotor load whose whole thrust, by momentum over the channel, is `total` [-]."""

    def miss(load: float) -> float:
        return _channel_total(load, walled) - total

    return _least_load(miss, walled.reach, total)


def _channel_total(load: float, walled: MachineResponse) -> float:
    through = walled.speed(load)
    far = far_wake(load, 0.5 * through, walled.blockage**-0.5)
    return channel_thrust(far, np.pi * through, np.pi / walled.blockage) / np.pi


def _least_load(miss: Callable[[float], float], top: float, total: float) -> float:
    low = 0.0
    for high in np.linspace(0.0, top, GRID)[1:]:
        if miss(float(high)) >= 0.0:
            return float(brentq(miss, low, float(high), xtol=1e-13)) if total > 0.0 else 0.0
        low = float(high)
    raise NoAnswerError(f"no rotor load up to {top:.3g} gives a whole thrust of {total:.4g} on this machine")
