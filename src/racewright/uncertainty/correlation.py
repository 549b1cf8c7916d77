"""Which inputs err together, and by how much."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]

ROUNDING = 0.02
"""Eigenvalues down to minus this are taken for rounding of published coefficients, not for a contradiction."""


@dataclass(frozen=True)
class Correlation:
    """Two inputs that err together.

    Attributes
    ----------
    first, second : str
        Names of the inputs.
    coefficient : float
        r, -1 to 1 [-].
    """

    first: str
    second: str
    coefficient: float


def correlation_matrix(names: Sequence[str], correlations: Sequence[Correlation]) -> Floats:
    """The whole matrix, shape (n, n), in the order of `names`.

    Raises
    ------
    InputError
        An unknown name, a pair named twice, a coefficient beyond -1 to 1, or coefficients that contradict
        each other (no quantities can have them).
    """
    place = {name: i for i, name in enumerate(names)}
    matrix = np.eye(len(names))
    for one in correlations:
        for name in (one.first, one.second):
            if name not in place:
                raise InputError(f"a correlation names {name!r}, which is no input; there are {', '.join(names)}")
        i, j = place[one.first], place[one.second]
        pair = f"{one.first} and {one.second}"
        if i == j or matrix[i, j] != 0.0:
            raise InputError(f"the correlation of {pair} is given twice, or of a quantity with itself")
        if not -1.0 <= one.coefficient <= 1.0:
            raise InputError(f"the correlation of {pair} is {one.coefficient}; it must lie between -1 and 1")
        matrix[i, j] = matrix[j, i] = one.coefficient
    lowest = float(np.linalg.eigvalsh(matrix)[0]) if names else 0.0
    if lowest < -ROUNDING:
        raise InputError(
            f"the correlations contradict each other (least eigenvalue {lowest:.3g}, which must not be negative)"
        )
    return matrix


def factor(matrix: Floats) -> Floats:
    """A root R of a correlation matrix, R R^T = matrix, by its eigenvectors; rounding below zero is cut off."""
    values, vectors = np.linalg.eigh(matrix)
    root: Floats = vectors * np.sqrt(np.maximum(values, 0.0))
    length = np.sqrt(np.sum(root**2, axis=1, keepdims=True))
    scaled: Floats = root / length
    return scaled


def blocks(matrix: Floats) -> list[list[int]]:
    """Groups of inputs that hang together by correlation; an independent input is a group of its own."""
    left, found = set(range(len(matrix))), []
    while left:
        group, edge = set(), {min(left)}
        while edge:
            group |= edge
            edge = {int(j) for i in edge for j in np.flatnonzero(matrix[i])} - group
        left -= group
        found.append(sorted(group))
    return found
