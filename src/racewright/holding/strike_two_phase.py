"""A strike in two phases: first contact in closed form and resolved, then the slow answer with soft later touches."""

from __future__ import annotations

from dataclasses import dataclass, replace

from racewright.holding.contact_numbers import Steps
from racewright.holding.contact_table import contact_stiffnesses
from racewright.holding.strike_blow import FirstBlow
from racewright.holding.strike_figure import SafetyFigure
from racewright.holding.strike_first_blow import first_blow
from racewright.holding.strike_run import StrikeRun, run_from, shortest_contact, steps_for
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_slow import parting_remarks
from racewright.holding.strike_touch import Touch, first_touch
from racewright.machine.drive_checks import number
from racewright.remark import Remark
from racewright.safety import SafetyBasis

LATER = 100.0
"""Stiffness of the later touches over the tether's: quick on its time scale, few steps; own choice [-]."""
_STEPS = (60, 25)
"""Steps in the shortest contact, first and later; a third of the integration's (own choice) [-]."""


@dataclass(frozen=True, slots=True)
class TwoPhase:
    """Both answers to one strike, kept apart.

    Attributes
    ----------
    first : FirstBlow
        Force at the place struck, milliseconds.
    slow_tension : SafetyFigure
        Greatest line tension along the stream, seconds; pretension included; from the runs with the softest and the
        stiffest contact [N].
    slow_time : float
        When, after the first touch, in the run with the higher tension [s].
    parts : bool
        It passes the tether's capacity.
    run : StrikeRun
        The run with the higher tension.
    remarks : tuple of Remark
    safety : tuple of SafetyBasis
        Of the force at the place struck; of the line tension.
    """

    first: FirstBlow
    slow_tension: SafetyFigure
    slow_time: float
    parts: bool
    run: StrikeRun
    remarks: tuple[Remark, ...]
    safety: tuple[SafetyBasis, SafetyBasis]


def two_phase(strike: Strike, *, until: float | None = None, later: float = LATER) -> TwoPhase:
    """Force of the first contact in closed form; tension by runs whose later touches are softened.

    A run resolves the first contact, since what the bodies turn and slide meanwhile decides where they go, and then
    takes `later` times the tether's stiffness for every further touch. Tension hardly depends on either stiffness,
    except where a heavy log bounces often: then by some per cent, as on any small change; hence two runs.

    Parameters
    ----------
    strike : Strike
    until : float, optional
        As `integrate_strike` [s].
    later : float
        10 to 10000 [-].

    Raises
    ------
    NoAnswerError
        When the log passes by or jams.
    """
    first = first_blow(strike)
    touch = first_touch(strike)
    assert touch is not None  # first_blow has refused a log that passes by
    ends = (contact_stiffnesses()[0].value, contact_stiffnesses()[-1].value)
    runs = [second_phase(strike, touch, k, until=until, later=later) for k in ends]
    runs.sort(key=lambda one: one.slow_tension.high)
    low, high = runs
    figure = replace(high.slow_tension, low=low.slow_tension.low, value=None)
    tension = figure.high
    remarks = (*first.remarks, *parting_remarks(tension, strike.tether))
    parts = tension > strike.tether.capacity
    return TwoPhase(first, figure, high.slow_time, parts, high, remarks, (first.safety, figure.safety))


def second_phase(
    strike: Strike, touch: Touch, stiffness: float, *, until: float | None = None, later: float = LATER
) -> StrikeRun:
    """A run that resolves the first contact with one stiffness [N/m] and softens the later touches."""
    return run_from(strike, touch, touch.state, strike.plane(stiffness), quick_steps(strike, stiffness, until, later))


def coarse_phase(strike: Strike, touch: Touch) -> StrikeRun:
    """The second phase for a great many strikes: fewer steps, softer later touches, the softest published contact."""
    k = contact_stiffnesses()[0].value
    return run_from(strike, touch, touch.state, strike.plane(k), quick_steps(strike, k, None, 10.0, (30, 12)))


def quick_steps(
    strike: Strike, stiffness: float, until: float | None, later: float, counts: tuple[int, int] = _STEPS
) -> Steps:
    """Steps that resolve the first contact and soften the later ones, where the tether leaves room for that."""
    steps = steps_for(strike, stiffness, counts[0], until)
    soft = number("The later stiffness ratio", later, 10.0, 1e4) * strike.tether.along
    if soft >= stiffness:
        return steps
    return steps._replace(later=soft, later_fine=shortest_contact(strike, soft) / counts[1])
