"""Compiled search for the slip of the shaft's angle, and the amplitudes by order once it is taken out."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Complexes = NDArray[np.complex128]


@njit(cache=True, nogil=True)
def _lined_up(orders: Complexes, mean: float, place: int, turn: float, slips: Floats, power: Floats) -> None:
    """Add to `power` the square of one order's sum over the cells, each turned back by every slip.

    Horner's rule over the cells, all slips side by side; `turn` is the rotor's angle over one cell times the order.
    """
    size = slips.size
    real, imaginary, cosine, sine = np.zeros(size), np.zeros(size), np.empty(size), np.empty(size)
    for s in range(size):
        cosine[s], sine[s] = np.cos(turn * slips[s]), np.sin(turn * slips[s])
    for c in range(orders.shape[0] - 1, -1, -1):
        part = orders[c, 1, place] - orders[c, 0, place] * mean
        a, b = part.real, part.imag
        for s in range(size):
            x, y = real[s], imaginary[s]
            real[s] = x * cosine[s] - y * sine[s] + a
            imaginary[s] = x * sine[s] + y * cosine[s] + b
    for s in range(size):
        power[s] += real[s] ** 2 + imaginary[s] ** 2


@njit(cache=True, nogil=True)
def amplitudes(
    orders: Complexes, mean: float, count: int, passing: Ints, turn: float, slip: float, steps: int
) -> Floats:
    """Size of the sum over the cells of each of the first `count` half-orders, at the slip that lines up best.

    Parameters
    ----------
    orders : ndarray of complex, shape (cells, 2, m)
        As `Cells` has them.
    mean : float
        Of the torque; its share of every order is taken off [N m].
    count : int
        [-]
    passing : ndarray of int
        Places of the half-orders that are lined up.
    turn : float
        Angle that the rotor makes in one cell [rad].
    slip : float
        Largest relative error of the rotor speed that is tried [-].
    steps : int
        Errors tried between 0 and that one, on either side [-].
    """
    slips = slip * np.arange(-steps, steps + 1) / steps
    power = np.zeros(slips.size)
    for p in range(passing.size):
        _lined_up(orders, mean, passing[p], turn * 0.5 * (passing[p] + 1), slips, power)
    best = slips[np.argmax(power)]
    total = np.zeros(count, np.complex128)
    for c in range(orders.shape[0]):
        angle = 0.5 * best * turn * c
        step = complex(np.cos(angle), np.sin(angle))
        back = complex(1.0, 0.0)
        for k in range(count):
            back *= step
            total[k] += (orders[c, 1, k] - orders[c, 0, k] * mean) * back
    return np.abs(total)
