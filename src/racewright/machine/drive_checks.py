"""Checks at the door of the drive's parts: finite numbers within stated limits."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]


def number(name: str, value: float, low: float, high: float, unit: str = "") -> float:
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
        For NaN, infinity, or a number outside the limits.
    """
    found = float(value)
    if not (math.isfinite(found) and low <= found <= high):
        told = f" {unit}" if unit else ""
        raise InputError(f"{name} is {found:g}{told}; it must lie between {low:g} and {high:g}{told}.")
    return found


def growing(name: str, values: ArrayLike, *, least: int = 2) -> Floats:
    """Return a growing row of finite numbers, 0 or more, a copy that nobody else holds.

    Raises
    ------
    InputError
        For another shape, fewer than `least` numbers, NaN, infinity, negative or not growing numbers.
    """
    found = np.array(values, dtype=np.float64)
    if found.ndim != 1 or found.size < least or not np.all(np.isfinite(found)) or np.any(found < 0.0):
        raise InputError(f"{name} wants a row of {least} or more finite numbers, none negative.")
    if np.any(np.diff(found) <= 0.0):
        raise InputError(f"{name} must grow from one number to the next.")
    return found


def filled(name: str, values: ArrayLike, shape: tuple[int, ...]) -> Floats:
    """Return a finite array of `shape`, a copy that nobody else holds.

    Raises
    ------
    InputError
        For another shape, NaN or infinity.
    """
    found = np.array(values, dtype=np.float64)
    if found.shape != shape or not np.all(np.isfinite(found)):
        raise InputError(f"{name} wants finite numbers in the shape {shape}; its shape is {found.shape}.")
    return found


def finite(name: str, values: ArrayLike, *, least: float = -np.inf) -> Floats:
    """Return finite numbers, none below `least`, in any shape.

    Raises
    ------
    InputError
        For NaN, infinity, or a number below `least`.
    """
    found = np.asarray(values, dtype=np.float64)
    if not np.all(np.isfinite(found)) or np.any(found < least):
        limit = "" if least == -np.inf else f", none below {least:g}"
        raise InputError(f"{name} wants finite numbers{limit}.")
    return found


def rpm(rotor_speed: float) -> str:
    """A rotor speed [rad/s] in words, revolutions a minute."""
    return f"{rotor_speed * 30.0 / math.pi:.3g} rpm"
