"""What each way of holding rated power costs in torque, thrust, roll moment and strike speed, and which to take."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from racewright.machine.drive_brake import DumpLoad
from racewright.machine.drive_chain import DriveChain
from racewright.machine.drive_checks import Floats
from racewright.stage.control import ControlCurve, control_curve, rated_stream_speed
from racewright.stage.control_hold import Hold, Limits, hold
from racewright.stage.control_law import Law, law_speed
from racewright.stage.rotor_map import RotorMap
from racewright.tick import Tick, silent

WAYS: tuple[Hold, ...] = ("slow", "speed up", "dump")
LARGEST_JUMP = 0.15
"""A way that begins with a larger jump of rotor speed is taken only when no smooth one holds (no source) [-]."""
_BEYOND = 1e-3
"""Share of the rated stream speed by which it is passed to see the jump [-]."""


@dataclass(frozen=True)
class WayToHold:
    """One way of holding rated power, over all stream speeds asked for.

    Attributes
    ----------
    how : {'slow', 'speed up', 'dump'}
    holds : bool
        True when rated power is held within the limits at every stream speed where it must be, all of them answered.
    fails_from : float or None
        Least stream speed where it is not held [m/s].
    reason : str
        Why not there, or ''.
    torque, thrust, roll_moment : float
        Largest rotor torque [N m], axial force [N], absolute roll moment [N m].
    rotor_speed, strike_speed : float
        Largest rotor speed [rad/s] and blade tip's speed against axial water [m/s].
    dumped_power : float
        Largest power to be dumped [W].
    jump : float
        Change of rotor speed where rated power is just reached, over the rotor speed there; large when the law does
        not run at the ratio of greatest power and the way leads through it [-].
    on_closure : bool
        True when a limited point rests on a stated closure of the flow.
    curve : ControlCurve
        The whole curve.
    """

    how: Hold
    holds: bool
    fails_from: float | None
    reason: str
    torque: float
    thrust: float
    roll_moment: float
    rotor_speed: float
    strike_speed: float
    dumped_power: float
    jump: float
    on_closure: bool
    curve: ControlCurve


@dataclass(frozen=True)
class ControlSummary:
    """The ways side by side.

    Attributes
    ----------
    rated_speed : float or None
        Stream speed where the law makes rated power; None when it does not [m/s].
    ways : tuple of WayToHold
        'slow', 'speed up', 'dump'.
    recommended : {'slow', 'speed up', 'dump', 'any', 'none'}
        'any' when rated power is not reached; 'none' when no way holds it.
    reason : str
        In plain words.
    """

    rated_speed: float | None
    ways: tuple[WayToHold, ...]
    recommended: str
    reason: str


def control_summary(
    rotor: RotorMap,
    chain: DriveChain,
    law: Law,
    stream_speed: Floats,
    *,
    limits: Limits,
    cut_in_speed: float = 0.0,
    dump_load: DumpLoad | None = None,
    tick: Tick = silent,
) -> ControlSummary:
    """Compare the three ways of holding rated power.

    Parameters
    ----------
    rotor, chain, law, stream_speed, limits, cut_in_speed
        As `control_curve`.
    dump_load : DumpLoad, optional
        What the third way has; without it, or too small, that way does not hold.
    tick : callable
        Progress and cancel.

    Notes
    -----
    Of the ways that hold, slowing is taken first (slow blades strike softly, and a loss of load begins from a low
    speed) unless it begins with a jump of rotor speed, then speeding up, then dumping, which needs a generator and a
    dump load for all the power there is. Common practice, no source; the figures of all ways stand beside it.
    """
    ways: list[WayToHold] = []
    running = stream_speed[stream_speed >= cut_in_speed]
    rated = rated_stream_speed(rotor, chain, law, limits.rated_power, running) if running.size else None
    for i, how in enumerate(WAYS):

        def part(done: float, at: int = i) -> None:
            tick((at + done) / len(WAYS))

        curve = control_curve(
            rotor, chain, law, stream_speed, how=how, limits=limits, cut_in_speed=cut_in_speed, tick=part
        )
        ways.append(_way(curve, dump_load, _jump(rotor, chain, law, rated, how, limits)))
    recommended, reason = _choice(tuple(ways), dump_load)
    return ControlSummary(rated, tuple(ways), recommended, reason)


def _jump(rotor: RotorMap, chain: DriveChain, law: Law, rated: float | None, how: Hold, limits: Limits) -> float:
    if rated is None or how == "dump" or rated * (1.0 + _BEYOND) > rotor.stream_speed[-1]:
        return 0.0
    speed = rated * (1.0 + _BEYOND)
    on_law = law_speed(rotor, chain, law, speed).rotor_speed
    if on_law is None:
        return 0.0
    return abs(hold(rotor, chain, law, speed, on_law, how, limits).rotor_speed / on_law - 1.0)


def _way(curve: ControlCurve, dump_load: DumpLoad | None, jump: float) -> WayToHold:
    begun = np.cumsum(curve.limited) > 0
    fails = [s == "not held" or (s == "no answer" and bool(begun[i])) for i, s in enumerate(curve.status)]
    reasons = list(curve.reason)
    if curve.hold == "dump":
        for i in np.flatnonzero(curve.dumped_power > 0.0):
            if not fails[i] and (dump_load is None or curve.dumped_power[i] > dump_load.power):
                fails[i] = True
                reasons[i] = _dump_reason(float(np.max(curve.dumped_power)), dump_load)
    first = int(np.argmax(fails)) if any(fails) else None
    return WayToHold(
        curve.hold,
        first is None,
        None if first is None else float(curve.stream_speed[first]),
        "" if first is None else reasons[first],
        float(np.max(curve.torque)),
        float(np.max(curve.thrust)),
        float(np.max(np.abs(curve.roll_moment))),
        float(np.max(curve.rotor_speed)),
        float(np.max(curve.strike_speed)),
        float(np.max(curve.dumped_power)),
        jump,
        bool(np.any(curve.closure & curve.limited)),
        curve,
    )


def _dump_reason(most: float, dump_load: DumpLoad | None) -> str:
    if dump_load is None:
        return f"no dump load is given, and up to {most:.0f} W must be dumped"
    return f"up to {most:.0f} W must be dumped, more than the dump load's {dump_load.power:.0f} W"


def _choice(ways: tuple[WayToHold, ...], dump_load: DumpLoad | None) -> tuple[str, str]:
    if not ways[0].curve.limited.any():
        answered = [s not in ("no answer", "not computed") for s in ways[0].curve.status]
        fastest = float(np.max(ways[0].curve.stream_speed[answered], initial=0.0))
        return "any", f"Rated power is not reached up to {fastest:.2f} m/s, so nothing has to be held there."
    slow, fast, dump = ways
    names = {"slow": "Slowing", "speed up": "speeding up", "dump": "dumping"}
    figures = ", ".join(
        f"{names[way.how]} asks for {way.torque:.0f} N m, {way.thrust:.0f} N of thrust, "
        f"a roll moment of {way.roll_moment:.0f} N m and blade tips that strike at {way.strike_speed:.1f} m/s"
        for way in ways
    )
    figures += "."
    leaning = [names[way.how].lower() for way in ways if way.on_closure]
    if leaning:
        figures += f" Figures of {' and '.join(leaning)} rest in part on an empirical closure of the flow."
    jumps = (
        f"Slowing begins with a jump of {100.0 * slow.jump:.0f} % in rotor speed, through more than rated power, "
        "because the law runs above the ratio of greatest power."
    )
    if slow.holds and (slow.jump <= LARGEST_JUMP or not fast.holds):
        told = "" if slow.jump <= LARGEST_JUMP else f" {jumps}"
        return (
            "slow",
            "Slow the rotor: the generator bears the torque, blades strike most softly and a loss of load begins "
            f"from a low speed.{told} {figures}",
        )
    refused = jumps if slow.holds else f"Slowing fails from {slow.fails_from:.2f} m/s: {slow.reason}."
    if fast.holds:
        return (
            "speed up",
            f"Let the rotor speed up: torque stays low and it settles by itself, but blades strike faster. {refused} "
            f"{figures}",
        )
    refused += f" Speeding up fails from {fast.fails_from:.2f} m/s: {fast.reason}."
    if dump.holds and dump_load is not None:
        return (
            "dump",
            "Dump what is too much: neither speed holds rated power. Generator and dump load must take all of it for "
            f"as long as the water is fast; the dump load bears {dump_load.duration / 3600.0:.3g} h. {refused} "
            f"{figures}",
        )
    last = max(ways, key=lambda way: way.fails_from or 0.0)
    return (
        "none",
        f"No way holds rated power at every speed: {names[last.how].lower()} lasts longest, to just below "
        f"{last.fails_from:.2f} m/s. Stop or lift the machine there, or build a larger drive. {refused} "
        f"Dumping fails from {dump.fails_from:.2f} m/s: {dump.reason}.",
    )
