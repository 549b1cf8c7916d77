"""From raw logger units to SI: a polynomial with the covariance of its coefficients."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Calibration:
    """SI value = sum of coefficients[k] raw^k, and what is known about the coefficients.

    Attributes
    ----------
    coefficients : ndarray, shape (p,)
        Ascending powers of the raw reading [SI unit of the channel per raw unit^k].
    covariance : ndarray, shape (p, p)
        Covariance of the coefficients, zero where they are taken as exact [products of those units].
    raw_low, raw_high : float
        Range of raw readings that the calibration covered [raw unit].
    reference : float
        Standard uncertainty of the reference standard, relative, shared by every point [-].
    degrees_of_freedom : float
        Of the covariance; infinity when it was not estimated from scatter [-].
    """

    coefficients: Floats
    covariance: Floats
    raw_low: float = -math.inf
    raw_high: float = math.inf
    reference: float = 0.0
    degrees_of_freedom: float = math.inf

    def __post_init__(self) -> None:
        """Refuse shapes that do not fit and numbers that are not finite."""
        size = self.coefficients.size
        if self.coefficients.shape != (size,) or size == 0 or self.covariance.shape != (size, size):
            raise InputError("a calibration wants p coefficients in a row and their p x p covariance")
        if not (np.isfinite(self.coefficients).all() and np.isfinite(self.covariance).all()):
            raise InputError("a calibration's coefficients and covariance must be finite numbers")
        if not (math.isfinite(self.reference) and self.reference >= 0.0):
            raise InputError(
                f"relative uncertainty of the reference is {self.reference!r}; wanted 0 or more, e.g. 0.002"
            )

    def value(self, raw: ArrayLike) -> Floats:
        """SI values at raw readings."""
        x = np.asarray(raw, np.float64)
        y = np.full(x.shape, self.coefficients[-1])
        for c in self.coefficients[-2::-1]:
            y = y * x + c
        return y

    def fit_uncertainty(self, raw: float, raw_zero: float | None = None) -> float:
        """Standard uncertainty of the value at `raw` from the coefficients alone [SI unit of the channel].

        With `raw_zero`, that of the difference of the values at `raw` and at the zero: the constant cancels.
        """
        zero = None if raw_zero is None else np.array([raw_zero])
        return float(self.fit_uncertainties(np.array([raw]), zero)[0])

    def fit_uncertainties(self, raw: Floats, raw_zero: Floats | None = None) -> Floats:
        """`fit_uncertainty` at some readings, shape (n,)."""
        powers = np.arange(self.coefficients.size)
        slope = np.asarray(raw, np.float64)[:, None] ** powers
        if raw_zero is not None:
            slope = slope - np.asarray(raw_zero, np.float64)[:, None] ** powers
        square = np.einsum("ni,ij,nj->n", slope, self.covariance, slope)
        return np.asarray(np.sqrt(np.maximum(square, 0.0)))


def exact(*coefficients: float) -> Calibration:
    """A calibration taken as exact: ascending powers of the raw reading."""
    return Calibration(np.array(coefficients, float), np.zeros((len(coefficients), len(coefficients))))


def fit_calibration(raw: ArrayLike, value: ArrayLike, degree: int, *, reference: float = 0.0) -> Calibration:
    """Least-squares polynomial through calibration points.

    Parameters
    ----------
    raw, value : array_like, shape (n,)
        Logger readings [raw unit] and the reference values applied [SI unit].
    degree : int
        Of the polynomial, at least 1; more points than coefficients are needed.
    reference : float
        Relative standard uncertainty of the reference standard, carried beside the fit [-].

    Returns
    -------
    Calibration
        The covariance comes from the scatter about the fit, n - degree - 1 degrees of freedom.

    Raises
    ------
    InputError
        Too few points, unequal lengths, numbers not finite, or readings that do not fix the polynomial.
    """
    x, y = np.asarray(raw, np.float64), np.asarray(value, np.float64)
    if x.ndim != 1 or x.shape != y.shape or not (np.isfinite(x).all() and np.isfinite(y).all()):
        raise InputError("calibration points want as many finite raw readings as reference values, in a row each")
    free = x.size - degree - 1
    if degree < 1 or free < 1:
        raise InputError(f"{x.size} calibration points cannot fix a polynomial of degree {degree} and its scatter")
    middle, half = 0.5 * (x.max() + x.min()), 0.5 * (x.max() - x.min())
    if half == 0.0:
        raise InputError("all calibration points have the same raw reading; they must span the working range")
    design = np.vander((x - middle) / half, degree + 1, increasing=True)
    scaled, _, rank, _ = np.linalg.lstsq(design, y, rcond=None)
    if rank <= degree:
        raise InputError(f"the calibration points have too few distinct readings for degree {degree}")
    spread = float(((y - design @ scaled) ** 2).sum()) / free
    cov = spread * np.linalg.inv(design.T @ design)
    back = _unscale(degree, middle, half)
    return Calibration(back @ scaled, back @ cov @ back.T, float(x.min()), float(x.max()), reference, float(free))


def _unscale(degree: int, middle: float, half: float) -> Floats:
    """Matrix from coefficients in (x - middle)/half to coefficients in x."""
    matrix = np.zeros((degree + 1, degree + 1))
    for k in range(degree + 1):
        for j in range(k + 1):
            matrix[j, k] = math.comb(k, j) * (-middle) ** (k - j) / half**k
    return matrix
