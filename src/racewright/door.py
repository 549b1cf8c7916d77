"""What numbers must pass on their way into a room: finite, within limits, with an example of what is right."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]


def within(name: str, value: float, low: float, high: float, unit: str, example: float) -> float:
    """Return `value` as a float, or raise InputError when it is not finite or not within `low` to `high`."""
    if isinstance(value, bool) or not (math.isfinite(value) and low <= value <= high):
        told = f" {unit}" if unit else ""
        raise InputError(f"{name} is {value!r}{told}; wanted {low:g} to {high:g}{told}, e.g. {example:g}", key=name)
    return float(value)


def whole(name: str, value: int, low: int, high: int, example: int) -> int:
    """Return `value`, or raise InputError when it is not a whole number within `low` to `high`."""
    if isinstance(value, bool) or not math.isfinite(value) or value != int(value) or not low <= value <= high:
        raise InputError(f"{name} is {value!r}; wanted a whole number from {low} to {high}, e.g. {example}", key=name)
    return int(value)


def numbers(name: str, values: ArrayLike, low: float, high: float, unit: str) -> Floats:
    """Return an array of any shape whose numbers are finite and within `low` to `high`, or raise InputError."""
    found = np.array(values, dtype=np.float64)
    if found.size == 0:
        raise InputError(f"{name} holds no number; give one or more", key=name)
    bad = ~(np.isfinite(found) & (found >= low) & (found <= high))
    if np.any(bad):
        told = f" {unit}" if unit else ""
        raise InputError(f"{name} holds {found[bad].flat[0]:g}{told}; wanted {low:g} to {high:g}{told}", key=name)
    return found


def row(name: str, values: ArrayLike, low: float, high: float, unit: str) -> Floats:
    """As `numbers`, one number or a row of them, shape (m,)."""
    found = np.atleast_1d(numbers(name, values, low, high, unit))
    if found.ndim != 1:
        raise InputError(f"{name} wants one row of numbers; its shape is {found.shape}", key=name)
    return found
