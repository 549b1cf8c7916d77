"""What every number must pass on its way in."""

from __future__ import annotations

import math
import re

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]

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


def power_row(name: str, values: ArrayLike, count: int | None) -> Floats:
    """A row of `count` powers, finite and 0 or more [W], a copy; any count of 1 or more when None.

    Raises
    ------
    InputError
        Another length, a negative power, NaN (a gap that was not filled) or infinity.
    """
    row = np.array(values, dtype=np.float64)
    if row.ndim != 1 or row.size == 0 or (count is not None and row.size != count):
        wanted = "one or more" if count is None else str(count)
        raise InputError(f"{name} has the shape {row.shape}; wanted a row of {wanted}, one for each interval")
    bad = np.flatnonzero(~(np.isfinite(row) & (row >= 0.0)))
    if bad.size:
        raise InputError(
            f"{name} is {row[bad[0]]} W in interval {int(bad[0]) + 1}; wanted finite powers of 0 or more, gaps filled"
        )
    return row
