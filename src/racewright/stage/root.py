"""Roots of many independent increasing or decreasing equations at once, held in brackets.

Each element is settled by its own values alone and then kept, so that its root is the same to the byte
whichever others are solved beside it.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from racewright.errors import NoAnswerError

Floats = NDArray[np.float64]
Function = Callable[[Floats], Floats]


def bracketed_root(
    function: Function,
    low: Floats,
    high: Floats,
    *,
    tolerance: float,
    ends: tuple[Floats, Floats] | None = None,
    steps: int = 120,
) -> Floats:
    """Element-wise roots between `low` and `high`, where `function` changes sign.

    Bisection mixed with inverse quadratic interpolation (Chandrupatla, Adv. Eng. Software 28 (1997) 145; from
    memory).

    Parameters
    ----------
    function : callable
        Takes and returns arrays of one shape, element by element.
    low, high : ndarray
        Ends of the brackets.
    tolerance : float
        A root is taken when |function| is not above it, or when its bracket cannot shrink further.
    ends : tuple of ndarray, optional
        Values of the function at `low` and `high`, where they are known.

    Raises
    ------
    NoAnswerError
        Where the ends do not have opposite signs, or the steps run out.
    """
    x1, x2 = np.array(high, dtype=np.float64), np.array(low, dtype=np.float64)
    f2, f1 = (function(x2), function(x1)) if ends is None else ends
    if np.any(f1 * f2 > 0.0):
        raise NoAnswerError("No root lies between the ends of the bracket.")
    answer, open_ = np.where(f1 == 0.0, x1, x2), (f1 != 0.0) & (f2 != 0.0)
    with np.errstate(all="ignore"):
        t = np.where(f1 == f2, 0.5, f1 / (f1 - f2))
        for _ in range(steps):
            if not np.any(open_):
                return answer
            t = np.clip(t, 0.0, 1.0)
            xt = np.where(open_, x1 + t * (x2 - x1), answer)
            ft = function(xt)
            same = np.sign(ft) == np.sign(f1)
            x3, f3 = np.where(same, x1, x2), np.where(same, f1, f2)
            x2, f2 = np.where(same, x2, x1), np.where(same, f2, f1)
            x1, f1 = xt, ft
            first = np.abs(f1) <= np.abs(f2)
            best, least = np.where(first, x1, x2), np.where(first, np.abs(f1), np.abs(f2))
            span = np.abs(x2 - x1)
            close = 4.0 * np.finfo(np.float64).eps * np.abs(best) + 1e-300
            settled = open_ & ((least <= tolerance) | (span <= close))
            answer = np.where(settled, best, answer)
            open_ = open_ & ~settled
            xi, phi = (x1 - x2) / (x3 - x2), (f1 - f2) / (f3 - f2)
            quadratic = (phi**2 < xi) & ((1.0 - phi) ** 2 < 1.0 - xi)
            step = f1 / (f2 - f1) * f3 / (f2 - f3) + (x3 - x1) / (x2 - x1) * f1 / (f3 - f1) * f2 / (f3 - f2)
            edge = np.where(span > 0.0, 0.5 * close / np.where(span > 0.0, span, 1.0), 0.5)
            t = np.where(quadratic & np.isfinite(step), step, 0.5)
            t = np.clip(t, np.minimum(edge, 0.5), 1.0 - np.minimum(edge, 0.5))
    if np.any(open_):
        raise NoAnswerError(f"A bracketed root did not settle in {steps} steps.")
    return answer


def rising_root(function: Function, guess: Floats, step: Floats, *, tolerance: float) -> Floats:
    """Element-wise roots of rising functions: secant steps first, a grown bracket where they do not settle.

    Parameters
    ----------
    function : callable
        Rising in each element, from below to above zero.
    guess : ndarray
        Where to start.
    step : ndarray
        1 / slope, roughly: the first step is -function(guess) x step.
    tolerance : float
        Largest |function| at a root.
    """
    x0 = np.array(guess, dtype=np.float64)
    f0 = function(x0)
    answer, open_ = np.array(x0), np.abs(f0) > tolerance
    x1 = x0 - f0 * step
    for _ in range(9):
        if not np.any(open_):
            return answer
        x1 = np.where(open_, x1, answer)
        f1 = function(x1)
        settled = open_ & (np.abs(f1) <= tolerance)
        answer = np.where(settled, x1, answer)
        open_ = open_ & ~settled
        rise = f1 - f0
        slope = np.where(rise == 0.0, 1.0, (x1 - x0) / np.where(rise == 0.0, 1.0, rise))
        x0, f0, x1 = x1, f1, np.where(rise == 0.0, x1, x1 - f1 * slope)
        x1 = np.where(np.isfinite(x1), x1, x0)
    if not np.any(open_):
        return answer
    width = np.where(open_, 0.25, 0.0)
    start = np.where(open_, guess, answer)
    low, high = start - width, start + width
    for _ in range(60):
        at_low, at_high = function(low), function(high)
        short_low, short_high = open_ & (at_low > 0.0), open_ & (at_high < 0.0)
        if not np.any(short_low | short_high):
            ends = np.where(open_, at_low, 0.0), np.where(open_, at_high, 0.0)
            return bracketed_root(function, low, high, tolerance=tolerance, ends=ends)
        width = np.where(short_low | short_high, 2.0 * width, width)
        low, high = np.where(short_low, low - width, low), np.where(short_high, high + width, high)
    raise NoAnswerError("A rising function did not change sign within a wide bracket.")
