"""From a channel to the open stream in which the machine would feel the same forces and pass the same water."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from racewright.errors import NoAnswerError
from racewright.flow.far_wake import channel_thrust, far_wake
from racewright.trials.machine_response import MachineResponse

STEPS = 300
SETTLED = 1e-12
GRID = 240


@dataclass(frozen=True)
class Equivalent:
    """q = U_T/U_F, the load CT in the channel, kappa at the equivalent load [-]."""

    q: float
    load: float
    thrust_ratio: float


def settle(
    step: Callable[[float, float], float], thrust: float, response: MachineResponse | None, *, total: bool = False
) -> Equivalent:
    """q = step(CT, kappa) with kappa taken at the load CT q^2 in the open stream; kappa is 1 without a duct.

    Repeated from an unblocked guess until it stands: kappa moves slowly with load and enters only through the
    blockage. With `total` the thrust is the whole body's and CT = thrust / kappa goes along: from light load that
    climbs to the least CT whose whole thrust it is, and to no other (the whole thrust rises with load, passes a
    maximum and falls).

    Raises
    ------
    NoAnswerError
        The open stream would see a load of 1 or more, where momentum theory ends; or no load has that whole thrust.
    """
    by_body = total and response is not None
    load = thrust / response.thrust_ratio(0.0) if by_body and response else thrust
    q = min(1.0, (0.9 / load) ** 0.5) if load > 0.0 else 1.0
    for _ in range(STEPS):
        kappa = 1.0 if response is None else response.thrust_ratio(min(load * q * q, 1.0))
        before = q, load
        load = thrust / kappa if by_body else thrust
        if by_body and response and load * q * q > response.reach:
            raise NoAnswerError(_none(response.reach, thrust))
        q = step(load, kappa)
        if abs(q - before[0]) <= SETTLED and abs(load - before[1]) <= SETTLED:
            break
    else:
        raise NoAnswerError(
            f"a thrust of {thrust:.4g} did not settle"
            + (", it is at the most that the body can have" if by_body else "")
        )
    if load * q * q >= 1.0:
        raise NoAnswerError(
            f"the equivalent open stream would see a load of {load * q * q:.4g}; momentum theory ends at 1"
        )
    return Equivalent(q, load, kappa)


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
    raise NoAnswerError(_none(top, total))


def _none(top: float, total: float) -> str:
    return f"no rotor load up to {top:.3g} gives a whole thrust of {total:.4g} on this machine"
