"""The flow at any head coefficient: between the loads that were solved, and by a closure above them."""

from __future__ import annotations

import math
from collections.abc import Callable
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


@dataclass(frozen=True)
class FlowsAt:
    """As `FlowAt` at many loads at once, shape (p,), profile (p, k).

    Attributes
    ----------
    head_coefficient, far_wake_speed, speed_ratio, exit_speed_ratio, profile, total_thrust : ndarray
        As in `FlowAt` [-].
    hub_force : ndarray
        The hub's part of `total_thrust` [-]; in the closure that of the last solved load. The duct's part is what
        remains after the disc's, which is CH.
    closed : ndarray of bool
        True where the closure answers.
    """

    head_coefficient: Floats
    far_wake_speed: Floats
    speed_ratio: Floats
    exit_speed_ratio: Floats
    profile: Floats
    total_thrust: Floats
    hub_force: Floats
    closed: NDArray[np.bool_]


class FlowTable:
    """A computed flow made ready for many loads: splines over sqrt(1 - CH) and the closure, built once.

    Attributes
    ----------
    flow : Axisymmetric
    reach, limit : float
        Highest load that converged, and highest that is answered [-].
    closure : Closure or None
    """

    def __init__(self, flow: Axisymmetric) -> None:
        self.flow = flow
        self.reach = reach(flow)
        self.closure = closure(flow)
        self.limit = self.reach if self.closure is None else self.closure.limit
        self._line = _Line(flow, _columns(flow))
        self._last = self._line(np.array([self.reach]))[0]

    def of(self, values: Floats) -> Callable[[Floats], Floats]:
        """Interpolant over load of other values by load, shape (m, e); above the reach its last row is held."""
        line = _Line(self.flow, values)
        return lambda loads: line(np.minimum(loads, self.reach))

    def at(self, loads: Floats) -> FlowsAt:
        """Flow at many loads, each as `response_at` answers it alone, to the byte.

        Parameters
        ----------
        loads : ndarray, shape (p,)
            CH, 0 to `limit` [-].

        Raises
        ------
        InputError
            A load is not finite or below 0.
        NoAnswerError
            A load is above the limit.
        """
        loads = np.asarray(loads, dtype=np.float64)
        wrong = ~(np.isfinite(loads) & (loads >= 0.0))
        if np.any(wrong):
            raise InputError(f"{loads[wrong][0]} must be a finite number, 0 or more; try 0.6", key="head_coefficient")
        if np.any(loads > self.limit):
            most = "" if self.closure is None else f" and closed to {self.limit:.4g}, where the flow stops"
            raise NoAnswerError(
                f"The flow was solved up to a head coefficient of {self.reach:.4g}{most}, not to "
                f"{float(np.max(loads)):.4g}."
            )
        closed = loads > self.reach
        value = self._line(np.minimum(loads, self.reach))
        w, u, at_exit, thrust, hub = value[:, 0], value[:, 1], value[:, 2], value[:, 3], value[:, 4]
        if self.closure is not None:
            beyond = np.where(closed, loads, self.reach)
            slower = self.closure.speed_at(beyond)
            w = np.where(closed, np.sqrt(np.maximum(1.0 - loads, 0.0)), w)
            u = np.where(closed, slower, u)
            at_exit = np.where(closed, float(self._last[2]) * slower / float(self._last[1]), at_exit)
            thrust = np.where(closed, self.closure.thrust_at(beyond), thrust)
        return FlowsAt(loads, w, u, at_exit, np.ascontiguousarray(value[:, 5:]), thrust, hub, closed)


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
    without a contour to take the frontal area from, or with a speed that does not fall with load there.
    """
    start = reach(flow)
    if (
        flow.duct_r.size == 0
        or start < LEAST_START
        or np.count_nonzero(flow.converged) < 2
        or (flow.converged.all() and start < FULL_LADDER)
    ):
        return None
    line = _Line(flow, _columns(flow))
    place = np.array([start])
    value, slope = line(place)[0], line.slope(place)[0]
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
    found = FlowTable(flow).at(np.array([head_coefficient]))
    w, u, at_exit, thrust = (
        float(one[0]) for one in (found.far_wake_speed, found.speed_ratio, found.exit_speed_ratio, found.total_thrust)
    )
    state: State = "closure" if found.closed[0] else "solved"
    return FlowAt(head_coefficient, w, u, at_exit, found.profile[0], thrust, state)


def _columns(flow: Axisymmetric) -> Floats:
    """By load: w, u, exit speed, total thrust, hub force, profile."""
    thrust = flow.head_coefficient + flow.duct_force + flow.hub_force
    return np.column_stack(
        [flow.far_wake_speed, flow.speed_ratio, flow.exit_speed_ratio, thrust, flow.hub_force, flow.profile]
    )


class _Line:
    """Values of the converged loads over sqrt(1 - CH); one load alone stands for all."""

    def __init__(self, flow: Axisymmetric, values: Floats) -> None:
        known = flow.converged
        table = np.asarray(values, dtype=np.float64)[known][::-1]
        places = np.sqrt(1.0 - flow.head_coefficient[known])[::-1]
        self._one = table[0]
        self._spline = None
        if places.size > 1:
            kind = PchipInterpolator if places.size < LEAST_LOADS else CubicSpline
            self._spline = kind(places, table)

    def __call__(self, loads: Floats) -> Floats:
        """Shape (p, columns)."""
        if self._spline is None:
            return np.tile(self._one, (loads.size, 1))
        return np.asarray(self._spline(np.sqrt(1.0 - loads)))

    def slope(self, loads: Floats) -> Floats:
        """Rate by CH, shape (p, columns)."""
        if self._spline is None:
            return np.zeros((loads.size, self._one.size))
        place = np.sqrt(1.0 - loads)
        return np.asarray(self._spline(place, 1) * (-0.5 / place)[:, None])
