"""Checks at the door: finite numbers and vectors within stated limits."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]


def vector(name: str, values: ArrayLike, unit: str = "m") -> tuple[float, float, float]:
    """Return three finite numbers, or say what was found.

    Raises
    ------
    InputError
        For another count, NaN or infinity.
    """
    found = np.asarray(values, dtype=np.float64)
    if found.shape != (3,) or not np.isfinite(found).all():
        raise InputError(f"{name} wants three finite numbers x, y, z [{unit}]; found {np.asarray(values).tolist()}.")
    return float(found[0]), float(found[1]), float(found[2])


def array(name: str, values: ArrayLike, shape: tuple[int, ...]) -> Floats:
    """Return a finite array of `shape` that nobody else holds; -1 in the shape stands for any length from 1.

    Raises
    ------
    InputError
        For another shape, NaN or infinity.
    """
    found = np.array(values, dtype=np.float64)
    fits = found.ndim == len(shape) and all(w in (-1, n) and n > 0 for w, n in zip(shape, found.shape, strict=True))
    if not fits or not np.isfinite(found).all():
        wanted = " x ".join("n" if n == -1 else str(n) for n in shape)
        raise InputError(f"{name} wants {wanted} finite numbers; its shape is {found.shape}.")
    return found


def label(name: str, value: str) -> str:
    """Return a name that is not empty, or say so."""
    if not value.strip():
        raise InputError(f"{name} is empty; give a name, e.g. 'port bow'.")
    return value
