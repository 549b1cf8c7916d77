"""What every number of this room must pass on its way in."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]


def positive(name: str, value: float, unit: str, example: float) -> float:
    """Return `value` as a float, or raise InputError when it is not finite or not above 0."""
    if not (math.isfinite(value) and value > 0.0):
        raise InputError(f"{name} is {value!r} {unit}; wanted a finite number above 0, e.g. {example:g} {unit}")
    return float(value)


def not_negative(name: str, value: float, unit: str, example: float) -> float:
    """Return `value` as a float, or raise InputError when it is negative or not finite."""
    if not (math.isfinite(value) and value >= 0.0):
        raise InputError(f"{name} is {value!r} {unit}; wanted a finite number, 0 or more, e.g. {example:g} {unit}")
    return float(value)


def finite(name: str, value: float, unit: str, example: float) -> float:
    """Return `value` as a float, or raise InputError when it is not finite."""
    if not math.isfinite(value):
        raise InputError(f"{name} is {value!r} {unit}; wanted a finite number, e.g. {example:g} {unit}")
    return float(value)


def within(name: str, value: float, low: float, high: float, unit: str, example: float) -> float:
    """Return `value` as a float, or raise InputError when it is not finite or not within `low` to `high`."""
    if not (math.isfinite(value) and low <= value <= high):
        told = f" {unit}" if unit else ""
        raise InputError(f"{name} is {value!r}{told}; wanted {low:g} to {high:g}{told}, e.g. {example:g}")
    return float(value)


def whole(name: str, value: int, low: int, high: int, example: int) -> int:
    """Return `value`, or raise InputError when it is not a whole number within `low` to `high`."""
    if isinstance(value, bool) or value != int(value) or not low <= value <= high:
        raise InputError(f"{name} is {value!r}; wanted a whole number from {low} to {high}, e.g. {example}")
    return int(value)


def finite_row(name: str, values: ArrayLike, unit: str, *, least: int = 1) -> Floats:
    """Return a copy of a row of finite numbers, or raise InputError."""
    found = np.array(values, dtype=np.float64)
    if found.ndim != 1 or found.size < least:
        raise InputError(f"{name} wants one row of {least} or more numbers; its shape is {found.shape}")
    bad = np.flatnonzero(~np.isfinite(found))
    if bad.size:
        raise InputError(f"{name} holds {found[bad[0]]} at place {bad[0]}; wanted finite numbers in {unit}")
    return found


def growing_row(name: str, values: ArrayLike, unit: str, *, least: int = 2) -> Floats:
    """Return a copy of a row of finite growing numbers, none negative, or raise InputError."""
    found = finite_row(name, values, unit, least=least)
    if found[0] < 0.0 or np.any(np.diff(found) <= 0.0):
        raise InputError(f"{name} must grow from one number to the next and hold none below 0 {unit}")
    return found


def same_length(name: str, values: ArrayLike, unit: str, like: Floats, *, low: float = -math.inf) -> Floats:
    """Return a copy of a row of finite numbers as long as `like`, none below `low`, or raise InputError."""
    found = finite_row(name, values, unit)
    if found.shape != like.shape:
        raise InputError(f"{name} holds {found.size} numbers for {like.size}; give one each")
    if np.any(found < low):
        raise InputError(f"{name} holds a number below {low:g} {unit}")
    return found
