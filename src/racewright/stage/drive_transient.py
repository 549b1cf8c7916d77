"""Loss of load and one stop by the brake: the shaft's motion under torques that depend on its speed.

J dOmega/dt = rotor torque - drag - brake torque. With torques that depend on speed alone, time is the integral of
J dOmega / torque, taken by Gauss's rule on short steps; there is no step in time.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from racewright.errors import InputError
from racewright.machine.drive_brake import Brake
from racewright.machine.drive_checks import Floats, number, rpm
from racewright.stage.drive_equilibrium import Load, equilibria
from racewright.stage.rotor_map import RotorMap

_GAUSS = np.polynomial.legendre.leggauss(6)
_STEPS = 96
NEAR_RUNAWAY = 0.01
"""Runaway is taken as reached when this share of it is missing [-]."""


@dataclass(frozen=True)
class LossOfLoad:
    """The rotor after its load is gone, the stream unchanged.

    Attributes
    ----------
    runaway_speed : float or None
        Speed where rotor torque and drag agree; None when beyond the map [rad/s].
    overspeed : float
        Speed asked for [rad/s].
    time_to_overspeed : float or None
        None when it is never reached, or lies beyond the map [s].
    time_to_runaway : float or None
        Time until 1 % of the runaway speed is missing [s].
    time, rotor_speed : ndarray, shape (n,)
        The run, from time 0 [s], [rad/s].
    remark : str
        What is missing, or ''.
    """

    runaway_speed: float | None
    overspeed: float
    time_to_overspeed: float | None
    time_to_runaway: float | None
    time: Floats
    rotor_speed: Floats
    remark: str


@dataclass(frozen=True)
class BrakeStop:
    """One stop by the brake, the stream unchanged.

    Attributes
    ----------
    stops : bool
        True when the brake's torque exceeds what drives the rotor at every speed from the first down to standstill.
    stuck_at : float or None
        Highest rotor speed where it does not [rad/s].
    time, turns : float or None
        Duration [s], turns until standstill [-].
    energy : float or None
        Heat in the brake [J].
    bears : bool
        True when it stops and the heat stays within what the brake may take.
    remark : str
        Why not, or ''.
    """

    stops: bool
    stuck_at: float | None
    time: float | None
    turns: float | None
    energy: float | None
    bears: bool
    remark: str


def loss_of_load(
    rotor: RotorMap,
    stream_speed: float,
    rotor_speed: float,
    inertia: float,
    *,
    overspeed_ratio: float,
    drag: Load | None = None,
) -> LossOfLoad:
    """Time to a stated overspeed and to runaway when the generator lets go.

    Parameters
    ----------
    rotor : RotorMap
        Steady: the time that the duct's flow needs to follow is left out.
    stream_speed : float
        Inside the map [m/s].
    rotor_speed : float
        At the loss, > 0 and below runaway [rad/s].
    inertia : float
        At the rotor shaft, with entrained water, > 0 [kg m2].
    overspeed_ratio : float
        Stated overspeed over `rotor_speed`, above 1 [-].
    drag : callable, optional
        Torque [N m] that stays (bearings, iron), at the rotor shaft; none when left out.

    Raises
    ------
    InputError
        For numbers out of range, or a rotor that is not driven at `rotor_speed`.
    """
    number("The inertia", inertia, 1e-12, 1e15, "kg m2")
    number("The overspeed ratio", overspeed_ratio, 1.0 + 1e-9, 100.0)
    number("The rotor speed at the loss", rotor_speed, 1e-9, 1e6, "rad/s")
    net = _net(rotor, stream_speed, drag)
    if not float(net(np.array([rotor_speed]))[0]) > 0.0:
        raise InputError(
            f"At {stream_speed:.3g} m/s and {rotor_speed:.3g} rad/s the map does not show a driven rotor, so it does "
            "not speed up when the load is lost."
        )
    found = equilibria(rotor, stream_speed, drag or np.zeros_like)
    above = found.rotor_speed[found.stable & (found.rotor_speed > rotor_speed)]
    wanted = rotor_speed * overspeed_ratio
    if above.size:
        runaway = float(above[0])
        speed, time = _towards(net, rotor_speed, runaway, (1.0 - NEAR_RUNAWAY) * runaway, inertia)
        remark, reached = "", None
        if wanted < runaway:
            reached = float(_towards(net, rotor_speed, runaway, wanted, inertia)[1][-1])
        else:
            remark = f"The rotor runs away at {rpm(runaway)}, below the overspeed of {rpm(wanted)}."
        return LossOfLoad(runaway, wanted, reached, float(time[-1]), time, speed, remark)
    top = _answered_up_to(rotor, stream_speed, rotor_speed)
    end = min(wanted, top)
    speed, time = _straight(net, rotor_speed, end, inertia)
    remark = f"The map ends at {rpm(top)}, before runaway: the rotor goes faster than that."
    return LossOfLoad(None, wanted, float(time[-1]) if wanted <= top else None, None, time, speed, remark)


def brake_stop(
    rotor: RotorMap,
    stream_speed: float,
    rotor_speed: float,
    inertia: float,
    brake: Brake,
    *,
    drag: Load | None = None,
) -> BrakeStop:
    """Stop the rotor by the brake alone.

    Parameters
    ----------
    rotor, stream_speed, inertia, drag
        As `loss_of_load`.
    rotor_speed : float
        When the brake bites, > 0 [rad/s].
    brake : Brake
        Torque constant while it slips.
    """
    number("The inertia", inertia, 1e-12, 1e15, "kg m2")
    number("The rotor speed at braking", rotor_speed, 1e-9, 1e6, "rad/s")
    net = _net(rotor, stream_speed, drag)
    edge = np.linspace(0.0, rotor_speed, _STEPS + 1)
    excess = brake.torque - net(edge)
    if not np.all(np.isfinite(excess)):
        missing = float(edge[~np.isfinite(excess)][-1])
        told = f"The map does not answer at {rpm(missing)} on the way down, so the stop cannot be judged."
        return BrakeStop(False, None, None, None, None, False, told)
    if np.any(excess <= 0.0):
        stuck = float(edge[excess <= 0.0][-1])
        told = (
            f"The brake's {brake.torque:.4g} N m do not stop the rotor: at {rpm(stuck)} the water drives it "
            f"with {float(brake.torque - excess[excess <= 0.0][-1]):.4g} N m."
        )
        return BrakeStop(False, stuck, None, None, None, False, told)
    point, weight = _nodes(edge)
    during = inertia * weight / (brake.torque - net(point))
    energy = float(np.sum(brake.torque * point * during))
    bears = energy <= brake.heat
    told = (
        ""
        if bears
        else f"One stop brings {0.001 * energy:.3g} kJ into the brake, more than its {0.001 * brake.heat:.3g} kJ."
    )
    turns = float(np.sum(point * during)) / (2.0 * math.pi)
    return BrakeStop(True, None, float(np.sum(during)), turns, energy, bears, told)


def _net(rotor: RotorMap, stream_speed: float, drag: Load | None) -> Load:
    low, high = float(rotor.stream_speed[0]), float(rotor.stream_speed[-1])
    number("The stream speed", stream_speed, low, high, "m/s")

    def net(speed: Floats) -> Floats:
        torque = rotor.torque_at(stream_speed, speed)
        return torque if drag is None else torque - drag(speed)

    return net


def _nodes(edge: Floats) -> tuple[Floats, Floats]:
    """Gauss points and weights on each step between edges, shape (steps, 6)."""
    half = 0.5 * np.diff(edge)[:, None]
    middle = 0.5 * (edge[1:] + edge[:-1])[:, None]
    return middle + half * _GAUSS[0], half * _GAUSS[1]


def _towards(net: Load, start: float, runaway: float, end: float, inertia: float) -> tuple[Floats, Floats]:
    """Speeds and times up to `end` < runaway, in the variable s = -ln(runaway - speed), smooth up to runaway."""
    if end <= start:
        return np.array([start]), np.zeros(1)
    edge = np.linspace(0.0, math.log((runaway - start) / (runaway - end)), _STEPS + 1)
    at, weight = _nodes(edge)
    missing = (runaway - start) * np.exp(-at)
    step = np.sum(weight * inertia * missing / net(runaway - missing), axis=1)
    return runaway - (runaway - start) * np.exp(-edge), np.concatenate([[0.0], np.cumsum(step)])


def _straight(net: Load, start: float, end: float, inertia: float) -> tuple[Floats, Floats]:
    edge = np.linspace(start, end, _STEPS + 1)
    at, weight = _nodes(edge)
    step = np.sum(weight * inertia / net(at), axis=1)
    return edge, np.concatenate([[0.0], np.cumsum(step)])


def _answered_up_to(rotor: RotorMap, stream_speed: float, rotor_speed: float) -> float:
    """Highest rotor speed from `rotor_speed` on, up to which the map answers without a gap [rad/s]."""
    steps = rotor.tip_speed_ratio * stream_speed / rotor.tip_radius
    steps = steps[steps > rotor_speed]
    known = np.isfinite(rotor.torque_at(stream_speed, steps))
    count = int(np.argmin(known)) if not known.all() else known.size
    return float(steps[count - 1]) if count else rotor_speed
