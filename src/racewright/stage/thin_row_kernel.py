"""Compiled mean angles of the thin row: the root of `row_flow.through_row`, section by section.

The formulas and numbers are those of `thin_row`, `friction` and `end_wall`; a test holds both to each other. The
numbers stand here again because a compiled file is made anew when it changes itself, not when another does.
"""

from __future__ import annotations

from math import atan, copysign, cos, log10, pi, sin, sqrt, tanh

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]

SOLIDITY, CHORD, STAGGER, SLOPE, CAMBER, GUIDED, ROUGH, FORM, OUTSIDE, DRAG, TURN, TIP, SECONDARY = range(13)
"""Columns of a row's numbers: chord over pitch, chord [m], stagger [rad], slope of the circulation, zero-lift turn of
the camber [rad], guided share, rough friction, form factor of both sides, 1 outside the model's range; end of the
drag band at which it stands (-1, 0, 1), turn of the sections [rad]; drag by end losses over (2 circulation)^2: at the
tip, and by secondary flow over the ratio of angles."""
COLUMNS = 13

BEND = float(np.radians(8.0))
STALL = float(np.radians(10.0))
HOLD = float(np.radians(12.0))
PLATE_DRAG = 1.8
LOW_REYNOLDS = 2.0e5
LEAST_REYNOLDS = 1.0e3
ROUNDING = 0.03
WIDEST = 2.0
WIDE_BAND, NARROW_BAND = 0.3, 0.15
_APART = sin(BEND) ** 2


@njit(cache=True, error_model="numpy")
def _friction(reynolds: float, transition: float) -> float:
    re = max(reynolds, LEAST_REYNOLDS)
    length = min(re, max(transition, LEAST_REYNOLDS))
    mixed = length / re * (0.455 / log10(length) ** 2.58 - 1.328 / sqrt(length))
    smooth: float = 0.455 / log10(re) ** 2.58 - mixed
    return smooth


@njit(cache=True, error_model="numpy")
def _turning(numbers: Floats, speed: float, before: float, t: float, viscosity: float, transition: float) -> float:
    """Change of the relative angle's tangent that a section makes at the mean tangent t."""
    length = sqrt(1.0 + t * t)
    reynolds = speed * length * numbers[CHORD] / viscosity
    angle = numbers[STAGGER] - (atan(t) - numbers[TURN])
    size = abs(angle)
    bent = size if size <= BEND else BEND + (HOLD - BEND) * tanh((size - BEND) / (HOLD - BEND))
    fall = cos(0.5 * pi * max(size - HOLD, 0.0) / (0.5 * pi - HOLD))
    free = sin(copysign(bent, angle) + numbers[CAMBER]) * fall
    guided = numbers[GUIDED]
    circulation = numbers[SLOPE] * (guided * sin(angle + numbers[CAMBER]) + (1.0 - guided) * free)
    apart = max(sin(min(size, 0.5 * pi)) ** 2 - _APART, 0.0)
    friction = max(_friction(reynolds, transition), numbers[ROUGH])
    drag = numbers[FORM] * friction * (1.0 + (bent / STALL) ** 2) + PLATE_DRAG * apart * apart / (apart + ROUNDING)
    if numbers[DRAG] != 0.0:
        wide = reynolds < LOW_REYNOLDS or size > STALL or numbers[OUTSIDE] != 0.0
        drag *= 1.0 + numbers[DRAG] * (WIDE_BAND if wide else NARROW_BAND)
    after = 2.0 * t - before
    ratio = sqrt((1.0 + before * before) / (1.0 + after * after))
    if ratio > WIDEST:
        ratio = WIDEST + tanh(ratio - WIDEST)
    drag += (numbers[TIP] + numbers[SECONDARY] * ratio) * 4.0 * circulation * circulation
    turned: float = numbers[SOLIDITY] * length * (circulation - 0.5 * drag * t)
    return turned


@njit(cache=True, error_model="numpy")
def _mismatch(numbers: Floats, speed: float, before: float, t: float, viscosity: float, transition: float) -> float:
    turned = _turning(numbers, speed, before, t, viscosity, transition)
    return (t - before - 0.5 * turned) / (1.0 + abs(before))


@njit(cache=True, error_model="numpy")
def _root(
    numbers: Floats, speed: float, before: float, guess: float, viscosity: float, transition: float, tolerance: float
) -> float:
    """Secant steps first, then a grown bracket that is halved; NaN where no bracket is found."""
    x0, f0 = guess, _mismatch(numbers, speed, before, guess, viscosity, transition)
    x1 = x0 - f0 * (1.0 + abs(before)) / (1.0 + 1.3 * numbers[SOLIDITY])
    for _ in range(10):
        if abs(f0) <= tolerance:
            return x0
        f1 = _mismatch(numbers, speed, before, x1, viscosity, transition)
        step = 0.0 if f1 == f0 else f1 * (x1 - x0) / (f1 - f0)
        x0, f0, x1 = x1, f1, x1 - step
        if not np.isfinite(x1):
            break
    width = 0.25
    low, high = guess - width, guess + width
    for _ in range(60):
        short = _mismatch(numbers, speed, before, low, viscosity, transition) > 0.0
        over = _mismatch(numbers, speed, before, high, viscosity, transition) < 0.0
        if not short and not over:
            break
        width *= 2.0
        low, high = low - width if short else low, high + width if over else high
    else:
        return np.nan
    for _ in range(120):
        middle = 0.5 * (low + high)
        miss = _mismatch(numbers, speed, before, middle, viscosity, transition)
        if abs(miss) <= tolerance or high - low <= 9e-16 * abs(middle) + 1e-300:
            return middle
        if miss > 0.0:
            high = middle
        else:
            low = middle
    return middle


@njit(cache=True, error_model="numpy")
def mean_tangents(
    numbers: Floats,
    speed: Floats,
    before: Floats,
    guess: Floats,
    viscosity: float,
    transition: float,
    tolerance: float,
) -> Floats:
    """Mean tangent of each section at each point; NaN where a function did not change sign within a wide bracket.

    Parameters
    ----------
    numbers : ndarray, shape (n, COLUMNS)
        Of the row.
    speed, before, guess : ndarray, shape (p, n)
        Axial speed [m/s]; tangent of the relative angle before the row; mean tangent to start from [-].
    viscosity : float
        [m2/s]
    transition : float
        Reynolds number at which the boundary layer's transition starts [-].
    tolerance : float
        Largest mismatch at a root [-].
    """
    points, sections = speed.shape
    found = np.empty((points, sections))
    for p in range(points):
        for n in range(sections):
            found[p, n] = _root(numbers[n], speed[p, n], before[p, n], guess[p, n], viscosity, transition, tolerance)
    return found
