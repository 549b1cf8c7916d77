"""How the torque answers the stream speed at held rotor speed, from the model's own readings."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError

MARGIN = 0.15
"""Added to either side for the curve's bend and the readings' scatter; 0.5 % of scatter between readings 30 % of TSR
apart makes 0.03. Own choice."""


def torque_exponent(tip_speed_ratio: ArrayLike, torque_coefficient: ArrayLike, at: float) -> tuple[float, float]:
    """Range of n in torque ~ U^n at held rotor speed and one load: n = 2 - dlnCQ/dlnTSR.

    Torque is CQ(TSR) times U^2 and TSR falls as 1/U. CQ is taken as linear in TSR through the readings, by least
    squares; for a slow rotor with many blades it nearly is.

    Parameters
    ----------
    tip_speed_ratio, torque_coefficient : array_like, shape (n,)
        At least two readings at different loads, spread over 5 % of TSR or more [-].
    at : float
        The load, as tip-speed ratio, at most 10 % of the readings' range beyond them [-].

    Returns
    -------
    tuple of float
        Lowest and highest exponent, 0.15 either side [-].

    Raises
    ------
    InputError
        Too few readings, too close together, too far from `at`, or no torque there.
    """
    x, y = np.asarray(tip_speed_ratio, np.float64), np.asarray(torque_coefficient, np.float64)
    if x.ndim != 1 or x.shape != y.shape or x.size < 2 or not (np.isfinite(x).all() and np.isfinite(y).all()):
        raise InputError("an exponent wants at least two finite pairs of tip-speed ratio and torque coefficient")
    low, high = float(x.min()), float(x.max())
    if low <= 0.0 or high < 1.05 * low:
        raise InputError(
            f"readings at tip-speed ratios {low:g} to {high:g} lie too close together; wanted 5 % or more"
        )
    reach = 0.1 * (high - low)
    if not low - reach <= at <= high + reach:
        raise InputError(f"tip-speed ratio {at:g} is too far from the readings at {low:g} to {high:g}")
    place = x - x.mean()
    slope = float(place @ y) / float(place @ place)
    value = float(y.mean()) + slope * (at - float(x.mean()))
    if value <= 0.0:
        raise InputError(f"the readings give no torque at tip-speed ratio {at:g}; choose a load that works")
    exponent = 2.0 - slope * at / value
    return max(exponent - MARGIN, 0.0), exponent + MARGIN
