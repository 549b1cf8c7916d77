"""A strike integrated through first contact and the slow answer of the tethers, in one go."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, sin, sqrt

import numpy as np

from racewright.errors import InputError, NoAnswerError
from racewright.holding import contact_kernel as kernel
from racewright.holding.contact_numbers import Floats, Plane, Steps
from racewright.holding.strike_figure import FIRST, SLOW, SafetyFigure
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_touch import Touch, first_touch
from racewright.machine.drive_checks import number
from racewright.safety import SafetyBasis
from racewright.tick import Tick, silent

ENDS = ("cleared", "time up", "went through", "swung back")
"""Why a run ended."""
_MOST_STEPS = 3e7
"""About a minute of computing [-]."""


@dataclass(frozen=True, slots=True)
class Work:
    """Work done on log and machine together, and the change of their kinetic energy.

    Attributes
    ----------
    log_drag, machine_drag, tether, contact, friction : float
        Machine drag and tether count from their balance at rest [J].
    gained : float
        Kinetic energy at the end less at the touch [J].
    off : float
        Difference of the two over the log's energy before [-].
    """

    log_drag: float
    machine_drag: float
    tether: float
    contact: float
    friction: float
    gained: float
    off: float


@dataclass(frozen=True, slots=True)
class StrikeRun:
    """What an integration found.

    Attributes
    ----------
    touch : Touch
        First touch.
    first_peak : float
        Greatest normal force at one place in the first contact [N].
    first_force : SafetyFigure
        The same with its caution; one stiffness of a wide range [N].
    first_duration : float
        [s]
    first_steps : int
        Steps within it.
    second_place : bool
        Another place touched within the first contact.
    peak : float
        Greatest normal force at one place in the whole run [N].
    slow_tension : SafetyFigure
        Greatest line tension along the stream, pretension included [N].
    slow_time : float
        When, after the first touch [s].
    touches : int
        Times that the log came into touch.
    touch_time : float
        Sum of all [s].
    time : float
        At which the run ended [s].
    end : {'cleared', 'time up', 'went through', 'swung back'}
    trace_time : ndarray, shape (n,)
        [s]
    trace_log, trace_machine : ndarray, shape (n, 3)
        Middle x, y [m] and heading or yaw [rad].
    trace_force, trace_tension : ndarray, shape (n,)
        Sum of normal forces, the greatest since the row before; line tension [N].
    work : Work
    state : ndarray, shape (17,)
        The kernel's, at the end.
    safety : tuple of SafetyBasis
        Of the forces at the place struck; of the line tension.
    """

    touch: Touch
    first_peak: float
    first_force: SafetyFigure
    first_duration: float
    first_steps: int
    second_place: bool
    peak: float
    slow_tension: SafetyFigure
    slow_time: float
    touches: int
    touch_time: float
    time: float
    end: str
    trace_time: Floats
    trace_log: Floats
    trace_machine: Floats
    trace_force: Floats
    trace_tension: Floats
    work: Work
    state: Floats
    safety: tuple[SafetyBasis, SafetyBasis]


def integrate_strike(
    strike: Strike,
    contact_stiffness: float,
    *,
    until: float | None = None,
    steps_in_contact: int = 120,
    tick: Tick = silent,
) -> StrikeRun:
    """Integrate from the first touch with steps that resolve the contact.

    Parameters
    ----------
    strike : Strike
    contact_stiffness : float
        1e3 to 1e9; published for logs: 2.4e6 to 61e6 [N/m].
    until : float, optional
        Longest time, 1e-3 to 3600; when left out the run ends when the machine has swung back to its place, or after
        two of its periods with the log [s].
    steps_in_contact : int
        Steps in the shortest contact that the bodies could have, 50 to 5000.
    tick : Tick
        Called before and after; the run itself takes seconds at most.

    Raises
    ------
    NoAnswerError
        When the log passes by.
    """
    k = number("The contact stiffness", contact_stiffness, 1e3, 1e9, "N/m")
    count = number("The steps in a contact", steps_in_contact, 50, 5000)
    touch = first_touch(strike)
    if touch is None:
        raise NoAnswerError("The log passes the machine without touching it: there is no strike to integrate.")
    tick(0.0)
    steps = steps_for(strike, k, count, until)
    found = run_from(strike, touch, touch.state, strike.plane(k), steps)
    tick(1.0)
    return found


def shortest_contact(strike: Strike, stiffness: float) -> float:
    """Time of the shortest contact that the two bodies could have [s]."""
    plane = strike.plane(stiffness)
    log, inverse = plane.log, plane.machine.inverse
    give = max(log.along, log.across + log.spin * (log.half + log.radius) ** 2)
    give += max(inverse[0], inverse[1]) + inverse[2] * strike.machine.span**2
    return 0.5 * pi * (1.0 + strike.restitution) / sqrt(stiffness * float(give))


def steps_for(strike: Strike, stiffness: float, count: float, until: float | None) -> Steps:
    """Fine steps by the lightest contact possible, coarse ones by the tethers and the log's own size."""
    log = strike.log.in_plane(strike.struck_depth)
    fine = shortest_contact(strike, stiffness) / count
    heaviest = strike.machine.surge_mass + 1.0 / log.across
    period = 2.0 * pi * sqrt(heaviest / strike.tether.along)
    coarse = 0.5 * strike.log.diameter / max(strike.approach_speed, strike.stream_speed)
    if not strike.machine.fixed:
        coarse = min(coarse, 2.0 * pi * sqrt(strike.machine.surge_mass / strike.tether.along) / 200.0)
    longest = 2.0 * period if until is None else number("The longest time", until, 1e-3, 3600.0, "s")
    return Steps(fine, max(coarse, fine), longest, until is None and not strike.machine.fixed, 0.0, 0.0)


