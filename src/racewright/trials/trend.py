"""A fall of the torque that begins some time: least squares with flow and rotor speed taken out."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.trials.series_error import FEWEST, series_error

Floats = NDArray[np.float64]
ONSETS = np.linspace(0.0, 0.8, 9)
"""Tried times of the beginning, over the time looked at. Own choice."""

SMOOTH = 13
"""Rows in the running mean of the speed, 130 s of 10 s means. Own choice."""


@dataclass(frozen=True)
class Fit:
    """One fit of ln(torque) = constant + flow and rotor terms - fall + steps.

    Attributes
    ----------
    onset : float
        When the fall begins [s].
    fall, fall_error : float
        Fall of ln(torque) at the end of the fouled stretch, and its standard error, memory counted [-].
    after, after_error : float
        Fall that is left after the cleaning; 0 where nothing was cleaned [-].
    covariance : float
        Of fall and after [-].
    squares : float
        Sum of squared residuals [-].
    effective : float
        Independent rows among them [-].
    """

    onset: float
    fall: float
    fall_error: float
    after: float
    after_error: float
    covariance: float
    squares: float
    effective: float


def fits(time: Floats, speed: Floats, rotor: Floats, torque: Floats, cleaned: float = math.inf) -> list[Fit]:
    """A fit for each tried onset; all times in s, `cleaned` the time of cleaning.

    The fall grows in a straight line from the onset to the end of the fouled stretch. The exponents of speed
    and rotor speed are fitted along with it, so the machine's curve need not be known. The speed enters twice,
    as its running mean over 13 rows and as the rest: a probe does not see quite the machine's flow, which pulls
    a fitted exponent towards 0, and a drift of the flow would then be taken for a fall; the running mean has
    lost that noise. Standard errors are those of least squares times the root of the residuals' variance
    inflation by memory.
    """
    log_torque = np.log(torque)
    before = time < cleaned
    first, last = float(time[0]), float(time[before][-1])
    slow = _smooth(np.log(speed))
    regressors = (slow, np.log(speed) - slow, np.log(rotor))
    columns = [np.ones(time.size), *(x - x.mean() for x in regressors if x.std() > 1e-9)]
    if not before.all():
        columns.append(np.where(before, 0.0, -1.0))
    out = []
    for share in ONSETS:
        onset = first + share * (last - first)
        hinge = np.where(before, -np.maximum(time - onset, 0.0) / (last - onset), 0.0)
        design = np.column_stack([hinge, *columns])
        gain = np.linalg.pinv(design)
        answer = gain @ log_torque
        rest = log_torque - design @ answer
        free = max(time.size - design.shape[1], 1)
        squares = float(rest @ rest)
        effective = min(series_error(rest).effective_count, float(time.size))
        covariance = (gain @ gain.T) * squares / free * (time.size / effective)
        fall, error = float(answer[0]), math.sqrt(covariance[0, 0])
        if before.all():
            out.append(Fit(onset, fall, error, 0.0, 0.0, 0.0, squares, effective))
        else:
            after, own = float(answer[-1]), math.sqrt(covariance[-1, -1])
            out.append(Fit(onset, fall, error, after, own, float(covariance[0, -1]), squares, effective))
    return out


def enough(count: int) -> bool:
    """Whether so many rows bear a trend."""
    return count >= 2 * FEWEST


def _smooth(x: Floats) -> Floats:
    """Running mean over `SMOOTH` rows, fewer towards the ends."""
    total = np.concatenate(([0.0], np.cumsum(x)))
    place = np.arange(x.size)
    half = np.minimum(SMOOTH // 2, np.minimum(place, x.size - 1 - place))
    return np.asarray((total[place + half + 1] - total[place - half]) / (2 * half + 1))
