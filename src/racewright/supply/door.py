"""What every number must pass on its way in."""

from __future__ import annotations

import math
import re

from racewright.errors import InputError

HOURS_PER_YEAR = 8760.0
SECONDS_PER_YEAR = HOURS_PER_YEAR * 3600.0
"""The energy year of 8760 h [s]."""

_LABEL = re.compile(r"[A-Z]{3}", re.ASCII)


def not_negative(name: str, value: float, unit: str, example: float) -> float:
    """Return `value`, or raise InputError when it is negative or not finite."""
    if not (math.isfinite(value) and value >= 0.0):
        raise InputError(f"{name} is {value!r} {unit}; wanted a finite number, 0 or more, e.g. {example:g} {unit}")
    return float(value)


def positive(name: str, value: float, unit: str, example: float) -> float:
    """Return `value`, or raise InputError when it is 0, negative or not finite."""
    if not (math.isfinite(value) and value > 0.0):
        raise InputError(f"{name} is {value!r} {unit}; wanted a finite number above 0, e.g. {example:g} {unit}")
    return float(value)


def fraction(name: str, value: float, example: float) -> float:
    """Return `value`, or raise InputError when it is not between 0 and 1."""
    if not (math.isfinite(value) and 0.0 <= value <= 1.0):
        raise InputError(f"{name} is {value!r}; wanted a fraction from 0 to 1, e.g. {example:g}")
    return float(value)


def currency_label(label: str) -> str:
    """Return `label`, or raise InputError when it is not three capital letters."""
    if not _LABEL.fullmatch(label):
        raise InputError(f"currency label is {label!r}; wanted three capital letters, e.g. 'USD'")
    return label
