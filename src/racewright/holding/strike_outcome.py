"""What becomes of the log: it glances off, is cleared, rides along, is pinned; and how that depends on friction."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import cos, sin
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from racewright.holding.contact_numbers import Floats
from racewright.holding.contact_table import contact_stiffnesses
from racewright.holding.strike_figure import AFTER, SafetyFigure
from racewright.holding.strike_line import across_lines
from racewright.holding.strike_run import StrikeRun
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_touch import first_touch
from racewright.holding.strike_two_phase import second_phase
from racewright.remark import Remark
from racewright.safety import SafetyBasis
from racewright.tick import Tick, silent

Ending = Literal[
    "passes by", "caught across lines", "glances off", "pushed aside and cleared", "rides along", "pinned"
]
FRICTIONS = (0.1, 0.2, 0.3, 0.4, 0.5, 0.6)
"""Over the range of wet wood on steel or plastic; common practice, no source [-]."""
_SLOWED = 2.0
"""A log that needs more than this many times the undisturbed passing time was held up (own choice) [-]."""
_FAR_YAW = 0.5
"""Own choice [rad]."""

WAY = SafetyBasis(
    "log and machine followed in plan on the tether's stiffness, softest published contact",
    "own integration",
    "computed",
    AFTER,
)


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of one log.

    Attributes
    ----------
    ending : str
        'passes by'; 'caught across lines' ahead of the machine; 'glances off', cleared in less than twice the
        undisturbed time; 'pushed aside and cleared', later; 'rides along', still there at the end and moving, with
        the machine or against it; 'pinned', at rest on a machine at rest.
    friction : float
        [-]
    time_to_clear : float or None
        From the first touch until all of the log is past the machine; None where it is not [s].
    touches : int
        Times that it came into touch.
    touch_time : float
        Sum of all [s].
    slow_tension : SafetyFigure or None
        Greatest line tension along the stream; None for a log that does not reach it, or a fixed machine [N].
    shift : float
        Greatest distance of the machine from its place [m].
    yaw : float
        Greatest yaw either way [rad].
    run : StrikeRun or None
        None for a log that does not reach the machine.
    remarks : tuple of Remark
        Says when the machine turned so far that the tether's linear stiffness no longer holds.
    safety : SafetyBasis
        Of what becomes of log and machine.
    """

    ending: Ending
    friction: float
    time_to_clear: float | None
    touches: int
    touch_time: float
    slow_tension: SafetyFigure | None
    shift: float
    yaw: float
    run: StrikeRun | None
    remarks: tuple[Remark, ...] = ()
    safety: SafetyBasis = WAY


def strike_outcome(strike: Strike, *, until: float = 60.0, lines: ArrayLike | None = None) -> Outcome:
    """Follow the log until it has cleared; stream and drag go on, the shelter in the machine's wake is left out.

    A log pressed on a face slides only where the face leans by more than atan(friction).

    Parameters
    ----------
    strike : Strike
    until : float
        Longest time followed [s].
    lines : array_like, shape (n, 2), optional
        Of `line_points` at the log's depth, upstream of the machine; a lying log may be caught there first [m].
    """
    log = strike.log
    if lines is not None and log.attitude != "upright":
        at = across_lines(lines, log.length, log.diameter, strike.heading, strike.offset, friction=strike.friction)
        if at.lying == "caught across lines":
            return Outcome("caught across lines", strike.friction, None, 1, 0.0, None, 0.0, 0.0, None)
    touch = first_touch(strike)
    if touch is None:
        return Outcome("passes by", strike.friction, None, 0, 0.0, None, 0.0, 0.0, None)
    run = second_phase(strike, touch, contact_stiffnesses()[0].value, until=until, later=30.0)
    cleared = run.end == "cleared"
    away = run.trace_machine
    return Outcome(
        ending=_cleared(strike, run) if cleared else _held(strike, run),
        friction=strike.friction,
        time_to_clear=run.time if cleared else None,
        touches=run.touches,
        touch_time=run.touch_time,
        slow_tension=None if strike.machine.fixed else run.slow_tension,
        shift=float(np.hypot(away[:, 0], away[:, 1]).max()),
        yaw=float(np.abs(away[:, 2]).max()),
        run=run,
        remarks=_turned(float(np.abs(away[:, 2]).max())),
    )


@dataclass(frozen=True, slots=True)
class FrictionSensitivity:
    """The same strike at several frictions.

    Attributes
    ----------
    outcomes : tuple of Outcome
        In the order of the frictions.
    depends : bool
        They do not all end alike.
    time_per_friction : float or None
        Slope of the time to clear over friction, among those that clear; None for fewer than two [s].
    """

    outcomes: tuple[Outcome, ...]
    depends: bool
    time_per_friction: float | None


def outcome_by_friction(
    strike: Strike, frictions: Sequence[float] = FRICTIONS, *, until: float = 60.0, tick: Tick = silent
) -> FrictionSensitivity:
    """`strike_outcome` at each friction [-]."""
    found = []
    for i, friction in enumerate(frictions):
        tick(i / len(frictions))
        found.append(strike_outcome(replace(strike, friction=float(friction)), until=until))
    clear = [(one.friction, one.time_to_clear) for one in found if one.time_to_clear is not None]
    slope = None
    if len(clear) >= 2:
        x, t = np.array(clear).T
        slope = float(np.polyfit(x, t, 1)[0]) if np.ptp(x) > 0.0 else None
    return FrictionSensitivity(tuple(found), len({one.ending for one in found}) > 1, slope)


def _cleared(strike: Strike, run: StrikeRun) -> Ending:
    way = float(run.trace_log[-1, 0] - run.trace_log[0, 0])
    free = way / strike.approach_speed
    return "glances off" if run.time < _SLOWED * free else "pushed aside and cleared"


def _turned(yaw: float) -> tuple[Remark, ...]:
    if yaw <= _FAR_YAW:
        return ()
    text = (
        f"The machine yaws by {yaw * 180.0 / np.pi:.0f} degrees: the tether's stiffness is that about its rest, so "
        "the way it goes from there is a rough guess."
    )
    return (Remark("caution", text, "yaw"),)


def _held(strike: Strike, run: StrikeRun) -> Ending:
    """Pinned when over the last fifth of the time neither machine nor, against it, the log has moved."""
    late = run.trace_time >= 0.8 * run.time
    x, y, turn = _against_machine(run.trace_log[late], run.trace_machine[late])
    still = max(np.ptp(x), np.ptp(y), 0.5 * strike.log.length * np.ptp(turn)) < 0.1 * strike.log.diameter
    at_rest = max(float(np.ptp(run.trace_machine[late, i])) for i in (0, 1)) < 0.5 * strike.log.diameter
    return "pinned" if still and at_rest else "rides along"


def _against_machine(log: Floats, machine: Floats) -> tuple[Floats, Floats, Floats]:
    yaw = machine[:, 2]
    dx, dy = log[:, 0] - machine[:, 0], log[:, 1] - machine[:, 1]
    c, s = np.array([cos(a) for a in yaw]), np.array([sin(a) for a in yaw])
    return c * dx + s * dy, c * dy - s * dx, log[:, 2] - yaw
