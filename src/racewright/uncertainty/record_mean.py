"""The standard error of a mean of readings that follow each other."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.remark import Remark

Floats = NDArray[np.float64]

WINDOW_FACTOR = 5.0
"""The sum of correlations ends where the lag reaches this many integrated times (Sokal 1989; from memory)."""
BATCHES = 32
"""Batches of the second estimate; 20 to 40 are usual (common practice, no source)."""
LEAST_TIMES = 50.0
"""Integrated times that a record should span for its error to be trusted. Common practice, no source."""
LEAST_READINGS = 8
DRIFT = 4.0
"""Standard uncertainties between the means of the halves from which a record is said to drift. Own choice."""
LEAST_TIME = 0.2
"""Readings that err in turn are credited with no less than this integrated time. Own choice."""


@dataclass(frozen=True)
class SeriesMean:
    """Mean of a record and its standard uncertainty by two routes.

    Attributes
    ----------
    mean : float
        Of all readings [SI unit of the quantity].
    standard_uncertainty : float
        Of the mean, by the integrated autocorrelation time [SI unit of the quantity].
    dof : float
        Degrees of freedom of it, about n / (2 window + 1) [-].
    integrated_time : float
        Readings that count as one independent reading: 1 + 2 sum of the autocorrelations to the window; below 1
        where neighbours err in turn [-].
    effective_count : float
        Independent readings, n / integrated time [-].
    window : int
        Lag at which the sum ends, in readings [-].
    batch_standard_uncertainty : float
        The same uncertainty from the scatter of batch means [SI unit of the quantity].
    batches : int
        How many [-].
    count : int
        Readings, n [-].
    remarks : tuple of Remark
        Short or drifting records.
    """

    mean: float
    standard_uncertainty: float
    dof: float
    integrated_time: float
    effective_count: float
    window: int
    batch_standard_uncertainty: float
    batches: int
    count: int
    remarks: tuple[Remark, ...]


def series_mean(values: ArrayLike) -> SeriesMean:
    """Mean of evenly spaced readings with an uncertainty that respects their correlation in time.

    u^2 = s^2 tau / (n - tau), s^2 the plain mean square deviation, tau = 1 + 2 sum rho(k) over lags k up to
    the first window with window >= 5 tau and 5 (Priestley 1981; Sokal's window, from memory). Its degrees of freedom
    follow from Var(tau)/tau^2 = 2 (2 window + 1)/n.

    Parameters
    ----------
    values : array_like, shape (n,)
        Finite readings at even intervals, n >= 8 [SI unit of the quantity].
    """
    readings = np.array(values, dtype=np.float64)
    if readings.ndim != 1 or readings.size < LEAST_READINGS or not np.all(np.isfinite(readings)):
        raise InputError(f"a record must be a row of finite readings, {LEAST_READINGS} or more", key="values")
    n = readings.size
    mean = float(np.mean(readings))
    offs = readings - mean
    square = float(np.mean(offs**2))
    if square == 0.0:
        return SeriesMean(mean, 0.0, math.inf, 1.0, float(n), 0, 0.0, min(BATCHES, n), n, (_still(),))
    tau, window = _integrated_time(offs)
    tau = max(tau, LEAST_TIME)
    u = math.sqrt(square * tau / max(n - tau, 1.0))
    count = min(BATCHES, n // 2)
    length = n // count
    means = readings[: count * length].reshape(count, length).mean(axis=1)
    batch = float(np.std(means, ddof=1)) / math.sqrt(count)
    return SeriesMean(
        mean, u, n / (2.0 * window + 1.0), tau, n / tau, window, batch, count, n, _remarks(readings, tau)
    )


def _integrated_time(offs: Floats) -> tuple[float, int]:
    n = offs.size
    padded = np.fft.rfft(offs, 2 ** math.ceil(math.log2(2 * n)))
    covariance = np.fft.irfft(np.abs(padded) ** 2)[:n]
    sums = 1.0 + 2.0 * np.concatenate([[0.0], np.cumsum(covariance[1:] / covariance[0])])
    enough = np.arange(n) >= WINDOW_FACTOR * np.maximum(sums, 1.0)
    window = int(np.argmax(enough)) if enough.any() else n - 1
    return float(sums[window]), window


def _still() -> Remark:
    return Remark(
        "caution", "Every reading is the same: a stuck channel, or too coarse a step, hides scatter.", "record"
    )


def _remarks(readings: Floats, tau: float) -> tuple[Remark, ...]:
    said = []
    n = readings.size
    if n < LEAST_TIMES * tau:
        said.append(
            Remark(
                "caution",
                f"The record spans {n / tau:.0f} independent readings; below {LEAST_TIMES:.0f} its uncertainty "
                "is itself uncertain and mostly too small. A longer run is the cure.",
                "record",
            )
        )
    half = n // 2
    first, last = readings[:half], readings[n - half :]
    step = abs(float(np.mean(first)) - float(np.mean(last)))
    within = np.concatenate([first - np.mean(first), last - np.mean(last)])
    own, _ = _integrated_time(within) if np.any(within) else (1.0, 0)
    expected = 2.0 * math.sqrt(float(np.mean(within**2)) * max(own, LEAST_TIME) / n)
    if step > DRIFT * expected:
        said.append(
            Remark(
                "warning",
                f"The means of the two halves differ by {step:.3g}, where their own scatter would let "
                f"{expected:.3g} pass: the record drifts, and no mean of it is steady.",
                "drift",
            )
        )
    return tuple(said)
