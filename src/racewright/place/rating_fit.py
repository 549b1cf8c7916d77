"""A rating fitted to gaugings: coefficient, zero level and exponent with their covariance."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError, NoAnswerError
from racewright.place.guard import finite_array, within
from racewright.place.rating import Rating
from racewright.place.rating_remarks import fit_remarks, outliers
from racewright.place.result import Floats
from racewright.remark import Remark

_NEAREST, _FARTHEST = 1e-4, 1e2
"""Search for the zero level, below the lowest gauging by these parts of the gauged range [-]."""


@dataclass(frozen=True)
class RatingFit:
    """A rating with what its gaugings say about it.

    Attributes
    ----------
    rating : Rating
    zero_level_given : bool
        True when the caller stated the zero level; its variance is then 0 and the band does not hold it.
    covariance : ndarray, shape (3, 3)
        Of (ln coefficient, zero level, exponent): diagonal [-], [m2], [-]; the rest [-] and [m].
    coefficient_error, zero_level_error, exponent_error : float
        Standard errors: of the coefficient relative to it [-], of the zero level [m], of the exponent [-].
    standard_error : float
        Of the fit: root of the sum of squared log residuals over `degrees`, about a relative figure [-].
    degrees : int
        Degrees of freedom: gaugings less fitted numbers [-].
    level, discharge : ndarray, shape (n,)
        The gaugings, in the order given [m], [m3/s].
    residual : ndarray, shape (n,)
        ln(gauged discharge / rating) [-].
    leverage : ndarray, shape (n,)
        Of each gauging on its own fitted value, 0 to 1 [-].
    outlier : ndarray of bool, shape (n,)
        Flagged, never removed.
    remarks : tuple of Remark
    """

    rating: Rating
    zero_level_given: bool
    covariance: Floats
    coefficient_error: float
    zero_level_error: float
    exponent_error: float
    standard_error: float
    degrees: int
    level: Floats
    discharge: Floats
    residual: Floats
    leverage: Floats
    outlier: NDArray[np.bool_]
    remarks: tuple[Remark, ...]


def rating(
    level: ArrayLike,
    discharge: ArrayLike,
    *,
    zero_level: float | None = None,
    time: ArrayLike | None = None,
) -> RatingFit:
    """Fit discharge = C (level - zero level)^b to gaugings, least squares on ln(discharge).

    Every gauging counts the same, so that relative errors of equal size are taken at all levels.

    Parameters
    ----------
    level : array_like, shape (n,)
        Gauged levels above the transect's datum [m].
    discharge : array_like, shape (n,)
        Gauged discharges, > 0 [m3/s].
    zero_level : float, optional
        Below every gauged level [m]; without it the zero level is fitted as well.
    time : array_like, shape (n,), optional
        Seconds since 1970-01-01 UTC of each gauging; with it a shift between an earlier and a later part is
        looked for.

    Returns
    -------
    RatingFit

    Raises
    ------
    InputError
        NaN, infinity, unequal lengths, a discharge not above zero, a zero level above a gauged level, fewer
        than 3 levels (5 when the zero level is fitted).
    NoAnswerError
        When the gaugings do not fix the zero level, or the fitted numbers leave the limits of `Rating`.

    Notes
    -----
    The zero level is where the sum of residual / (level - zero level) vanishes with C and b the best for it
    (the normal equation of the zero level). Covariance is s^2 (J^T J)^-1 with J the derivatives of ln
    discharge: 1, -b / (level - zero level), ln(level - zero level).
    """
    h, q = finite_array("the gaugings' levels", level), finite_array("the gaugings' discharges", discharge)
    if h.size != q.size:
        raise InputError(f"there are {h.size} gauged levels but {q.size} gauged discharges")
    if (q <= 0.0).any():
        raise InputError("a gauged discharge is not above 0 m3/s; leave out gaugings of a still river")
    wanted = 3 if zero_level is not None else 5
    if np.unique(h).size < wanted:
        raise InputError(f"{np.unique(h).size} different gauged levels; at least {wanted} are needed for this rating")
    when = None if time is None else finite_array("the gaugings' times", time)
    if when is not None and when.size != h.size:
        raise InputError(f"there are {h.size} gaugings but {when.size} times")
    y = np.log(q)
    if zero_level is None:
        zero = _zero_level(h, y)
    else:
        zero = within("the rating's zero level", zero_level, -1e4, 1e4, "m")
        if zero >= h.min():
            raise InputError(f"the zero level {zero:g} m lies above the lowest gauged level {h.min():g} m")
    a, b, residual = _line(h, y, zero)
    try:
        found = Rating(float(np.exp(a)), zero, b)
    except InputError as fault:
        raise NoAnswerError(f"no power law fits the gaugings: {fault.message}; check levels and datum") from None
    jacobian = derivatives(found, h, zero_level is None)
    inverse = np.linalg.inv(jacobian.T @ jacobian)
    degrees = h.size - jacobian.shape[1]
    error = float(np.sqrt(residual @ residual / degrees))
    covariance = np.zeros((3, 3))
    used = [0, 1, 2] if zero_level is None else [0, 2]
    covariance[np.ix_(used, used)] = error**2 * inverse
    own = np.sqrt(np.diag(covariance))
    leverage: Floats = np.einsum("ij,jk,ik->i", jacobian, inverse, jacobian)
    flagged = outliers(residual, leverage, error, degrees)
    return RatingFit(
        rating=found,
        zero_level_given=zero_level is not None,
        covariance=covariance,
        coefficient_error=float(own[0]),
        zero_level_error=float(own[1]),
        exponent_error=float(own[2]),
        standard_error=error,
        degrees=degrees,
        level=h,
        discharge=q,
        residual=residual,
        leverage=leverage,
        outlier=flagged,
        remarks=tuple(fit_remarks(h, residual, flagged, error, when)),
    )


def derivatives(found: Rating, level: Floats, zero_fitted: bool) -> Floats:
    """Derivatives of ln discharge by ln coefficient, zero level (when fitted) and exponent, one row per level."""
    head = level - found.zero_level
    columns = [np.ones_like(head), -found.exponent / head, np.log(head)]
    return np.column_stack(columns if zero_fitted else [columns[0], columns[2]])


def _line(level: Floats, y: Floats, zero: float) -> tuple[float, float, Floats]:
    """Intercept, slope and residuals of ln discharge on ln head."""
    x = np.log(level - zero)
    slope = float((x - x.mean()) @ (y - y.mean()) / ((x - x.mean()) @ (x - x.mean())))
    intercept = float(y.mean() - slope * x.mean())
    return intercept, slope, y - intercept - slope * x


def _zero_level(level: Floats, y: Floats) -> float:
    """The zero level with the least sum of squares below the lowest gauging."""
    lowest, reach = float(level.min()), float(np.ptp(level))
    below = lowest - reach * np.geomspace(_NEAREST, _FARTHEST, 121)
    squares = np.array([float(np.sum(_line(level, y, z)[2] ** 2)) for z in below])
    best = int(np.argmin(squares))
    if best in (0, below.size - 1):
        side = "just under the lowest gauging" if best == 0 else "far below the bed"
        raise NoAnswerError(
            f"the gaugings do not fix the zero level (the best fit puts it {side}); state a zero level, "
            "read off as the level at which the river stands still"
        )

    def slope(zero: float) -> float:
        return float(np.sum(_line(level, y, zero)[2] / (level - zero)))

    low, high = float(below[best + 1]), float(below[best - 1])
    rising = slope(high) > 0.0
    while low < (middle := 0.5 * (low + high)) < high:
        low, high = (low, middle) if (slope(middle) > 0.0) == rising else (middle, high)
    return middle
