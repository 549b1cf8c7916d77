"""Sums of calibrated readings over short cells of time: all that later steps need of 10^8 readings."""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Codes = NDArray[np.uint8]
Complexes = NDArray[np.complex128]

COUNT, RAW, FIRST, SECOND, THIRD, SPIKES, SPIKE_SUM, ALL = range(8)
"""Columns of a channel's cells: good readings, their raw sum, sums of value, square and cube, readings flagged as
spikes and their sum, all readings."""
COLUMNS = 8
BINS = 256
"""Angle bins over two turns of the rotor, for the synchronous mean of the torque."""
_GOOD, _SPIKE = 0, 5
_TWO_TURNS = 4.0 * np.pi


@njit(cache=True, nogil=True)
def _edge(cell: int, readings: int, cells: int) -> int:
    """First reading of a cell when `readings` lie evenly over `cells`, the first at the start."""
    return -((-cell * readings) // cells)


@njit(cache=True, nogil=True)
def channel_sums(raw: Floats, code: Codes, coefficients: Floats, cells: int, value: Floats, out: Floats) -> None:
    """Calibrate into `value`, shape (n,), and add up by cell into `out`, shape (cells, COLUMNS)."""
    n = raw.size
    degree = coefficients.size - 1
    for c in range(cells):
        good = spikes = 0
        s0 = s1 = s2 = s3 = sk = 0.0
        low, high = _edge(c, n, cells), _edge(c + 1, n, cells)
        for i in range(low, high):
            x = raw[i]
            y = coefficients[degree]
            for k in range(degree - 1, -1, -1):
                y = y * x + coefficients[k]
            value[i] = y
            if code[i] == _GOOD:
                good += 1
                s0 += x
                s1 += y
                s2 += y * y
                s3 += y * y * y
            elif code[i] == _SPIKE:
                spikes += 1
                sk += y
        out[c, COUNT], out[c, RAW], out[c, FIRST], out[c, SECOND] = good, s0, s1, s2
        out[c, THIRD], out[c, SPIKES], out[c, SPIKE_SUM], out[c, ALL] = s3, spikes, sk, high - low


@njit(cache=True, nogil=True)
def _harmonics(bins: Floats, cosine: Floats, sine: Floats, out: Complexes) -> None:
    """Harmonics of the two columns of `bins`, empty ones passed over; few orders need no fast transform."""
    m = cosine.shape[1]
    parts = np.zeros((4, m))
    for b in range(BINS):
        ones, torque = bins[b, 0], bins[b, 1]
        if ones > 0.0:
            for k in range(m):
                parts[0, k] += ones * cosine[b, k]
                parts[1, k] += ones * sine[b, k]
                parts[2, k] += torque * cosine[b, k]
                parts[3, k] += torque * sine[b, k]
    for k in range(m):
        out[0, k] = complex(parts[0, k], -parts[1, k])
        out[1, k] = complex(parts[2, k], -parts[3, k])


@njit(cache=True, nogil=True)
def shaft_sums(
    torque: Floats,
    torque_code: Codes,
    speed: Floats,
    speed_code: Codes,
    rate: float,
    angle: float,
    held: float,
    cells: int,
    cosine: Floats,
    sine: Floats,
    product: Floats,
    orders: Complexes,
) -> tuple[float, float]:
    """Sums over the shaft, torque and rotor speed at the same instants.

    `product`, shape (cells, 2), gets the count and sum of torque x rotor speed; `orders`, shape (cells, 2, m), the
    harmonics of readings and torque by the rotor's angle over two turns, of which `cosine` and `sine`, shape
    (BINS, m), are those of each bin. The angle is the integral of the rotor speed; where that is flagged the last
    good value goes on. Each reading is shared by the two bins that its angle lies between: told in the nearer bin
    alone, slow swings of the torque come back at an order of k half-turns with k / BINS of their size wherever the
    sampling meets the bins; so it is the square of that. Returns the angle and the held speed for the next block.
    """
    n = torque.size
    scale = BINS / _TWO_TURNS
    bins = np.empty((BINS, 2))
    for c in range(cells):
        bins[:] = 0.0
        count = 0
        total = 0.0
        for i in range(_edge(c, n, cells), _edge(c + 1, n, cells)):
            speed_good = speed_code[i] == _GOOD
            if speed_good:
                held = speed[i]
            angle += held / rate
            if angle >= _TWO_TURNS or angle < 0.0:
                angle -= _TWO_TURNS * np.floor(angle / _TWO_TURNS)
            if torque_code[i] == _GOOD:
                place = angle * scale
                b = min(int(place), BINS - 1)
                part, after = place - b, (b + 1) % BINS
                bins[b, 0] += 1.0 - part
                bins[b, 1] += (1.0 - part) * torque[i]
                bins[after, 0] += part
                bins[after, 1] += part * torque[i]
                if speed_good:
                    count += 1
                    total += torque[i] * held
        product[c, 0] = count
        product[c, 1] = total
        _harmonics(bins, cosine, sine, orders[c])
    return angle, held
