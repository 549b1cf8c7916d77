"""A measurement model as a function of a vector."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError, NoAnswerError

Floats = NDArray[np.float64]

Model = Callable[[Mapping[str, Any]], Mapping[str, Any]]
"""Takes every input by name and returns every output by name, numbers for numbers, arrays for arrays."""


class VectorModel:
    """A model with its inputs and outputs in a fixed order; outputs are those of the first call."""

    def __init__(self, model: Model, names: Sequence[str], at: Floats) -> None:
        self._model = model
        self._names = tuple(names)
        first = self._call(at)
        if not isinstance(first, Mapping) or not first:
            raise InputError("the model must return a mapping of names to numbers, at least one", key="model")
        self.outputs = tuple(first)

    def _call(self, x: Sequence[Any] | NDArray[Any]) -> Mapping[str, Any]:
        return self._model(dict(zip(self._names, x, strict=True)))

    def at(self, x: Floats) -> Floats:
        """Outputs at one point, shape (outputs,)."""
        found = self._call([float(one) for one in x])
        values = np.array([float(found[name]) for name in self.outputs])
        if not np.all(np.isfinite(values)):
            at = ", ".join(f"{name} {value:.6g}" for name, value in zip(self._names, x, strict=True))
            raise NoAnswerError(f"The model has no finite answer at {at}.")
        return values

    def complex_at(self, x: NDArray[np.complex128]) -> NDArray[np.complex128]:
        """Outputs at one complex point, shape (outputs,)."""
        found = self._call([complex(one) for one in x])
        return np.array([complex(found[name]) for name in self.outputs])

    def over(self, x: Floats, elementwise: bool) -> Floats:
        """Outputs at many points, (inputs, m) to (outputs, m); point by point unless the model takes arrays."""
        if not elementwise:
            return np.array([self.at(one) for one in x.T]).T
        found = self._call(x)
        values = np.array([np.broadcast_to(np.asarray(found[n], np.float64), x.shape[1:]) for n in self.outputs])
        bad = ~np.all(np.isfinite(values), axis=0)
        if bad.any():
            point = x[:, int(np.argmax(bad))]
            at = ", ".join(f"{name} {value:.6g}" for name, value in zip(self._names, point, strict=True))
            raise NoAnswerError(
                f"The model has no finite answer at {int(bad.sum())} of {bad.size} draws, first at {at}."
            )
        return values
