"""Rotor speeds at which the rotor's torque meets what it drives, for many states at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.stage.root import bracketed_root
from racewright.stage.solve import solve_many
from racewright.stage.stage_ready import Stage

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

FASTEST = 8.0
"""Runaway is looked for up to this many times the design tip-speed ratio."""
_STEPS = 28
_CROWDED = 1.5
"""Power that crowds the first look towards its start."""
_TOLERANCE = 1e-9


@dataclass(frozen=True)
class Settled:
    """Where the torque meets the load, shape (p,) each.

    Attributes
    ----------
    ratio : ndarray
        Tip-speed ratio; 0 where none was found [-].
    found : ndarray of bool
    brakes : ndarray of bool
        True where none was found because the rotor comes to give head to the water before its torque is met.
    """

    ratio: Floats
    found: Flags
    brakes: Flags


def torque_at(
    stage: Stage, stream_speed: Floats, ratio: Floats, resistance: Floats | None = None
) -> tuple[Floats, Flags]:
    """Rotor torque [N m] at tip-speed ratios, 0 where a point has no answer, and which have one; shape (p,)."""
    solved = solve_many(stage, stream_speed, ratio * stream_speed / stage.tip_radius, resistance=resistance)
    return solved.spread(stage.water.density * solved.trial.rows.torque), solved.answered


def settled_ratio(
    stage: Stage,
    stream_speed: Floats,
    first: Floats,
    last: Floats,
    load_factor: Floats,
    resistance: Floats | None = None,
) -> Settled:
    """Least tip-speed ratio from `first` to `last` where the torque comes down to `load_factor` Omega^2.

    Where the torque is not above it at `first`, that is the answer. A first look at 28 ratios finds the bracket.

    Parameters
    ----------
    stream_speed : ndarray, shape (p,)
        [m/s]
    first, last : ndarray, shape (p,)
        Where to look [-].
    load_factor : ndarray, shape (p,)
        k of the law torque = k Omega^2; 0 is a rotor that drives nothing [N m s2].
    resistance : ndarray, shape (p,), optional
        Of debris, as in `solve_many` [-].
    """
    count = stream_speed.size
    debris = np.zeros(count) if resistance is None else resistance
    shares = np.linspace(0.0, 1.0, _STEPS) ** _CROWDED
    ratios = first[:, None] + (last - first)[:, None] * shares
    every = np.repeat(stream_speed, _STEPS)
    torque, answered = torque_at(stage, every, ratios.ravel(), np.repeat(debris, _STEPS))
    load = np.repeat(load_factor, _STEPS) * (ratios.ravel() * every / stage.tip_radius) ** 2
    over = (torque - load).reshape(count, _STEPS)
    known = answered.reshape(count, _STEPS)
    stops = ~known | (over <= 0.0)
    at, line = np.argmax(stops, axis=1), np.arange(count)
    any_stop = np.any(stops, axis=1)
    found = any_stop & known[line, at]
    brakes = any_stop & ~known[line, at]
    closer = np.flatnonzero(brakes & (at > 0))
    answer = np.where(found, ratios[line, at], 0.0)
    low, high = ratios[line, np.maximum(at - 1, 0)].copy(), ratios[line, at].copy()
    at_low, at_high = over[line, np.maximum(at - 1, 0)].copy(), over[line, at].copy()
    if closer.size:
        edge, torque_there = _last_answer(stage, stream_speed[closer], low[closer], high[closer], debris[closer])
        rest = torque_there - load_factor[closer] * (edge * stream_speed[closer] / stage.tip_radius) ** 2
        crossed = rest <= 0.0
        high[closer[crossed]], at_high[closer[crossed]] = edge[crossed], rest[crossed]
        found[closer[crossed]], brakes[closer[crossed]] = True, False
    moving = np.flatnonzero(found & (at > 0))
    if moving.size:
        scale = np.maximum(at_low[moving] - at_high[moving], 1e-300)

        def excess(ratio: Floats) -> Floats:
            now, _ = torque_at(stage, stream_speed[moving], ratio, debris[moving])
            driven = load_factor[moving] * (ratio * stream_speed[moving] / stage.tip_radius) ** 2
            return np.asarray((now - driven) / scale)

        ends = at_low[moving] / scale, at_high[moving] / scale
        answer[moving] = bracketed_root(excess, low[moving], high[moving], tolerance=_TOLERANCE, ends=ends)
    return Settled(answer, found, brakes)


def _last_answer(
    stage: Stage, stream_speed: Floats, low: Floats, high: Floats, resistance: Floats
) -> tuple[Floats, Floats]:
    """Highest ratio, between an answered and an unanswered one, that still has an answer, and the torque there."""
    torque, _ = torque_at(stage, stream_speed, low, resistance)
    for _ in range(24):
        middle = 0.5 * (low + high)
        now, answered = torque_at(stage, stream_speed, middle, resistance)
        low, high = np.where(answered, middle, low), np.where(answered, high, middle)
        torque = np.where(answered, now, torque)
    return low, torque
