"""Compiled search for the slip of the shaft's angle; amplitudes by order once it is out, and of what lies beside."""

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
    orders: Complexes,
    mean: float,
    count: int,
    passing: Ints,
    turn: float,
    slip: float,
    steps: int,
    first: int,
    last: int,
) -> tuple[Floats, Floats]:
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
    first, last : int
        Neighbours looked at on either side of a whole order, in steps of one turn of phase over all cells [-].

    Returns
    -------
    sizes : ndarray, shape (count,)
    beside : ndarray, shape (count // 2, 2 (last - first + 1))
        The same of the neighbours of each whole order.
    """
    slips = slip * np.arange(-steps, steps + 1) / steps
    power = np.zeros(slips.size)
    for p in range(passing.size):
        _lined_up(orders, mean, passing[p], turn * 0.5 * (passing[p] + 1), slips, power)
    best = slips[np.argmax(power)]
    cells, wide = orders.shape[0], max(last - first + 1, 0)
    total = np.zeros(count, np.complex128)
    beside = np.zeros((count // 2, 2 * wide), np.complex128)
    for c in range(cells):
        angle, aside = 0.5 * best * turn * c, 2.0 * np.pi * c / cells
        step, back = complex(np.cos(angle), np.sin(angle)), complex(1.0, 0.0)
        start = complex(np.cos(aside * first), np.sin(aside * first))
        on = complex(np.cos(aside), np.sin(aside))
        for k in range(count):
            back *= step
            part = (orders[c, 1, k] - orders[c, 0, k] * mean) * back
            total[k] += part
            if k % 2 == 1:
                shift = start
                for j in range(wide):
                    beside[k // 2, 2 * j] += part * shift
                    beside[k // 2, 2 * j + 1] += part * shift.conjugate()
                    shift *= on
    return np.abs(total), np.abs(beside)
