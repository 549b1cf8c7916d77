"""When a multiple of the rotor's frequency stands out of noise that falls or rises with frequency."""

from __future__ import annotations

import functools
import math

FALSE_ALARMS = 0.02
"""Share of windows without any ripple in which noise makes some multiple stand out. Own choice [-]."""
NEAREST, WIDEST = 2, 16
"""Neighbours of a multiple, on either side, in steps of one over the window's length: the first is left to the line
itself, whose angle is never quite right, and within sixteen a slope is straight. Own choice [-]."""
_OFF = 0.45
"""Neighbours stay within this part of an order, short of the half-order at 0.5. Own choice [-]."""
_RESOLVED = 0.25
"""And within this part of the band that cells tell apart. Own choice [-]."""


def neighbours(turns: float, cells: int) -> int:
    """Last neighbour on either side that tells the noise; below `NEAREST` where a window has too few turns [-].

    Parameters
    ----------
    turns : float
        Of the rotor over the window [-].
    cells : int
        Of the window [-].
    """
    return min(WIDEST, int(_OFF * turns), int(_RESOLVED * cells))


def middle(count: int) -> int:
    """Which of `count` neighbours, by size, is the floor: the lower of the two in the middle, from 1 [-]."""
    return (count + 1) // 2


@functools.cache
def stands_from(count: int, chance: float) -> float:
    """Amplitude over floor that noise alone passes with a given chance [-].

    One window gives one amplitude A of each frequency: in Gaussian noise A^2 is exponential (chi-square with two
    degrees of freedom), and so is that of each neighbour, with the same mean where the spectrum is straight about
    them. The floor F is the k-th smallest of n neighbours, so that
    P(A > x F) = E exp(-x^2 F^2) = prod (n - j) / (n - j + x^2), j = 0 .. k - 1.

    Parameters
    ----------
    count : int
        Neighbours n, 1 or more [-].
    chance : float
        Above 0, below 1 [-].
    """
    places = range(middle(count))
    low, high = 0.0, 1.0

    def passed(square: float) -> float:
        return math.prod((count - j) / (count - j + square) for j in places)

    while passed(high) > chance:
        low, high = high, 2.0 * high
    for _ in range(60):
        mean = 0.5 * (low + high)
        low, high = (mean, high) if passed(mean) > chance else (low, mean)
    return math.sqrt(high)


def chance_of_one(orders: int, slipped: float) -> float:
    """Chance that one multiple may stand out falsely, so that `FALSE_ALARMS` holds for all of them together [-].

    Parameters
    ----------
    orders : int
        Multiples that are looked at [-].
    slipped : float
        Range in which the multiple itself was lined up, in turns of phase over the window; 0 where it was not. The
        largest of a continuous range passes a level about three times as often for each turn [-].
    """
    return FALSE_ALARMS / (orders * (1.0 + 3.0 * slipped))
