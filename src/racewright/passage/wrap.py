"""Whether a flexible strand that meets an edge stays on it: statics of a belt over a nose."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers

Floats = NDArray[np.float64]


def hold_chance(length: ArrayLike, edge_thickness: ArrayLike, slant: ArrayLike, friction: float) -> Floats:
    """Chance that a strand which an edge has caught stays on it, shape of the arguments laid over each other [-].

    Its tails are pulled by drag that grows with their lengths; over half a turn friction holds a ratio of tails up to
    e^(pi mu) (Euler and Eytelwein), so a strand caught anywhere along its length stays with chance 1 - 2/(1 + e^(pi
    mu)). It slides out along an edge that lies so aslant that tan(90 degrees - slant) is above mu, and off a nose
    that it does not reach around (length below pi t). Closed form; barbs, knots and growth hold more, a shaking edge
    less.

    Parameters
    ----------
    length : array_like
        1e-5 to 50 [m].
    edge_thickness : array_like
        0 to 1 [m].
    slant : array_like
        Between edge and relative speed, 0 to pi/2; pi/2 is square-on [rad].
    friction : float
        mu, 0 to 3 [-].
    """
    long = numbers("length", length, 1e-5, 50.0, "m")
    edge = numbers("edge_thickness", edge_thickness, 0.0, 1.0, "m")
    angle = numbers("slant", slant, 0.0, 0.5 * math.pi, "rad")
    mu = float(numbers("friction", friction, 0.0, 3.0, ""))
    stays = 1.0 - 2.0 / (1.0 + math.exp(math.pi * mu))
    held = (0.5 * math.pi - angle <= math.atan(mu)) & (long >= math.pi * edge)
    return np.asarray(np.where(held, stays, 0.0), dtype=np.float64)
