"""Standard error of the mean of a series whose values remember each other."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numba import njit
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]
MOST_ORDER = 4
"""Highest order tried of the autoregression. Own choice."""
FEWEST = 12
"""A series shorter than this gives no standard error. Own choice."""


@dataclass(frozen=True)
class SeriesError:
    """The mean of a series and how well it is known.

    Attributes
    ----------
    mean : float
        [unit of the series]
    standard_error : float
        Of the mean, memory counted [unit of the series].
    effective_count : float
        Independent values that would give the same standard error [-].
    degrees_of_freedom : float
        Of the standard error itself [-].
    order : int
        Of the autoregression that was chosen [-].
    """

    mean: float
    standard_error: float
    effective_count: float
    degrees_of_freedom: float
    order: int


def series_error(values: ArrayLike) -> SeriesError:
    """Mean of an evenly spaced series with its standard error under autocorrelation.

    An autoregression of order 0 to 4, chosen by the corrected Akaike criterion, is fitted by least squares;
    the variance of the mean is that of its innovations over n (1 - phi)^2, phi the sum of coefficients: the
    spectrum at frequency zero. phi comes out low by about (1 + 3 phi)/n, its scatter raises 1/(1 - phi)^2 by
    about as much: the two are left to cancel (within 2 % of the exact root mean square for phi up to 0.6 at
    n = 120). Degrees of freedom follow from the variance of the estimate: n / (1 + 2 (1 + phi)/(1 - phi)).

    Parameters
    ----------
    values : array_like, shape (n,)
        Evenly spaced, at least 12.

    Returns
    -------
    SeriesError

    Raises
    ------
    InputError
        Too few values, or values that are not finite.
    """
    x = np.asarray(values, np.float64)
    if x.ndim != 1 or x.size < FEWEST or not np.isfinite(x).all():
        raise InputError(
            f"a standard error wants a row of at least {FEWEST} finite values; shape {x.shape} was given"
        )
    n = x.size
    mean, plain, y = _moments(x)
    if plain <= (1e-13 * abs(mean)) ** 2:
        return SeriesError(mean, 0.0, float(n), float(n - 1), 0)
    phi, innovation, order = _fit(y)
    phi = min(phi, 0.98)
    variance = innovation / (n * (1.0 - phi) ** 2)
    freedom = float(n - 1) if not order else max(n / (1.0 + 2.0 * (1.0 + phi) / (1.0 - phi)), 2.0)
    return SeriesError(mean, math.sqrt(variance), plain / variance, freedom, order)


@njit(cache=True)
def _moments(x: Floats) -> tuple[float, float, Floats]:
    """Mean, variance over n - 1, and the values less their mean."""
    mean = x.mean()
    y = x - mean
    return mean, (y * y).sum() / (x.size - 1), y


@njit(cache=True)
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
