"""The band of a fitted rating at a level: of the mean relation, and of one more gauging."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import stdtrit

from racewright.errors import InputError
from racewright.place.rating import level_at
from racewright.place.rating_fit import RatingFit, derivatives
from racewright.place.result import DurationCurve, Floats


@dataclass(frozen=True)
class RatingBand:
    """The rating at some levels, with 95 % bands.

    Attributes
    ----------
    level : ndarray, shape (n,)
        Above the datum [m].
    discharge : ndarray, shape (n,)
        By the rating [m3/s].
    relative : ndarray, shape (n,)
        Standard error of ln discharge of the mean relation [-].
    low, high : ndarray, shape (n,)
        95 % band of the mean relation: where the rating itself may lie [m3/s].
    single_low, single_high : ndarray, shape (n,)
        95 % band of one further gauging, its own scatter included [m3/s].
    extrapolated : ndarray of bool, shape (n,)
        Outside the gauged levels: the band holds only if the same power law goes on there.
    """

    level: Floats
    discharge: Floats
    relative: Floats
    low: Floats
    high: Floats
    single_low: Floats
    single_high: Floats
    extrapolated: NDArray[np.bool_]


def rating_band(fit: RatingFit, level: ArrayLike) -> RatingBand:
    """95 % bands by Student's t with the fit's degrees of freedom, on ln discharge.

    Parameters
    ----------
    fit : RatingFit
    level : array_like, shape (n,)
        Above the zero level [m].

    Raises
    ------
    InputError
        A level that is not finite, or not above the zero level.
    """
    h = np.atleast_1d(np.asarray(level, dtype=np.float64))
    if h.ndim != 1 or not np.isfinite(h).all() or (h <= fit.rating.zero_level).any():
        raise InputError(f"levels must be finite and above the zero level, {fit.rating.zero_level:g} m")
    jacobian = derivatives(fit.rating, h, True)
    variance = np.einsum("ij,jk,ik->i", jacobian, fit.covariance, jacobian)
    relative: Floats = np.sqrt(np.maximum(variance, 0.0))
    single = np.sqrt(relative**2 + fit.standard_error**2)
    t = float(stdtrit(fit.degrees, 0.975))
    flow = fit.rating.coefficient * (h - fit.rating.zero_level) ** fit.rating.exponent
    return RatingBand(
        level=h,
        discharge=flow,
        relative=relative,
        low=flow * np.exp(-t * relative),
        high=flow * np.exp(t * relative),
        single_low=flow * np.exp(-t * single),
        single_high=flow * np.exp(t * single),
        extrapolated=(h < fit.level.min()) | (h > fit.level.max()),
    )


def rating_error(fit: RatingFit, curve: DurationCurve) -> float:
    """Relative standard error of the rating over a duration curve, for `speed_uncertainty.RiverErrors` [-].

    Root mean square of `RatingBand.relative` over time, each time weighted by its discharge.

    Parameters
    ----------
    fit : RatingFit
    curve : DurationCurve
        Of discharge, some of it above 0 [m3/s].

    Raises
    ------
    InputError
        A curve without flowing water.
    """
    flowing = curve.value > 0.0
    if np.count_nonzero(flowing) < 2:
        raise InputError("the duration curve holds no flowing water")
    flow, time = curve.value[flowing], np.abs(np.gradient(curve.exceedance[flowing]))
    relative = rating_band(fit, level_at(fit.rating, flow)).relative
    return float(np.sqrt(np.average(relative**2, weights=flow * time)))
