"""What the turning and sliding of the bodies within the first contact change in its force."""

from __future__ import annotations

from math import hypot, pi, sqrt

import numpy as np

from racewright.holding.contact_impact import impact
from racewright.holding.contact_kernel import places_of
from racewright.holding.contact_numbers import Floats, Plane
from racewright.holding.strike_scene import Strike
from racewright.holding.strike_touch import Touch, after_impulse, gives, speeds

_MOST_PUSH, _MOST_GROWTH = 0.4, 0.15
"""Greatest corrections, for they are of first order only (own choice) [-]."""


def turned_force(strike: Strike, touch: Touch, work: float, stiffness: float) -> float:
    """Greatest force of the first contact, with the bodies turning and sliding meanwhile.

    Depth follows sin(u), u from 0 to pi/2, and speeds change with 1 - cos(u). The depth's second derivative at
    unchanged speeds is added to the spring's equation in its mean over that time; the change of the reduced mass on
    the way counts by a quarter (both: perturbation of first order, own derivation). Places that touch at once get
    none.

    Parameters
    ----------
    strike : Strike
    touch : Touch
        Of that strike.
    work : float
        Stored at greatest pressure, by Routh's impact [J].
    stiffness : float
        Of the contact [N/m].
    """
    plain = sqrt(2.0 * stiffness * touch.places * work)
    if touch.places > 1:
        return plain
    plane = strike.plane(stiffness)
    _, normal, along, _ = impact(
        touch.closing_speed, touch.slip_speed, touch.give, touch.cross_give, touch.slip_give, strike.friction, 0.0
    )
    before = speeds(touch.state, plane)
    change = speeds(after_impulse(touch, plane, normal, along), plane) - before
    mass = 2.0 * work / touch.closing_speed**2
    g0, g1, g2 = (_parting(touch, plane, before + share * change) for share in (0.0, 1.0, 2.0))
    square = 0.5 * (g2 - 2.0 * g1 + g0)
    mean = g0 + (1.0 - pi / 4.0) * (g1 - g0 - square) + (5.0 / 3.0 - pi / 2.0) * square
    push = max(-_MOST_PUSH * plain, min(_MOST_PUSH * plain, mass * mean))
    force = sqrt(plain**2 + push**2) + push
    duration = 0.5 * pi * sqrt(mass / stiffness)
    moved = _moved(touch.state, before * duration + change * duration * (1.0 - 2.0 / pi))
    there = _place(touch, plane, moved)
    give, cross, _ = gives(moved, plane, (there[1], there[2]), (there[3], there[4]))
    share = along / normal
    growth = (give + share * cross) / (touch.give + share * touch.cross_give) - 1.0
    return force * (1.0 - 0.25 * max(-_MOST_GROWTH, min(_MOST_GROWTH, growth)))


def _parting(touch: Touch, plane: Plane, speed: Floats) -> float:
    """Second derivative of the depth at constant speeds, by differences over 1 mm [m/s2]."""
    h = 1e-3 / (hypot(speed[0], speed[1]) + abs(speed[2]) * plane.log.half + 1e-3)
    ahead, here, back = (_place(touch, plane, _moved(touch.state, way * h * speed))[0] for way in (1.0, 0.0, -1.0))
    return float((ahead - 2.0 * here + back) / h**2)


def _moved(state: Floats, way: Floats) -> Floats:
    z = state.copy()
    z[0:3] += way[0:3]
    z[6:9] += way[3:6]
    return z


def _place(touch: Touch, plane: Plane, state: Floats) -> Floats:
    """The deepest place within a log's radius of the touch: an end may roll from a face on to its corner."""
    places = np.empty((plane.machine.corner.shape[0] + 2, 5))
    places_of(state, plane.log, plane.machine, places)
    away = np.hypot(places[:, 3] - touch.point[0], places[:, 4] - touch.point[1])
    near = (places[:, 0] > -1e20) & ((away <= plane.log.radius) | (np.arange(away.size) == touch.row))
    return np.asarray(places[int(np.argmax(np.where(near, places[:, 0], -np.inf)))])
