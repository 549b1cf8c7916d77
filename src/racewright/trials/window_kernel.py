"""Compiled sums of one window's cells."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
_COUNT, _FIRST, _THIRD, _ALL = 0, 2, 4, 7


@njit(cache=True, nogil=True)
def flagged_shares(sums: Floats, places: Ints) -> Floats:
    """Share of readings that carry a flag in each of some channels; 1 where there are none."""
    out = np.zeros(places.size)
    for p in range(places.size):
        good = readings = 0.0
        for c in range(sums.shape[0]):
            good += sums[c, places[p], _COUNT]
            readings += sums[c, places[p], _ALL]
        out[p] = 1.0 - good / max(readings, 1.0)
    return out


@njit(cache=True, nogil=True, error_model="numpy")
def window_sums(
    sums: Floats, product: Floats, rest: Ints, probes: Ints, weights: Floats
) -> tuple[Floats, Floats, float, float]:
    """Totals by channel, series by cell, mean power over all readings, mean rotor speed over the series.

    Parameters
    ----------
    sums, product : ndarray
        As `Cells` has them.
    rest : ndarray of int, shape (3,)
        Channels of torque, rotor speed and thrust.
    probes : ndarray of int, shape (p,)
        Channels of the stream speed.
    weights : ndarray, shape (p,)
        Of the probes, together 1 [-].

    Returns
    -------
    totals : ndarray, shape (channels, COLUMNS)
    series : ndarray, shape (5, n)
        Power, torque, rotor speed, thrust, cube over those cells that have all of them.
    mean_power : float
        [W]
    mean_speed : float
        Of the rotor, 0 without any cell [rad/s].
    """
    cells, channels, columns = sums.shape
    totals = np.zeros((channels, columns))
    series = np.empty((5, cells))
    count = whole = turning = 0.0
    n = 0
    for c in range(cells):
        totals += sums[c]
        count += product[c, 0]
        whole += product[c, 1]
        good = product[c, 0] > 0.0
        for k in rest:
            good = good and sums[c, k, _COUNT] > 0.0
        for k in probes:
            good = good and sums[c, k, _COUNT] > 0.0
        if good:
            series[0, n] = product[c, 1] / product[c, 0]
            for j in range(3):
                series[j + 1, n] = sums[c, rest[j], _FIRST] / sums[c, rest[j], _COUNT]
            turning += series[2, n]
            series[4, n] = 0.0
            for p in range(probes.size):
                series[4, n] += weights[p] * (sums[c, probes[p], _THIRD] / sums[c, probes[p], _COUNT])
            n += 1
    return totals, series[:, :n].copy(), whole / count, turning / max(n, 1)
