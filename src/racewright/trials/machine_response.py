"""How much water a machine lets through at each load, in an open stream or between walls."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline

from racewright.errors import InputError
from racewright.flow.bare_disc import BareDisc
from racewright.flow.response import LEAST_LOADS
from racewright.flow.result import Axisymmetric

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class MachineResponse:
    """A machine's own u(CH).

    Attributes
    ----------
    speed : callable
        Head coefficient (rotor thrust over rho A U^2/2) to area-mean axial speed at the rotor over U [-].
    reach : float
        Highest head coefficient that it answers from solution or measurement [-].
    blockage : float
        Rotor area over channel area of the round wall it was solved in; 0 in an open stream [-].
    """

    speed: Callable[[float], float]
    reach: float
    blockage: float = 0.0

    def __post_init__(self) -> None:
        if not 0.0 < self.reach < 2.0 or not 0.0 <= self.blockage < 1.0:
            raise InputError(
                f"a response needs a reach between 0 and 2 and a blockage from 0 to 1; it has {self.reach} and "
                f"{self.blockage}"
            )

    def thrust_ratio(self, load: float) -> float:
        """kappa = 2 u/(1 + w): all axial force over rotor thrust at that load in an open stream [-].

        Momentum gives 2 u (1 - w) for everything and 1 - w^2 for the rotor, for any duct.
        """
        return 2.0 * self.speed(load) / (1.0 + math.sqrt(max(1.0 - load, 0.0)))


def response_of_flow(flow: Axisymmetric) -> MachineResponse:
    """From the flow solver, with or without a round wall; as `response_at` up to the last load solved."""
    wall = flow.channel_radius
    blockage = flow.annulus_area / (math.pi * wall**2) if wall else 0.0
    return _curve(flow.head_coefficient[flow.converged], flow.speed_ratio[flow.converged], blockage)


def response_of_disc(disc: BareDisc, channel_radius: float | None = None) -> MachineResponse:
    """From the solver's bare disc; `channel_radius` in disc radii, as it was solved with."""
    blockage = 0.0 if channel_radius is None else channel_radius**-2.0
    return _curve(disc.head_coefficient[disc.converged], disc.speed_ratio[disc.converged], blockage)


def _curve(load: Floats, speed: Floats, blockage: float) -> MachineResponse:
    """Cubic spline over sqrt(1 - CH), in which u is nearly straight."""
    if load.size < LEAST_LOADS:
        raise InputError(f"the flow was solved at {load.size} loads; {LEAST_LOADS} or more are wanted for its u(CT)")
    line, top = CubicSpline(np.sqrt(1.0 - load)[::-1], speed[::-1]), float(load[-1])
    return MachineResponse(lambda one: float(line(math.sqrt(1.0 - min(one, top)))), top, blockage)


def wall_radius(annulus_area: float, blockage: float) -> float:
    """Radius of the round wall of a channel of equal area [m], from rotor annulus area [m2] and blockage [-]."""
    if not (annulus_area > 0.0 and 0.0 < blockage < 1.0):
        raise InputError(f"an area above 0 and a blockage between 0 and 1 are wanted, not {annulus_area}, {blockage}")
    return math.sqrt(annulus_area / (math.pi * blockage))


def bare_response(load: float) -> float:
    """u of a bare disc in an open stream, (1 + sqrt(1 - CT))/2 [-]."""
    return 0.5 * (1.0 + math.sqrt(max(1.0 - load, 0.0)))
