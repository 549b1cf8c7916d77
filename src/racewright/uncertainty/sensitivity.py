"""First derivatives of a model by its inputs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.uncertainty.model import VectorModel

Floats = NDArray[np.float64]

Derivatives = Literal["central", "complex"]

SHARE = 0.05
"""Step of the central differences in standard uncertainties; its fourth power is the relative error. Own choice."""
LEAST = 1e-5
"""Least step over the value itself, against round-off. Own choice."""
IMAGINARY = 1e-30


def central(model: VectorModel, at: Floats, uncertainty: Floats) -> Floats:
    """Jacobian, shape (outputs, inputs), by differences over four points either side, of fourth order."""
    step = np.maximum(SHARE * uncertainty, LEAST * np.abs(at))
    step = np.where(step > 0.0, step, LEAST)
    columns = []
    for i, h in enumerate(step):
        away = np.zeros(at.size)
        away[i] = h
        near = model.at(at + away) - model.at(at - away)
        far = model.at(at + 2.0 * away) - model.at(at - 2.0 * away)
        columns.append((8.0 * near - far) / (12.0 * h))
    return np.array(columns).T


def complex_step(model: VectorModel, at: Floats) -> Floats:
    """Jacobian by imaginary steps, exact to round-off; only for models built of analytic functions.

    Raises
    ------
    InputError
        An output comes back without imaginary part although it moves: something in the model drops it.
    """
    columns = []
    for i in range(at.size):
        x = at.astype(np.complex128)
        x[i] += 1j * IMAGINARY
        columns.append(model.complex_at(x).imag / IMAGINARY)
    found = np.array(columns).T
    check = central(model, at, np.zeros(at.size))
    scale = np.max(np.abs(check), axis=1, keepdims=True)
    if np.any(np.abs(found - check) > 1e-3 * scale):
        raise InputError(
            "the model is not analytic in its inputs (it takes a real part, an absolute value or iterates on "
            "reals), so complex steps mislead; take derivatives='central'",
            key="derivatives",
        )
    return found


def given(model: VectorModel, names: tuple[str, ...], table: Mapping[str, Mapping[str, float]]) -> Floats:
    """Jacobian from sensitivities that the caller knows: table[output][input], absent means 0."""
    known = [(a, b) for a, row in table.items() for b in row]
    wrong = [f"{a} by {b}" for a, b in known if a not in model.outputs or b not in names]
    if wrong or set(table) != set(model.outputs):
        raise InputError(
            f"sensitivities are wanted for the outputs {', '.join(model.outputs)} by the inputs "
            f"{', '.join(names)}" + (f"; unknown: {', '.join(wrong)}" if wrong else ""),
            key="sensitivities",
        )
    found = np.array([[float(table[a].get(b, 0.0)) for b in names] for a in model.outputs])
    if not np.all(np.isfinite(found)):
        raise InputError("a sensitivity is not a finite number", key="sensitivities")
    return found


def moved_by(model: VectorModel, at: Floats, uncertainty: Floats, i: int) -> NDArray[np.bool_]:
    """Which outputs answer at all to input i moved by 1 % (or 0.01 from nought), at the estimates or beside them.

    Beside them every other input is off by its uncertainty, so that a slope which is nought only where another
    input is nought is found too.
    """
    small = np.where(at == 0.0, 0.01, 0.01 * np.abs(at))
    away = np.zeros(at.size)
    away[i] = small[i]
    found = np.zeros(len(model.outputs), dtype=np.bool_)
    for base in (at, at + np.where(uncertainty > 0.0, uncertainty, small)):
        middle = model.at(base)
        found |= (model.at(base + away) != middle) | (model.at(base - away) != middle)
    return found
