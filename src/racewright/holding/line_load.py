"""One line at equilibrium: tensions, angles, uplift, form."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np

from racewright.holding.checked import Floats
from racewright.holding.line_elements import Elements
from racewright.holding.line_held import HeldLine
from racewright.holding.line_march import DRAG, IN_WATER, LENGTH
from racewright.holding.line_segment import Segment
from racewright.holding.line_strum import Strum, strumming
from racewright.holding.safety import EQUILIBRIUM_BASIS, TENSION_CAUTION
from racewright.holding.statics_problem import Pose, Problem
from racewright.holding.statics_result import LineLoad
from racewright.holding.stream import Stream
from racewright.holding.tether import Bridle
from racewright.safety import SafetyBasis

Form = Literal["taut", "suspended", "grounded", "slack"]
_SLACK_SHARE, _BIGHT, _OWN = 0.02, 0.9, 2.0
"""A line is slack when somewhere its tension is below this share of its own loads, or when its ends are nearer than
the second share of its length and it carries less than this many times its own loads. Own choice [-]."""


def line_load(problem: Problem, pose: Pose, tether_place: int) -> LineLoad:
    """Figures of one tether of a settled problem."""
    tether = problem.layout.tethers[tether_place]
    pieces = [i for i, owner in enumerate(problem.owner) if owner == tether_place]
    main = problem.lines[pieces[0]]
    low, high = problem.ends(pieces[0], pose)
    legs = [problem.lines[i] for i in pieces[1:]]
    segments = [tether.segments] + (list(tether.fairlead.legs) if isinstance(tether.fairlead, Bridle) else [])
    share, segment = max(
        (_worst(problem.lines[i], s) for i, s in zip(pieces, segments, strict=True)), key=lambda pair: pair[0]
    )
    holders = legs if legs else [main]
    pull = np.sum([line.force[1] for line in holders], axis=0)
    ends = [float(np.linalg.norm(main.force[k])) for k in (0, 1)]
    leg_tensions = tuple(float(leg.peaks().max()) for leg in legs)
    return LineLoad(
        name=tether.name,
        purpose=tether.purpose,
        form=form_of(main, low, high),
        tension=max(float(main.pull.max()), *ends, *leg_tensions),
        fairlead_tension=ends[1],
        anchor_tension=ends[0],
        leg_tensions=leg_tensions,
        fairlead_angle=_elevation(-main.force[1]),
        anchor_angle=_elevation(main.force[0]),
        uplift=float(main.force[0, 2]),
        uplift_limit=tether.fixed.uplift_limit,
        grounded_length=grounded_length(main),
        strength=segment.strength,
        segment=segment.material,
        utilisation=share,
        shape=main.points(low, high),
        pull_on_body=(float(pull[0]), float(pull[1]), float(pull[2])),
        drag="on its shape" if main.shaped else "on its chord",
        strum=strum_of(main, tether.segments, low, high, problem.stream),
        safety=tension_safety(segment),
    )


def tension_safety(segment: Segment) -> SafetyBasis:
    """What goes with a tension and the strength that it is set against."""
    strength = segment.safety
    return SafetyBasis(
        f"{EQUILIBRIUM_BASIS}; strength: {strength.basis}",
        strength.edition,
        f"tension computed; strength {strength.status}",
        f"{TENSION_CAUTION} {strength.caution}",
    )


def form_of(line: HeldLine, lower: Floats, upper: Floats) -> Form:
    """Taut, suspended, grounded or slack."""
    elements = line.elements
    length, way = elements.length, float(np.linalg.norm(upper - lower))
    if way >= length * (1.0 - 1e-9):
        return "taut"
    own = own_loads(line, lower, upper)
    lying = grounded_length(line)
    if float(line.pull.min()) <= _SLACK_SHARE * own:
        return "slack"
    if lying > 0.0:
        return "grounded"
    return "slack" if way < _BIGHT * length and float(line.pull.max()) < _OWN * own else "suspended"


def own_loads(line: HeldLine, lower: Floats, upper: Floats) -> float:
    """Weight in water of what hangs, and drag of the line square to its chord [N]."""
    rows = line.elements.rows
    hangs = 1.0 - grounded_length(line) / line.elements.length
    speed = line.stream.speed_at(0.5 * float(lower[2] + upper[2]))
    normal = _normal_speed(lower, upper, line.stream, speed)
    drag = float(rows[:, LENGTH] @ rows[:, DRAG]) * normal**2
    return hangs * float(np.hypot(rows[:, LENGTH] @ np.abs(rows[:, IN_WATER]), drag))


def grounded_length(line: HeldLine) -> float:
    """Length that lies on the bed [m]."""
    elements: Elements = line.elements
    if not elements.from_bed or line.force[0, 2] > 0.0:
        return 0.0
    if line.closed_form and elements.rows[0, IN_WATER] > 0.0:
        return max(0.0, elements.length + float(line.force[1, 2]) / float(elements.rows[0, IN_WATER]))
    drop = np.abs(np.diff(line.nodes[:, 2]))
    lies = np.cumprod((drop < 1e-6 * elements.rows[:, LENGTH])[::-1])[::-1] > 0
    return float(elements.rows[lies, LENGTH].sum())


def strum_of(line: HeldLine, segments: tuple[Segment, ...], lower: Floats, upper: Floats, stream: Stream) -> Strum:
    """Strumming of a whole line with its mean properties and the speed square to its chord at mid-height."""
    length = line.elements.length
    diameter = sum(s.length * s.diameter for s in segments) / length
    mass = sum(s.length * s.mass for s in segments) / length
    added = stream.density * sum(s.length * s.displaced_area for s in segments) / length
    speed = stream.speed_at(0.5 * float(lower[2] + upper[2]))
    return strumming(
        _normal_speed(lower, upper, stream, speed), diameter, length, float(line.pull.mean()), mass, added
    )


def _normal_speed(lower: Floats, upper: Floats, stream: Stream, speed: float) -> float:
    chord = upper - lower
    along = float(chord[:2] @ np.array(stream.direction)) / max(float(np.linalg.norm(chord)), 1e-9)
    return speed * math.sqrt(max(0.0, 1.0 - along**2))


def _worst(line: HeldLine, segments: tuple[Segment, ...]) -> tuple[float, Segment]:
    """Greatest tension over strength and its segment; the first segment when all are of unknown strength."""
    share = line.peaks() / line.elements.strength
    place = int(np.argmax(share))
    return float(share[place]), segments[int(line.elements.segment[place])]


def _elevation(pull: Floats) -> float:
    """Angle of a pull above the horizontal, 0 without a pull [rad]."""
    return math.atan2(float(pull[2]), math.hypot(float(pull[0]), float(pull[1]))) if np.any(pull != 0.0) else 0.0
