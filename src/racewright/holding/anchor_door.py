"""What every number of an anchor must pass on its way in."""

from __future__ import annotations

import math

from racewright.errors import InputError


def within(name: str, value: float, low: float, high: float, unit: str, example: float) -> float:
    """Return `value` as a float, or raise InputError when it is not finite or not within `low` to `high`."""
    if not (math.isfinite(value) and low <= value <= high):
        told = f" {unit}" if unit else ""
        raise InputError(
            f"{name} is {value!r}{told}; wanted a number from {low:g} to {high:g}{told}, e.g. {example:g}{told}"
        )
    return float(value)


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
