"""A disc that takes head in an open channel whose surface gives way: one-dimensional theory."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from racewright.errors import NoAnswerError
from racewright.trials.closed_channel import ChannelFlow, check_channel, check_load, closed_at, closed_channel

Floats = NDArray[np.float64]

GRID = 400
"""Places at which the first change of sign is looked for; a pair of roots closer than that is taken for choking."""


def open_at(wake_speed: float, blockage: float, froude: float) -> ChannelFlow:
    """The flow with a given wake speed a4 (Houlsby, Draper and Oldfield 2008, report OUEL 2296/08).

    Their quartic for the bypass speed b, written for x = b - 1 so that nothing cancels as B goes to 0:
    F x^4/2 + 2 F (1 + a4) x^3 + (2 F + 6 a4 F - 2 + 2 B) x^2 + 4 (B - a4 (1 - F)) x + 2 B (1 - a4^2) = 0, F = Fr^2;
    the smallest positive root. The larger one is supercritical.

    Raises
    ------
    NoAnswerError
        No such root, or one whose depth or Froude number cannot be.
    """
    check_channel(blockage, froude)
    if froude == 0.0:
        return closed_at(wake_speed, blockage)
    found = _open_at(wake_speed, blockage, froude)
    if found is None:
        raise NoAnswerError(_choked(blockage, froude) + f" with a wake of {wake_speed:.4g} of the stream speed")
    return found


def open_channel(load: float, blockage: float, froude: float) -> ChannelFlow:
    """The flow at a given load: the first root in x of the quartic with a4 = sqrt((1 + x)^2 - CT) put in.

    Looked for up to where the bypass turns critical, b^2 = (1 + F/2)/(1.5 F), and kept only when it is the smallest
    root of its own wake speed too.

    Parameters
    ----------
    load : float
        CT of the disc on the stream speed ahead, 0 or more [-].
    blockage : float
        Disc area over channel area, both ahead [-].
    froude : float
        U / sqrt(g h) ahead, 0 or more and below 1 [-].

    Raises
    ------
    NoAnswerError
        The channel chokes, or the wake stands still, below that load.
    """
    check_channel(blockage, froude)
    check_load(load)
    if froude == 0.0:
        return closed_channel(load, blockage)
    if load == 0.0:
        return ChannelFlow(0.0, blockage, froude, 1.0, 1.0, 1.0)
    f = froude * froude
    first = max(math.sqrt(load) - 1.0, 0.0)
    last = min(math.sqrt(1.0 + load), math.sqrt((1.0 + 0.5 * f) / (1.5 * f))) - 1.0

    def excess(x: float) -> float:
        a = math.sqrt(max((1.0 + x) ** 2 - load, 0.0))
        return float(np.polyval(_quartic(a, blockage, f), x))

    places = np.linspace(first, max(last, first), GRID)
    below = np.flatnonzero(
        np.polyval(_quartic(np.sqrt(np.maximum((1.0 + places) ** 2 - load, 0.0)), blockage, f), places) <= 0
    )
    if below.size and below[0] > 0:
        x = float(brentq(excess, places[below[0] - 1], places[below[0]], xtol=1e-16))
        found = _open_at(math.sqrt(max((1.0 + x) ** 2 - load, 0.0)), blockage, froude)
        if found is not None and abs(found.load - load) <= 1e-9 * (1.0 + load):
            return found
    raise NoAnswerError(_choked(blockage, froude) + f" at a load of {load:.4g}")


def _quartic(a: Any, blockage: float, f: float) -> list[Any]:
    """Coefficients in x, highest power first; elementwise in the wake speed."""
    return [
        0.5 * f + 0.0 * a,
        2.0 * f * (1.0 + a),
        2.0 * f + 6.0 * a * f - 2.0 + 2.0 * blockage,
        4.0 * (blockage - a * (1.0 - f)),
        2.0 * blockage * (1.0 - a * a),
    ]


def _choked(blockage: float, froude: float) -> str:
    return (
        f"no root: a channel of blockage {blockage:.4g} and Froude number {froude:.4g} has no steady subcritical flow"
    )


def _open_at(a: float, blockage: float, froude: float) -> ChannelFlow | None:
    f = froude * froude
    quartic = np.array(_quartic(a, blockage, f))
    x = 0.0 if a == 1.0 else _least_positive(quartic)
    if x is None:
        return None
    b = 1.0 + x
    depth = 1.0 - 0.5 * f * x * (2.0 + x)
    if depth <= 0.0 or b * froude >= math.sqrt(depth) or b <= a:
        return None
    disc = a * x * (1.0 - 0.5 * f * b * (1.0 + b)) / (blockage * (b - a)) if b > 1.0 else 1.0
    load = b * b - a * a
    return ChannelFlow(load, blockage, froude, a, b, disc, depth, surface_drop(load, blockage, froude))


def surface_drop(load: float, blockage: float, froude: float) -> float:
    """Fall of the surface over the depth ahead, after mixing: smallest positive root of the momentum cubic.

    d^3/2 - 3 d^2/2 + (1 - F + CT B F/2) d - CT B F/2 = 0, F = Fr^2 (Houlsby, Draper and Oldfield 2008); CT B is the
    whole force on the stream.
    """
    f = froude * froude
    push = 0.5 * load * blockage * f
    drop = _least_positive(np.array([0.5, -1.5, 1.0 - f + push, -push])) if push > 0.0 else 0.0
    if drop is None:
        raise NoAnswerError(_choked(blockage, froude) + f" below a load of {load:.4g}")
    return drop


def _least_positive(polynomial: Floats) -> float | None:
    """Smallest positive real root, polished; None without one."""
    roots = np.roots(polynomial)
    real = roots.real[(np.abs(roots.imag) <= 1e-9 * (1.0 + np.abs(roots.real))) & (roots.real > 0.0)]
    if real.size == 0:
        return None
    x = float(real.min())
    slope = np.polyder(polynomial)
    for _ in range(2):
        rate = float(np.polyval(slope, x))
        if rate == 0.0:
            break
        x -= float(np.polyval(polynomial, x)) / rate
    return x
