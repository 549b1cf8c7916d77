"""Control over the stream's speed: what the machine does from standing water to the fastest."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_checks import Floats, growing, number, rpm
from racewright.stage.control_hold import Hold, Limits, electrical_power, hold
from racewright.stage.control_law import BatteryLaw, FixedSpeed, Law, law_speed
from racewright.stage.drive_equilibrium import equilibria
from racewright.stage.result import PowerCurve
from racewright.stage.rotor_map import RotorMap, rotor_loads
from racewright.tick import Tick, silent
from racewright.uncertainty import PRIOR_DUCTED_POWER

Status = Literal["not computed", "below cut-in", "on law", "held", "not held", "no answer"]


@dataclass(frozen=True)
class ControlCurve:
    """The machine under one control, over stream speed, shape (n,) each.

    Attributes
    ----------
    law : {'torque', 'fixed speed', 'battery'}
        What sets the rotor's speed below rated power.
    hold : {'slow', 'speed up', 'dump'}
        How rated power is held.
    stream_speed, rotor_speed, tip_speed_ratio : ndarray
        U [m/s], Omega [rad/s], Omega R/U [-].
    shaft_power, electrical_power : ndarray
        Rotor torque x speed [W], at the terminals and not above rated [W].
    unlimited_power : ndarray
        Electrical power that the law would make without holding, equal to electrical power below rated; shaft power
        where the generator could not take it [W].
    dumped_power : ndarray
        Electrical power made above rated, for the dump load [W].
    torque, thrust, roll_moment : ndarray
        At the rotor shaft [N m], total axial force [N], moment on the body [N m].
    tip_speed, strike_speed : ndarray
        Omega R [m/s], sqrt((Q/A)^2 + (Omega R)^2) [m/s].
    limited : ndarray of bool
        True where the law alone would pass rated power.
    closure : ndarray of bool
        True where the figures rest on a stated closure of the flow instead of a solved load.
    status : tuple of str
        'on law'; 'held' at rated power; 'not held' (see reason; figures are those it would take, limits passed);
        'below cut-in' (turning free, no power); 'not computed' (below cut-in, where the map is silent; figures 0);
        'no answer' (figures 0).
    reason : tuple of str
        Why rated power is not held or there is no answer; what a law's remark says; else ''.
    """

    law: str
    hold: Hold
    stream_speed: Floats
    rotor_speed: Floats
    tip_speed_ratio: Floats
    shaft_power: Floats
    electrical_power: Floats
    unlimited_power: Floats
    dumped_power: Floats
    torque: Floats
    thrust: Floats
    roll_moment: Floats
    tip_speed: Floats
    strike_speed: Floats
    limited: NDArray[np.bool_]
    closure: NDArray[np.bool_]
    status: tuple[Status, ...]
    reason: tuple[str, ...]


@dataclass(frozen=True)
class _Step:
    """One stream speed decided: rotor speed [rad/s], electrical, unlimited and dumped power [W]."""

    status: Status
    reason: str
    rotor_speed: float = 0.0
    made: float = 0.0
    unlimited: float = 0.0
    dumped: float = 0.0
    limited: bool = False


def control_curve(
    rotor: RotorMap,
    chain: DriveChain,
    law: Law,
    stream_speed: Floats,
    *,
    how: Hold,
    limits: Limits,
    cut_in_speed: float = 0.0,
    tick: Tick = silent,
) -> ControlCurve:
    """Run the machine over stream speeds.

    Parameters
    ----------
    rotor : RotorMap
    chain : DriveChain
    law : TorqueLaw, FixedSpeed or BatteryLaw
    stream_speed : ndarray, shape (n,)
        Growing, 0 or more; above the map's fastest there is no answer [m/s].
    how : {'slow', 'speed up', 'dump'}
        Way of holding rated power.
    limits : Limits
    cut_in_speed : float
        Slower than this the rotor turns free, against `chain.idle_torque` [m/s].
    tick : callable
        Progress and cancel, between stream speeds.

    Returns
    -------
    ControlCurve
        What cannot be held is data, not an error.
    """
    speeds = growing("The stream speeds of a control curve", stream_speed, least=1)
    number("The cut-in speed", cut_in_speed, 0.0, 100.0, "m/s")
    steps: list[_Step] = []
    for i, speed in enumerate(speeds):
        tick(i / speeds.size)
        steps.append(_step(rotor, chain, law, float(speed), how, limits, cut_in_speed))
    tick(1.0)
    return _curve(rotor, _name(law), how, speeds, steps)


def rated_stream_speed(
    rotor: RotorMap, chain: DriveChain, law: Law, rated_power: float, stream_speed: Floats
) -> float | None:
    """Least stream speed where the law makes rated power, between the speeds given [m/s]; None when it does not.

    Parameters
    ----------
    rotor, chain, law
        As `control_curve`.
    rated_power : float
        Electrical, > 0 [W].
    stream_speed : ndarray
        Growing; where it is looked for, inside the map or not [m/s].
    """
    number("Rated power", rated_power, 1e-3, 1e9, "W")
    speeds = growing("The stream speeds", stream_speed, least=1)
    inside = (speeds >= rotor.stream_speed[0]) & (speeds <= rotor.stream_speed[-1])

    def passes(speed: float) -> bool:
        found = law_speed(rotor, chain, law, speed)
        if found.rotor_speed is None or not _shaft(rotor, speed, found.rotor_speed) > rated_power:
            return False
        return _power(rotor, chain, law, speed, found.rotor_speed) > rated_power

    low: float | None = None
    for speed in speeds[inside]:
        high = float(speed)
        if passes(high):
            if low is None:
                return high
            for _ in range(45):
                middle = 0.5 * (low + high)
                low, high = (low, middle) if passes(middle) else (middle, high)
            return high
        low = high
    return None


def power_curve_of(
    curve: ControlCurve,
    rated_power: float,
    *,
    ends: tuple[float, float] = (1.0 - PRIOR_DUCTED_POWER, 1.0 + PRIOR_DUCTED_POWER),
) -> PowerCurve:
    """The curve that energy and cost are computed from, with its band.

    Band ends are what the law would make times `ends` (low, high; left out: the prior of ducted power), capped at
    rated power; where rated power is not held no power is counted: the machine must be stopped or lifted there [W].
    """
    low, high = ends
    counted = np.array([status != "not held" for status in curve.status])
    return PowerCurve(
        curve.stream_speed,
        curve.rotor_speed,
        curve.shaft_power,
        np.where(counted, curve.electrical_power, 0.0),
        curve.thrust,
        curve.limited & counted,
        np.where(counted, np.minimum(curve.unlimited_power * low, rated_power), 0.0),
        np.where(counted, np.minimum(curve.unlimited_power * high, rated_power), 0.0),
    )


def _name(law: Law) -> str:
    return "battery" if isinstance(law, BatteryLaw) else "fixed speed" if isinstance(law, FixedSpeed) else "torque"


def _step(
    rotor: RotorMap, chain: DriveChain, law: Law, speed: float, how: Hold, limits: Limits, cut_in: float
) -> _Step:
    slow, fast = float(rotor.stream_speed[0]), float(rotor.stream_speed[-1])
    if speed > fast:
        return _Step("no answer", f"the map ends at {fast:.3g} m/s")
    if speed < slow:
        if speed < cut_in or speed == 0.0:
            return _Step("not computed", f"the map begins at {slow:.3g} m/s")
        return _Step("no answer", f"the map begins at {slow:.3g} m/s")
    if speed < cut_in:
        free = equilibria(rotor, speed, chain.idle_torque)
        steady = free.rotor_speed[free.stable]
        return _Step("below cut-in", "", float(steady[-1])) if steady.size else _Step("not computed", free.remark)
    found = law_speed(rotor, chain, law, speed)
    if found.rotor_speed is None:
        return _Step("no answer", found.remark)
    power = _power(rotor, chain, law, speed, found.rotor_speed)
    if power <= limits.rated_power:
        driven = float(rotor.torque_at(speed, found.rotor_speed)) < 0.0
        told = "the water does not drive the rotor at this speed; the drive would have to" if driven else found.remark
        return _Step("on law", told, found.rotor_speed, power, power)
    shaft = _shaft(rotor, speed, found.rotor_speed)
    if not shaft > limits.rated_power:
        known = f"at {rpm(found.rotor_speed)} of the rotor and {shaft:.3g} W of shaft power"
        return _Step("no answer", f"the generator is not known {known}")
    held = hold(rotor, chain, law, speed, found.rotor_speed, how, limits)
    unlimited = power if np.isfinite(power) else shaft
    dumped = unlimited - limits.rated_power if held.dumped else 0.0
    status: Status = "not held" if held.reason else "held"
    return _Step(status, held.reason, held.rotor_speed, limits.rated_power, unlimited, max(dumped, 0.0), True)


def _power(rotor: RotorMap, chain: DriveChain, law: Law, stream_speed: float, rotor_speed: float) -> float:
    return float(electrical_power(rotor, chain, law, stream_speed, np.array([rotor_speed]))[0])


def _shaft(rotor: RotorMap, stream_speed: float, rotor_speed: float) -> float:
    return float(rotor.torque_at(stream_speed, rotor_speed)) * rotor_speed


def _curve(rotor: RotorMap, law: str, how: Hold, speeds: Floats, steps: list[_Step]) -> ControlCurve:
    known = np.array([s.status not in ("not computed", "no answer") for s in steps])
    turning = np.array([s.rotor_speed for s in steps])
    columns = {
        name: np.zeros(speeds.size)
        for name in ("torque", "shaft_power", "thrust", "roll_moment", "tip_speed", "strike_speed")
    }
    ratio, closure = np.zeros(speeds.size), np.zeros(speeds.size, dtype=bool)
    if known.any():
        loads = rotor_loads(rotor, speeds[known], turning[known])
        ratio[known] = rotor.ratio(speeds[known], turning[known])
        closure[known] = rotor.on_closure(speeds[known], turning[known])
        for name, column in columns.items():
            column[known] = getattr(loads, name)
    return ControlCurve(
        law,
        how,
        speeds,
        turning,
        ratio,
        columns["shaft_power"],
        np.array([s.made for s in steps]),
        np.array([s.unlimited for s in steps]),
        np.array([s.dumped for s in steps]),
        columns["torque"],
        columns["thrust"],
        columns["roll_moment"],
        columns["tip_speed"],
        columns["strike_speed"],
        np.array([s.limited for s in steps]),
        closure,
        tuple(s.status for s in steps),
        tuple(s.reason for s in steps),
    )
