"""Places along a line in closed form."""

from __future__ import annotations

import math

import numpy as np

from racewright.holding.checked import Floats
from racewright.holding.line_catenary import GROUNDED, SLACK, STRAIGHT
from racewright.holding.line_elements import Elements
from racewright.holding.line_march import IN_WATER, LENGTH, STIFFNESS


def catenary_points(lower: Floats, upper: Floats, elements: Elements, form: int, pull: Floats) -> Floats:
    """Ends of the elements of a uniform line without current, from its lower end up, shape (n + 1, 3) [m].

    Parameters
    ----------
    lower, upper : ndarray, shape (3,)
        [m]
    elements : Elements
    form : int
        As `line_catenary.end_forces` told it.
    pull : ndarray, shape (3,)
        Force of the line on its upper end [N].
    """
    rows, length = elements.rows, elements.length
    arc = np.concatenate([[0.0], np.cumsum(rows[::-1, LENGTH])])
    chord = upper - lower
    if form == STRAIGHT:
        return np.asarray(lower + (arc / length)[:, None] * chord)
    weight, stiffness = float(rows[0, IN_WATER]), float(rows[0, STIFFNESS])
    run = float(np.hypot(chord[0], chord[1]))
    side = chord[:2] / run if run > 0.0 else np.array([1.0, 0.0])
    h, v = max(float(np.hypot(pull[0], pull[1])), 1e-12 * abs(weight) * length), -float(pull[2])
    flat = length - v / weight if form in (GROUNDED, SLACK) else 0.0
    first = 0.0 if form in (GROUNDED, SLACK) else v - weight * length
    hung = np.maximum(arc - flat, 0.0)
    load = first + weight * hung
    up = (np.hypot(h, load) - math.hypot(h, first)) / weight + (first + 0.5 * weight * hung) * hung / stiffness
    along = np.minimum(arc, flat) + h * arc / stiffness + h / weight * (np.arcsinh(load / h) - math.asinh(first / h))
    if form == SLACK:
        along = np.where(arc < flat, run * arc / max(flat, 1e-12), run)
    return np.column_stack([lower[0] + along * side[0], lower[1] + along * side[1], lower[2] + up])
