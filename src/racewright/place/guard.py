"""Checks at the door: finite numbers within stated limits."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.place.result import Floats


def within(name: str, value: float, low: float, high: float, unit: str) -> float:
    """Return `value` as a float, or say which limits it breaks.

    Parameters
    ----------
    name, unit : str
        For the message.
    value, low, high : float
        The number and its limits, both allowed [unit].

    Raises
    ------
    InputError
        When the value is NaN, infinite or outside the limits.
    """
    number = float(value)
    if not (math.isfinite(number) and low <= number <= high):
        raise InputError(f"{name} is {number:g} {unit}; it must lie between {low:g} and {high:g} {unit}")
    return number


def finite_array(name: str, values: ArrayLike) -> Floats:
    """Return a one-dimensional float array, a copy that nobody else holds.

    Raises
    ------
    InputError
        When it has another shape, is empty, or holds NaN or infinity.
    """
    array = np.array(values, dtype=np.float64)
    if array.ndim != 1 or array.size == 0:
        raise InputError(f"{name} must be a row of numbers with at least one; its shape is {array.shape}")
    bad = ~np.isfinite(array)
    if bad.any():
        place = int(np.argmax(bad))
        raise InputError(f"{name} holds {array[place]} at place {place + 1}; every number must be finite")
    return array
