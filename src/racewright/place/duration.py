"""The duration curve: ranked values with the share of time each is reached or passed."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.place.guard import finite_array
from racewright.place.result import DurationCurve, Floats


def duration_curve(values: ArrayLike, weights: ArrayLike | None = None) -> DurationCurve:
    """Rank values from high to low with plotting position m/(N+1).

    Parameters
    ----------
    values : array_like, shape (n,)
        Discharge [m3/s], speed [m/s] or anything else ranked; finite.
    weights : array_like, shape (n,), optional
        Time that each value stands for, > 0, any unit. A value of weight w_m, with W the weights up to and
        with its own and W_all, w_mean the sum and the mean of all, gets (W - w_m/2 + w_mean/2) / (W_all +
        w_mean); with equal weights this is m/(N+1).

    Returns
    -------
    DurationCurve

    Raises
    ------
    InputError
        Empty input, NaN or infinity, weights of another length or not above zero.

    Notes
    -----
    m/(N+1) is the Weibull plotting position, the usual one for flow-duration curves.
    """
    value = finite_array("the record", values)
    weight = np.ones_like(value) if weights is None else finite_array("the weights", weights)
    if weight.shape != value.shape or (weight <= 0.0).any():
        raise InputError("the weights must be as many as the values, each above zero")
    order = np.argsort(-value, kind="stable")
    ranked = weight[order]
    mean = weight.mean()
    passed = np.cumsum(ranked) - 0.5 * ranked + 0.5 * mean
    exceedance: Floats = passed / (weight.sum() + mean)
    return DurationCurve(value=value[order], exceedance=exceedance)


def thinned(curve: DurationCurve, most: int = 5001) -> DurationCurve:
    """The curve with at most `most` ranks, evenly taken, both ends kept; for drawing and keeping."""
    if curve.value.size <= most:
        return curve
    taken = np.round(np.linspace(0, curve.value.size - 1, most)).astype(np.int64)
    return DurationCurve(value=curve.value[taken], exceedance=curve.exceedance[taken])


def quantile(curve: DurationCurve, exceedance: float) -> float:
    """Value reached or passed during the fraction `exceedance` of the time, linear between ranks.

    Nothing is extrapolated: beyond the highest and the lowest rank the record is silent, and the call is
    refused.

    Parameters
    ----------
    curve : DurationCurve
    exceedance : float
        Between the curve's first and last exceedance, e.g. 0.95 for low water [-].

    Raises
    ------
    InputError
        When `exceedance` lies outside the record's own range, 1/(N+1) to N/(N+1) for equal weights.
    """
    low, high = float(curve.exceedance[0]), float(curve.exceedance[-1])
    slack = 1e-12
    if not low - slack <= exceedance <= high + slack:
        raise InputError(
            f"a record of {curve.value.size} values covers exceedances from {low:.4g} to {high:.4g}, not "
            f"{exceedance:.4g}; a longer record is wanted"
        )
    return float(np.interp(exceedance, curve.exceedance, curve.value))
