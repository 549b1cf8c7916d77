"""Compiled search for the constant that keeps the flow in radial equilibrium, point by point."""

from __future__ import annotations

from math import exp, sqrt

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]

LEAST = -0.75
"""Change of c^2 over c0^2 below which the speed falls off exponentially instead of turning back [-]. Own choice."""
_NEWTON = 6
_END = sqrt(1.0 + LEAST)


@njit(cache=True, error_model="numpy")
def _bent(change: float) -> tuple[float, float]:
    """sqrt(1 + x) and its slope; below `LEAST` an exponential that joins in value and slope."""
    if change >= LEAST:
        root = sqrt(1.0 + change)
        return root, 0.5 / root
    fall = exp((change - LEAST) / (2.0 * _END * _END))
    return _END * fall, 0.5 / _END * fall


@njit(cache=True, error_model="numpy")
def kept(base: Floats, gain: Floats, area: Floats) -> Floats:
    """As `radial_equilibrium.kept_flow`, shape (p, n)."""
    points, stations = base.shape
    found = np.empty((points, stations))
    for p in range(points):
        flow, weighted, least, most = 0.0, 0.0, np.inf, -np.inf
        for n in range(stations):
            flow += base[p, n] * area[n]
            weighted += gain[p, n] * base[p, n] * area[n]
            if area[n] > 0.0:
                least, most = min(least, gain[p, n]), max(most, gain[p, n])
        constant = -weighted / flow
        for _ in range(_NEWTON):
            got, rise = 0.0, 0.0
            for n in range(stations):
                if area[n] != 0.0:
                    speed, slope = _bent(2.0 * (gain[p, n] + constant) / (base[p, n] * base[p, n]))
                    got += base[p, n] * speed * area[n]
                    rise += 2.0 * slope / base[p, n] * area[n]
            constant = min(max(constant - (got - flow) / rise, -most), -least)
        got = 0.0
        for n in range(stations):
            found[p, n] = base[p, n] * _bent(2.0 * (gain[p, n] + constant) / (base[p, n] * base[p, n]))[0]
            got += found[p, n] * area[n]
        for n in range(stations):
            found[p, n] *= flow / got
    return found
