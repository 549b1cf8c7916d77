"""Natural frequencies of beams: closed form when even, Hermite elements when stiffness and mass change."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.linalg import eigh
from scipy.optimize import brentq

from racewright.errors import InputError
from racewright.strength.door import growing_row, positive, same_length, whole
from racewright.strength.span_load import Support

Floats = NDArray[np.float64]
ELEMENTS = 64
"""Elements along the span; the first three frequencies of an even beam are then right to 1e-6."""
_GAUSS, _WEIGHT = np.polynomial.legendre.leggauss(4)


def beam_root(mode: int, support: Support) -> float:
    """Root b of cos b cosh b = -1 (one end held) or +1 (both ends clamped); frequency grows with b^2 [-].

    Examples
    --------
    >>> round(beam_root(1, "one end"), 6)
    1.875104
    """
    whole("the mode", mode, 1, 50, 1)
    if support not in ("one end", "both ends"):
        raise InputError(f"the support is {support!r}; wanted 'one end' or 'both ends'")
    sign = 1.0 if support == "one end" else -1.0
    middle = (mode - 0.5 if support == "one end" else mode + 0.5) * math.pi
    return float(brentq(lambda b: math.cos(b) + sign / math.cosh(b), middle - 0.5, middle + 0.5, xtol=1e-14))


def even_beam_frequency(
    length: float, bending_stiffness: float, mass_per_length: float, *, mode: int = 1, support: Support = "one end"
) -> float:
    """Frequency b^2/(2 pi) sqrt(E I/(m L^4)) of an even beam [Hz].

    Parameters
    ----------
    length : float
        > 0 [m].
    bending_stiffness : float
        E I, > 0 [N m2].
    mass_per_length : float
        Added mass of the water included, > 0 [kg/m].
    mode : int
        1 to 50.
    support : {'one end', 'both ends'}
    """
    positive("the beam's length", length, "m", 0.35)
    positive("the bending stiffness", bending_stiffness, "N m2", 1000.0)
    positive("the mass per length", mass_per_length, "kg/m", 20.0)
    root = beam_root(mode, support)
    return root**2 / (2.0 * math.pi) * math.sqrt(bending_stiffness / mass_per_length) / length**2


def beam_frequencies(
    place: ArrayLike,
    bending_stiffness: ArrayLike,
    mass_per_length: ArrayLike,
    *,
    support: Support = "one end",
    count: int = 3,
    elements: int = ELEMENTS,
) -> Floats:
    """Lowest frequencies of a beam whose stiffness and mass are straight between given places, shape (count,) [Hz].

    Parameters
    ----------
    place : array_like, shape (n,)
        Along the span, growing; the first one is held [m].
    bending_stiffness, mass_per_length : array_like, shape (n,)
        > 0, at a pointed tip >= 0 [N m2], [kg/m].
    support : {'one end', 'both ends'}
    count : int
        1 to 10.
    elements : int
        4 to 400.
    """
    z = growing_row("the places along the span", place, "m")
    stiffness = same_length("the bending stiffness", bending_stiffness, "N m2", z, low=0.0)
    mass = same_length("the mass per length", mass_per_length, "kg/m", z, low=0.0)
    if not (np.all(stiffness[:-1] > 0.0) and np.all(mass[:-1] > 0.0)):
        raise InputError("stiffness and mass per length must be above 0 everywhere but at the tip")
    whole("the number of frequencies", count, 1, 10, 3)
    whole("the number of elements", elements, 4, 400, ELEMENTS)
    if support not in ("one end", "both ends"):
        raise InputError(f"the support is {support!r}; wanted 'one end' or 'both ends'")
    length, stiff, dense = float(z[-1] - z[0]), float(stiffness.max()), float(mass.max())
    rigid, heavy = _matrices((z - z[0]) / length, stiffness / stiff, mass / dense, elements)
    free = slice(2, None) if support == "one end" else slice(2, -2)
    square = eigh(rigid[free, free], heavy[free, free], eigvals_only=True, subset_by_index=[0, count - 1])
    found: Floats = np.sqrt(np.maximum(square, 0.0) * stiff / dense) / (2.0 * math.pi * length**2)
    return found


def _matrices(z: Floats, stiffness: Floats, mass: Floats, elements: int) -> tuple[Floats, Floats]:
    edges = np.linspace(z[0], z[-1], elements + 1)
    size = float(edges[1] - edges[0])
    part = 0.5 * (1.0 + _GAUSS)
    shape, bend = _hermite(part, size)
    rigid, heavy = np.zeros((2 * elements + 2, 2 * elements + 2)), np.zeros((2 * elements + 2, 2 * elements + 2))
    for number in range(elements):
        at = edges[number] + size * part
        weight = 0.5 * size * _WEIGHT
        here = slice(2 * number, 2 * number + 4)
        rigid[here, here] += (bend * (np.interp(at, z, stiffness) * weight)) @ bend.T
        heavy[here, here] += (shape * (np.interp(at, z, mass) * weight)) @ shape.T
    return rigid, heavy


def _hermite(part: Floats, size: float) -> tuple[Floats, Floats]:
    """Shapes and their second derivatives, shape (4, points)."""
    s = part
    shape = np.stack(
        [1.0 - 3.0 * s**2 + 2.0 * s**3, size * (s - 2.0 * s**2 + s**3), 3.0 * s**2 - 2.0 * s**3, size * (s**3 - s**2)]
    )
    bend = np.stack([12.0 * s - 6.0, size * (6.0 * s - 4.0), 6.0 - 12.0 * s, size * (6.0 * s - 2.0)]) / size**2
    return shape, bend
