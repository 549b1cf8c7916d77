"""Draws of the inputs for Monte Carlo (JCGM 101, 6.4)."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.uncertainty.correlation import blocks, factor
from racewright.uncertainty.inputs import Input

Floats = NDArray[np.float64]


class Draws:
    """Draws of all inputs, in their order, from one generator.

    Correlated inputs must be all normal, or all of shape t with the same degrees of freedom (readings taken
    together): multivariate normal or t.
    """

    def __init__(self, inputs: Sequence[Input], matrix: Floats, seed: int) -> None:
        self._inputs = tuple(inputs)
        self._groups = []
        for group in blocks(matrix):
            if len(group) > 1:
                _check_together([inputs[i] for i in group])
            self._groups.append((group, factor(matrix[np.ix_(group, group)])))
        for one in inputs:
            if one.shape == "t" and one.dof <= 2.0 and one.standard_uncertainty:
                raise InputError(
                    f"it has {one.dof:g} degrees of freedom; draws from t have no variance below 3, take more "
                    "readings",
                    key=one.name,
                )
        self._random = np.random.Generator(np.random.PCG64(seed))

    def take(self, count: int) -> Floats:
        """The next `count` draws, shape (inputs, count)."""
        found = np.empty((len(self._inputs), count))
        for group, root in self._groups:
            if len(group) == 1:
                found[group[0]] = self._alone(self._inputs[group[0]], count)
                continue
            together = root @ self._random.standard_normal((len(group), count))
            first = self._inputs[group[0]]
            if first.shape == "t":
                together /= np.sqrt(self._random.chisquare(first.dof, count) / first.dof)
            for row, i in enumerate(group):
                one = self._inputs[i]
                found[i] = one.value + (one.standard_uncertainty or 0.0) * together[row]
        return found

    def _alone(self, one: Input, count: int) -> Floats:
        u, random = one.standard_uncertainty or 0.0, self._random
        if u == 0.0:
            return np.full(count, one.value)
        if one.shape == "normal":
            standard = random.standard_normal(count)
        elif one.shape == "t":
            standard = random.standard_t(one.dof, count)
        elif one.shape == "rectangular":
            standard = 3.0**0.5 * (2.0 * random.random(count) - 1.0)
        elif one.shape == "triangular":
            standard = 6.0**0.5 * (random.random(count) + random.random(count) - 1.0)
        elif one.shape == "arcsine":
            standard = 2.0**0.5 * np.sin(2.0 * np.pi * random.random(count))
        else:
            standard = random.standard_exponential(count) - 1.0
        return one.value + u * standard


def _check_together(group: Sequence[Input]) -> None:
    shapes = {(one.shape, one.dof if one.shape == "t" else 0.0) for one in group}
    if len(shapes) > 1 or group[0].shape not in ("normal", "t"):
        names = ", ".join(f"{one.name} {one.shape}" for one in group)
        raise InputError(
            f"these correlated inputs cannot be drawn together: {names}; they must be all normal, or all of "
            "shape t with the same degrees of freedom",
            key=group[0].name,
        )
