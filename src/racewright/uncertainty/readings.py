"""Inputs from repeated readings (GUM 4.2, 5.2.3)."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.uncertainty.correlation import Correlation
from racewright.uncertainty.inputs import Input

Floats = NDArray[np.float64]


def type_a(name: str, readings: ArrayLike, *, source: str = "", unit: str = "") -> Input:
    """The mean of n independent readings with u = s/sqrt(n), n - 1 degrees of freedom, shape t.

    One reading alone has no such uncertainty: its input carries None, so that what follows is incomplete. For
    readings that follow each other in a record take `series_mean`, since neighbours are not independent.

    Parameters
    ----------
    name : str
    readings : array_like, shape (n,)
        Finite numbers [SI unit of the quantity].
    """
    values = _readings(name, readings)
    n = values.size
    if n == 1:
        said = source or "one reading: no scatter to judge by"
        return Input(name, float(values[0]), None, evaluation="A", source=said, unit=unit)
    spread = float(np.std(values, ddof=1)) / n**0.5
    said = source or f"{n} readings"
    return Input(name, float(np.mean(values)), spread, n - 1.0, "t", "A", said, unit)


def simultaneous(readings: Mapping[str, ArrayLike]) -> tuple[tuple[Input, ...], tuple[Correlation, ...]]:
    """Means of quantities read together n times, with the correlation of those means (GUM 5.2.3, H.2).

    Parameters
    ----------
    readings : mapping of str to array_like, shape (n,)
        n >= 2 for each name, reading i of all taken at one time [SI units of the quantities].

    Returns
    -------
    inputs : tuple of Input
    correlations : tuple of Correlation
        Every pair of inputs that both scatter.
    """
    values = {name: _readings(name, one) for name, one in readings.items()}
    if len({one.size for one in values.values()}) > 1:
        counts = ", ".join(f"{name} {one.size}" for name, one in values.items())
        raise InputError(f"readings taken together must be equally many; they are: {counts}")
    inputs = tuple(type_a(name, one) for name, one in values.items())
    moving = [one.name for one in inputs if one.standard_uncertainty]
    pairs = []
    for i, first in enumerate(moving):
        for second in moving[i + 1 :]:
            r = float(np.corrcoef(values[first], values[second])[0, 1])
            pairs.append(Correlation(first, second, min(max(r, -1.0), 1.0)))
    return inputs, tuple(pairs)


def _readings(name: str, readings: ArrayLike) -> Floats:
    values = np.array(readings, dtype=np.float64)
    if values.ndim != 1 or values.size == 0 or not np.all(np.isfinite(values)):
        raise InputError("its readings must be a row of finite numbers with at least one", key=name)
    return values
