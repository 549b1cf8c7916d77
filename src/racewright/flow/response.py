"""The flow at any head coefficient: between the loads that were solved, and by a closure above them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicSpline, PchipInterpolator

from racewright.errors import InputError, NoAnswerError
from racewright.flow.closure import Closure
from racewright.flow.result import Axisymmetric

Floats = NDArray[np.float64]

LEAST_LOADS = 5
"""Loads from which a cubic spline is used; fewer are joined by monotone cubics (two by a line)."""

LEAST_START = 0.5
"""Lowest last load from which the closure is taken on; below it there is no wake to go on from. Own choice."""
FULL_LADDER = 0.9
"""A ladder that converged throughout and ends lower was cut by its caller: solve further before closing."""

State = Literal["solved", "closure"]


@dataclass(frozen=True)
class FlowAt:
    """Flow through the duct at one load; all but the first over the stream speed or its own mean [-].

    Attributes
    ----------
    head_coefficient : float
        CH.
    far_wake_speed : float
        w; with the state 'closure' that of an ideal wake, sqrt(1 - CH), and 0 from CH 1 on.
    speed_ratio : float
        u, mean axial speed over the rotor annulus.
    exit_speed_ratio : float
        Mean axial speed over the exit.
    profile : ndarray, shape (k,)
        Axial speed at `Axisymmetric.station_radius` over its area mean; in the closure that of the last solved
        load.
    total_thrust : float
        Axial force on disc, duct and hub, over half rho U^2 times annulus area; from surface pressures where
        solved, by `Closure.thrust_at` above.
    state : {'solved', 'closure'}
        Where it comes from.
    """

    head_coefficient: float
    far_wake_speed: float
    speed_ratio: float
    exit_speed_ratio: float
    profile: Floats
    total_thrust: float
    state: State


def reach(flow: Axisymmetric) -> float:
    """Highest head coefficient that converged [-]."""
    return float(flow.head_coefficient[flow.converged][-1])


def limit(flow: Axisymmetric) -> float:
    """Highest head coefficient that `response_at` answers: where the closure stops the flow, else `reach` [-]."""
    beyond = closure(flow)
    return reach(flow) if beyond is None else beyond.limit


def closure(flow: Axisymmetric) -> Closure | None:
    """The closure above `reach(flow)`; None where it has nothing to go on from.

    That is with a last solved load below 0.5, with one load only, with a ladder that its caller cut below 0.9,
    or with a speed that does not fall with load there.
    """
    start = reach(flow)
    if start < LEAST_START or np.count_nonzero(flow.converged) < 2 or (flow.converged.all() and start < FULL_LADDER):
        return None
    value, slope = _table(flow, start)
    if value[1] <= 0.0 or slope[1] >= 0.0:
        return None
    frontal = math.pi * float(np.max(flow.duct_r)) ** 2 / flow.annulus_area
    return Closure(start, float(value[1]), float(slope[1]), float(value[3]), float(slope[3]), frontal)


def response_at(flow: Axisymmetric, head_coefficient: float) -> FlowAt:
    """Interpolate the converged loads by a cubic spline over sqrt(1 - CH), in which u is nearly straight.

    Above the highest load that converged the closure answers, and says so in `state`.

    Parameters
    ----------
    flow : Axisymmetric
    head_coefficient : float
        CH, 0 to `limit(flow)` [-].

    Raises
    ------
    InputError
        CH is not finite or below 0.
    NoAnswerError
        CH is above the limit.
    """
    if not math.isfinite(head_coefficient) or head_coefficient < 0.0:
        raise InputError(f"{head_coefficient} must be a finite number, 0 or more; try 0.6", key="head_coefficient")
    highest = reach(flow)
    if head_coefficient <= highest:
        value, _ = _table(flow, head_coefficient)
        w, u, at_exit, thrust = (float(one) for one in value[:4])
        return FlowAt(head_coefficient, w, u, at_exit, value[4:], thrust, "solved")
    beyond = closure(flow)
    if beyond is None or head_coefficient > beyond.limit:
        most = "" if beyond is None else f" and closed to {beyond.limit:.4g}, where the flow stops"
        raise NoAnswerError(
            f"The flow was solved up to a head coefficient of {highest:.4g}{most}, not to {head_coefficient:.4g}."
        )
    value, _ = _table(flow, highest)
    u = beyond.speed_at(head_coefficient)
    w = math.sqrt(max(1.0 - head_coefficient, 0.0))
    at_exit = float(value[2]) * u / float(value[1])
    return FlowAt(head_coefficient, w, u, at_exit, value[4:], beyond.thrust_at(head_coefficient), "closure")


def _table(flow: Axisymmetric, head_coefficient: float) -> tuple[Floats, Floats]:
    """(w, u, exit speed, total thrust, profile) and their slopes by CH, from the converged loads."""
    known = flow.converged
    thrust = flow.head_coefficient + flow.duct_force + flow.hub_force
    columns = [flow.far_wake_speed, flow.speed_ratio, flow.exit_speed_ratio, thrust, flow.profile]
    table = np.column_stack(columns)[known][::-1]
    places = np.sqrt(1.0 - flow.head_coefficient[known])[::-1]
    place = math.sqrt(1.0 - head_coefficient)
    if places.size == 1:
        return table[0], np.zeros(table.shape[1])
    kind = PchipInterpolator if places.size < LEAST_LOADS else CubicSpline
    line = kind(places, table)
    return line(place), line(place, 1) * (-0.5 / place)
