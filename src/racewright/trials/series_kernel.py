"""Compiled statistics of short series of cell means: standard error under memory, steadiness, what two series share.

All of them stand on one standard error, so they share this file: a compiled caller does not see a change elsewhere.
"""

from __future__ import annotations

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
MOST_ORDER = 4
"""Highest order tried of the autoregression. Own choice."""
CELLS, MEAN, CHANGE, ERROR, SPREAD, FIRST_HALF, SECOND_HALF = range(7)
"""Columns of `steady_facts`: cells with a reading, their mean, change along the window, standard error of that
change, standard deviation, variances of the two halves about mean and drift."""
FACTS = 7
_COUNT, _FIRST = 0, 2
_MOST_PHI = 0.98


@njit(cache=True, nogil=True)
def _fit(y: Floats) -> tuple[float, float, int]:
    """Sum of coefficients, innovation variance and order of the chosen autoregression.

    The normal equations of each order by the rows of one Cholesky factor; an order whose pivot is lost in rounding
    adds nothing to those below it and ends the search.
    """
    n = y.size
    most = min(MOST_ORDER, n // 6)
    m = n - most
    power = 0.0
    for i in range(most, n):
        power += y[i] * y[i]
    best_score, best_total, best_spread, best_order = np.inf, 0.0, 0.0, 0
    for i in range(n):
        best_spread += y[i] * y[i]
    best_spread /= n - 1
    if power > 0.0:
        best_score = m * np.log(power / m) + 2.0 * m / (m - 2)
    factor = np.zeros((MOST_ORDER, MOST_ORDER))
    half = np.zeros(MOST_ORDER)
    a = np.zeros(MOST_ORDER)
    rest = power
    for k in range(most):
        for j in range(k + 1):
            total = 0.0
            for i in range(most, n):
                total += y[i - 1 - k] * y[i - 1 - j]
            for q in range(j):
                total -= factor[k, q] * factor[j, q]
            if j < k:
                factor[k, j] = total / factor[j, j]
            elif total <= 1e-12 * power:
                return best_total, best_spread, best_order
            else:
                factor[k, k] = np.sqrt(total)
        cross = 0.0
        for i in range(most, n):
            cross += y[i - 1 - k] * y[i]
        for q in range(k):
            cross -= factor[k, q] * half[q]
        half[k] = cross / factor[k, k]
        rest -= half[k] * half[k]
        order = k + 1
        if rest <= 0.0:
            continue
        total = 0.0
        for j in range(k, -1, -1):
            value = half[j]
            for q in range(j + 1, order):
                value -= factor[q, j] * a[q]
            a[j] = value / factor[j, j]
            total += a[j]
        score = m * np.log(rest / m) + 2.0 * (order + 1) * m / (m - order - 2)
        if score < best_score:
            best_score, best_total, best_spread, best_order = score, total, rest / (m - order - 1), order
    return best_total, best_spread, best_order


@njit(cache=True, nogil=True)
def error_of(x: Floats) -> tuple[float, float, float, float, int]:
    """Mean, standard error, effective count, degrees of freedom and order, as `series_error` says."""
    n = x.size
    mean = x.mean()
    y = x - mean
    plain = (y * y).sum() / (n - 1)
    if plain <= (1e-13 * abs(mean)) ** 2:
        return mean, 0.0, float(n), float(n - 1), 0
    phi, innovation, order = _fit(y)
    phi = min(phi, _MOST_PHI)
    variance = innovation / (n * (1.0 - phi) ** 2)
    freedom = float(n - 1)
    if order:
        freedom = max(n / (1.0 + 2.0 * (1.0 + phi) / (1.0 - phi)), 2.0)
    return mean, np.sqrt(variance), plain / variance, freedom, order


@njit(cache=True, nogil=True)
def correlation_of(series: Floats) -> Floats:
    """Correlation of batch means of the rows, shape (series, n); a constant row is uncorrelated with all."""
    rows, n = series.shape
    batches = min(20, n // 5)
    long = n // batches
    unit = np.zeros((rows, batches))
    for r in range(rows):
        largest = 0.0
        for b in range(batches):
            total = 0.0
            for i in range(b * long, (b + 1) * long):
                total += series[r, i]
            unit[r, b] = total / long
            largest = max(largest, abs(unit[r, b]))
        mean = unit[r].mean()
        size = 0.0
        for b in range(batches):
            unit[r, b] -= mean
            size += unit[r, b] ** 2
        size = np.sqrt(size)
        for b in range(batches):
            unit[r, b] = unit[r, b] / size if size > 1e-12 * largest else 0.0
    out = np.eye(rows)
    for r in range(rows):
        for q in range(r):
            total = 0.0
            for b in range(batches):
                total += unit[r, b] * unit[q, b]
            out[r, q] = out[q, r] = total
    return out


@njit(cache=True, nogil=True)
def _halves(rest: Floats) -> tuple[float, float]:
    """Variance of either half about its own mean."""
    middle = rest.size // 2
    return rest[:middle].var(), rest[middle:].var()


@njit(cache=True, nogil=True)
def steady_facts(sums: Floats, places: Ints, fewest: int) -> Floats:
    """What steadiness is judged by, shape (places, FACTS); below `fewest` cells with a reading count and mean only.

    `sums`, shape (cells, channels, columns), as `cell_sums` names the columns; `places` are channels.
    """
    out = np.zeros((places.size, FACTS))
    cells = sums.shape[0]
    x = np.empty(cells)
    for p in range(places.size):
        k, n = places[p], 0
        for c in range(cells):
            if sums[c, k, _COUNT] > 0.0:
                x[n] = sums[c, k, _FIRST] / sums[c, k, _COUNT]
                n += 1
        out[p, CELLS] = n
        out[p, MEAN] = x[:n].mean() if n else np.nan
        if n < fewest:
            continue
        up = down = square = 0.0
        for i in range(n):
            place = (i - 0.5 * (n - 1)) / n
            up += place * x[i]
            down += place * place
            square += (x[i] - out[p, MEAN]) ** 2
        change = up / down
        rest = np.empty(n)
        for i in range(n):
            rest[i] = x[i] - out[p, MEAN] - change * (i - 0.5 * (n - 1)) / n
        out[p, CHANGE], out[p, SPREAD] = change, np.sqrt(square / (n - 1))
        out[p, ERROR] = np.sqrt(12.0) * error_of(rest)[1]
        out[p, FIRST_HALF], out[p, SECOND_HALF] = _halves(rest)
    return out


@njit(cache=True, nogil=True)
def _relative(x: Floats) -> Floats:
    """Relative deviations from the mean."""
    mean = x.mean()
    return x / mean - 1.0 if mean != 0.0 else np.zeros_like(x)


@njit(cache=True, nogil=True)
def window_errors(series: Floats, torque_zero: float, thrust_zero: float, speed: float) -> tuple[Floats, Floats]:
    """Errors, shape (8, 3), and correlations, shape (2, 4, 4): influences on the coefficients, then the means.

    `series`, shape (5, n), are power, torque, rotor speed, thrust and cube by cell. Each coefficient has one
    series of relative influences by cell, e.g. P/mean - U^3/mean for CP, so that what torque and speed share
    cancels cell by cell. Columns of the errors: standard error, effective count, degrees of freedom.
    """
    n = series.shape[1]
    torque, turning = series[1] - torque_zero, series[2]
    thrust = series[3] - thrust_zero
    cube = _relative(series[4])
    rows = np.empty((8, n))
    rows[0] = _relative(series[0] - torque_zero * turning) - cube
    rows[1] = _relative(torque) - 2.0 * cube / 3.0
    rows[2] = _relative(thrust) - 2.0 * cube / 3.0
    rows[3] = _relative(turning) - cube / 3.0
    rows[4] = speed * (1.0 + cube / 3.0)
    rows[5], rows[6], rows[7] = torque, turning, thrust
    errors = np.empty((8, 3))
    for r in range(8):
        _mean, errors[r, 0], errors[r, 1], errors[r, 2], _order = error_of(rows[r])
    shared = np.empty((2, 4, 4))
    shared[0], shared[1] = correlation_of(rows[:4]), correlation_of(rows[4:])
    return errors, shared