def run_from(strike: Strike, touch: Touch, state: Floats, plane: Plane, steps: Steps) -> StrikeRun:
    """Run the kernel from a state and say what it found.

    Raises
    ------
    InputError
        When the time asks for too many steps.
    NoAnswerError
        When the contact is so soft that the log's half is pressed through.
    """
    count = steps.until / (steps.later_fine if steps.later > 0.0 else steps.fine)
    if count > _MOST_STEPS:
        raise InputError(
            f"{steps.until:g} s with this contact may take {count:.1e} steps; at most {_MOST_STEPS:.0e} are done. "
            f"Ask for {steps.until * _MOST_STEPS / count:.3g} s or less."
        )
    z, trace, notes = state.copy(), np.empty((4000, kernel.TRACE)), np.empty(kernel.NOTES)
    rows = kernel.run(z, plane, steps, trace, notes)
    end = ENDS[int(notes[kernel.END])]
    if end == "went through":
        raise NoAnswerError(
            f"With a contact stiffness of {plane.contact.stiffness:.3g} N/m the log is pressed in by its radius, "
            f"{plane.log.radius:.2g} m: it would break or split first. A stiffer contact has an answer."
        )
    rest = strike.tether.pretension
    tension = rest + float(notes[kernel.SLOW])
    slow = SafetyBasis("integrated on the tether's stiffness with drag", "own integration", "computed", SLOW)
    first = _first_figure(float(notes[kernel.FIRST_PEAK]), plane.contact.stiffness)
    return StrikeRun(
        touch=touch,
        first_peak=float(notes[kernel.FIRST_PEAK]),
        first_force=first,
        first_duration=float(notes[kernel.FIRST_TIME]),
        first_steps=int(notes[kernel.FIRST_STEPS]),
        second_place=bool(notes[kernel.SECOND_PLACE]),
        peak=float(notes[kernel.PEAK]),
        slow_tension=SafetyFigure("slow line tension", "N", tension, tension, tension, slow),
        slow_time=float(notes[kernel.SLOW_TIME]),
        touches=int(notes[kernel.TOUCHES]),
        touch_time=float(notes[kernel.TOUCH_TIME]),
        time=float(notes[kernel.TIME]),
        end=end,
        trace_time=trace[:rows, 0].copy(),
        trace_log=trace[:rows, 1:4].copy(),
        trace_machine=trace[:rows, 4:7].copy(),
        trace_force=trace[:rows, 7].copy(),
        trace_tension=rest + trace[:rows, 8],
        work=_work(strike, state, z, plane),
        state=z,
        safety=(first.safety, slow),
    )


def _first_figure(force: float, stiffness: float) -> SafetyFigure:
    return SafetyFigure(
        name="first-blow force with one contact stiffness",
        unit="N",
        low=force,
        value=force,
        high=force,
        safety=SafetyBasis(
            f"integrated with a contact stiffness of {stiffness:.3g} N/m; published ones differ by a factor of 25",
            "own integration",
            "computed",
            FIRST,
        ),
    )


def _work(strike: Strike, start: Floats, end: Floats, plane: Plane) -> Work:
    parts = [float(part) for part in end[12:17] - start[12:17]]
    gained = _energy(strike, end, plane) - _energy(strike, start, plane)
    scale = 0.5 * strike.log.mass * strike.approach_speed**2
    log_drag, machine_drag, tether, contact, friction = parts
    return Work(log_drag, machine_drag, tether, contact, friction, gained, (gained - sum(parts)) / scale)


def _energy(strike: Strike, z: Floats, plane: Plane) -> float:
    """Kinetic energy as an observer on the bank reckons it, less that of a log that drifts with the stream [J].

    Momenta are relative to the water, so the log has p.w/2 + L2/(2 I) + U p_x (w its speed through the water).
    """
    log, machine = plane.log, strike.machine
    c, s = cos(z[2]), sin(z[2])
    along, across = c * z[3] + s * z[4], c * z[4] - s * z[3]
    total = 0.5 * (log.along * along**2 + log.across * across**2 + log.spin * z[5] ** 2)
    total += plane.contact.stream * z[3]
    if not machine.fixed:
        masses = (machine.surge_mass, machine.sway_mass, machine.yaw_inertia)
        total += 0.5 * sum(m * float(v) ** 2 for m, v in zip(masses, z[9:12], strict=True))
    return float(total)
