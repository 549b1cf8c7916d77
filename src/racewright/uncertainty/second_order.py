"""What the curvature of a model adds to its mean and variance."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.uncertainty.model import VectorModel

Floats = NDArray[np.float64]

STEP = 0.2
"""Step in standard uncertainties; exact for models up to the third power. Own choice."""
LARGE = 0.05
"""Relative change of the standard uncertainty from which first order is said to fail. Own choice: u is quoted to
two digits."""
SHIFT = 0.25
"""Shift of the mean, in standard uncertainties, from which first order is said to fail. Own choice."""


@dataclass(frozen=True)
class SecondOrder:
    """Terms of second order, for normal inputs.

    Attributes
    ----------
    mean_shift : float
        Expected value less the value at the estimates [unit of the output].
    added_variance : float
        Beyond first order; may be negative [unit of the output, squared].
    standard_uncertainty : float or None
        With those terms; None where the series gives a negative variance and says nothing
        [unit of the output].
    fails : bool
        True where first order is not enough: u moves by more than 5 %, or the mean by more than 0.25 u.
    """

    mean_shift: float
    added_variance: float
    standard_uncertainty: float | None
    fails: bool


def second_order(model: VectorModel, at: Floats, root: Floats) -> list[SecondOrder]:
    """Terms of each output: shift tr(H)/2, variance sum(H_ij^2)/2 + sum(g_i f_ijj) (GUM 5.1.2, note).

    In independent standard coordinates z, x = at + root z, which carries correlations; derivatives by central
    differences.

    Parameters
    ----------
    model : VectorModel
    at : ndarray, shape (n,)
    root : ndarray, shape (n, k)
        Root of the inputs' covariance; k of them are uncertain.
    """
    n = root.shape[1]
    middle = model.at(at)

    def move(*steps: tuple[int, float]) -> Floats:
        z = np.zeros(n)
        for i, s in steps:
            z[i] += s * STEP
        return model.at(at + root @ z)

    plus = [move((i, 1.0)) for i in range(n)]
    minus = [move((i, -1.0)) for i in range(n)]
    gradient, shift, added = [], np.zeros(middle.size), np.zeros(middle.size)
    for i in range(n):
        far = move((i, 2.0)) - move((i, -2.0))
        slope = (8.0 * (plus[i] - minus[i]) - far) / (12.0 * STEP)
        bend = (plus[i] - 2.0 * middle + minus[i]) / STEP**2
        third = (far - 2.0 * (plus[i] - minus[i])) / (2.0 * STEP**3)
        gradient.append(slope)
        shift += 0.5 * bend
        added += 0.5 * bend**2 + slope * third
    for i in range(n):
        for j in range(i):
            pp, pm = move((i, 1.0), (j, 1.0)), move((i, 1.0), (j, -1.0))
            mp, mm = move((i, -1.0), (j, 1.0)), move((i, -1.0), (j, -1.0))
            cross = (pp - pm - mp + mm) / (4.0 * STEP**2)
            i_jj = (pp + pm - mp - mm - 2.0 * (plus[i] - minus[i])) / (2.0 * STEP**3)
            j_ii = (pp + mp - pm - mm - 2.0 * (plus[j] - minus[j])) / (2.0 * STEP**3)
            added += cross**2 + gradient[i] * i_jj + gradient[j] * j_ii
    first = np.sum(np.array(gradient) ** 2, axis=0) if n else np.zeros(middle.size)
    return [_said(float(s), float(a), float(v)) for s, a, v in zip(shift, added, first, strict=True)]


def _said(shift: float, added: float, first: float) -> SecondOrder:
    whole = first + added
    if whole < 0.0:
        return SecondOrder(shift, added, None, True)
    u = math.sqrt(whole)
    noise = 1e-6 * u
    moved = abs(u - math.sqrt(first))
    fails = moved > max(LARGE * u, noise) or abs(shift) > max(SHIFT * u, noise)
    return SecondOrder(shift, added, u, fails)
