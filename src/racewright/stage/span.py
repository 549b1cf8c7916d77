"""Integrals and slopes over the blades' span from values at its Gauss points."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.polynomial import legendre
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Span:
    """Linear maps from values at g Gauss points to n stations, shape (n, g); exact for polynomials.

    Attributes
    ----------
    pressure : ndarray
        Integral of v/r^3 from the hub to the station [1/m2 for v = 1].
    flow : ndarray
        Integral of v 2 pi r from the hub [m2].
    rate : ndarray
        dv/dr at the station [1/m].
    source : ndarray of int, shape (n,)
        Station whose perturbation stands for each: itself on the span, the last Gauss point in the gap.
    on_span : ndarray of bool, shape (n,)
    tip : float
        Radius at which the span ends [m].
    """

    pressure: Floats
    flow: Floats
    rate: Floats
    source: NDArray[np.int64]
    on_span: NDArray[np.bool_]
    tip: float


def span(gauss: Floats, hub: float, tip: float, stations: Floats) -> Span:
    """Maps for Gauss points between hub and tip and any stations [m]."""
    on_span = stations <= tip * (1.0 + 1e-9)
    count = gauss.size
    here = np.clip(stations, hub, tip)
    half, middle = 0.5 * (tip - hub), 0.5 * (tip + hub)

    def place(r: Floats) -> Floats:
        return (r - middle) / half

    basis = np.linalg.inv(legendre.legvander(place(gauss), count - 1))
    points, weights = legendre.leggauss(48)
    pressure, flow = np.empty((here.size, count)), np.empty((here.size, count))
    for i, end in enumerate(here):
        r = 0.5 * (hub + end) + 0.5 * (end - hub) * points
        w = 0.5 * (end - hub) * weights
        values = legendre.legvander(place(r), count - 1) @ basis
        pressure[i] = (w / r**3) @ values
        flow[i] = (w * 2.0 * np.pi * r) @ values
    rate = np.stack([legendre.legval(place(here), legendre.legder(basis[:, j])) / half for j in range(count)], axis=1)
    source = np.where(on_span, np.arange(here.size), count - 1)
    return Span(pressure, flow, rate, source, on_span, tip)


def apply(matrix: Floats, values: Floats) -> Floats:
    """`matrix` (n, g) on rows of values (p, g), term by term: the same to the byte for any number of rows."""
    total = np.zeros((values.shape[0], matrix.shape[0]))
    for j in range(matrix.shape[1]):
        total = total + values[:, j : j + 1] * matrix[:, j]
    return total
