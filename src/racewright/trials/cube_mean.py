"""Cube means: the speed that carries the same power."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]


def cube_mean(speed: ArrayLike, weight: ArrayLike | None = None) -> float:
    """Root of the mean cube of a speed, over time or over the parts of a capture area [m/s].

    Parameters
    ----------
    speed : array_like, shape (n,)
        [m/s]
    weight : array_like, shape (n,), optional
        Areas or durations; equal where left out [any unit].

    Raises
    ------
    InputError
        Numbers that are not finite, lengths that differ, weights that are negative or all zero.
    """
    u = np.asarray(speed, np.float64)
    w = np.ones(u.shape) if weight is None else np.asarray(weight, np.float64)
    if u.ndim != 1 or u.size == 0 or u.shape != w.shape or not (np.isfinite(u).all() and np.isfinite(w).all()):
        raise InputError("a cube mean wants a row of finite speeds and as many finite weights")
    if (w < 0.0).any() or w.sum() <= 0.0:
        raise InputError("weights of a cube mean must be 0 or more and not all 0")
    return float(np.cbrt((w @ u**3) / w.sum()))


def strip_areas(radius: float, edges: ArrayLike) -> Floats:
    """Areas of a circle between horizontal lines [m2].

    Parameters
    ----------
    radius : float
        Of the capture area [m].
    edges : array_like, shape (n + 1,)
        Rising heights of the lines, from the centre; cut at the circle [m].
    """
    y = np.asarray(edges, np.float64)
    if not (math.isfinite(radius) and radius > 0.0) or y.ndim != 1 or y.size < 2 or not (np.diff(y) > 0.0).all():
        raise InputError("strips want a radius above 0 and at least two rising edges")
    s = np.clip(y / radius, -1.0, 1.0)
    return np.diff(radius**2 * (np.arcsin(s) + s * np.sqrt(1.0 - s * s)))
