"""The uncertainty of the four coefficients: sources, covariance, intervals, over all windows of a record at once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import ndtri, stdtrit

from racewright.errors import InputError
from racewright.trials.result import Measured
from racewright.trials.series_error import FEWEST
from racewright.trials.series_kernel import correlation_of, window_errors
from racewright.trials.window import Window

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
_MANY = 1e6


@dataclass(frozen=True)
class Effects:
    """One source of uncertainty over n windows.

    Attributes
    ----------
    name : str
    kind : {'random', 'systematic'}
    effect : ndarray, shape (n, 4)
        As `Source` says, 0 where the source is absent [-].
    degrees_of_freedom : ndarray, shape (n, 4)
        [-]
    present : ndarray of bool, shape (n,)
    """

    name: str
    kind: str
    effect: Floats
    degrees_of_freedom: Floats
    present: Bools


def systematic(
    name: str, pull: ArrayLike, size: Floats, present: Bools | None = None, degrees_of_freedom: float = math.inf
) -> Effects:
    """A source that does not fall with time.

    Parameters
    ----------
    name : str
    pull : array_like, shape (4,) or (n, 4)
        Signed relative change of CP, CQ, CT and TSR for a relative change of one [-].
    size : ndarray, shape (n,)
        Relative standard uncertainty [-].
    present : ndarray of bool, shape (n,), optional
        Where the source is there at all; everywhere where left out.
    degrees_of_freedom : float
        [-]
    """
    there = np.ones(size.size, np.bool_) if present is None else present
    effect = np.where(there, size, 0.0)[:, None] * np.asarray(pull, np.float64)
    return Effects(name, "systematic", effect, np.full(effect.shape, degrees_of_freedom), there)


@dataclass(frozen=True)
class Scatter:
    """What the scatter of n windows does.

    Attributes
    ----------
    source : Effects
        On the four coefficients.
    correlation : ndarray, shape (n, 4, 4)
        Of those effects [-].
    mean_covariance : ndarray, shape (n, 4, 4)
        Of the means of stream speed, torque, rotor speed and thrust [products of their SI units].
    effective_count : ndarray, shape (n, 4)
        Independent values behind those means [-].
    """

    source: Effects
    correlation: Floats
    mean_covariance: Floats
    effective_count: Floats


def scatter(windows: Sequence[Window], torque_zero: Floats, thrust_zero: Floats, speed: Floats) -> Scatter:
    """Random uncertainty of coefficients and means; correlations are those of up to 20 batch means.

    Raises
    ------
    InputError
        A window in which fewer than 12 cells have all channels, or whose numbers are not finite.
    """
    errors, shared = np.empty((len(windows), 8, 3)), np.empty((len(windows), 2, 4, 4))
    zeros = zip(torque_zero.tolist(), thrust_zero.tolist(), speed.tolist(), strict=True)
    for i, (found, (torque, thrust, stream)) in enumerate(zip(windows, zeros, strict=True)):
        if found.series.shape[1] < FEWEST:
            raise InputError(
                f"a window wants at least {FEWEST} cells with every channel; {found.series.shape[1]} have"
            )
        errors[i], shared[i] = window_errors(found.series, torque, thrust, stream)
    if not np.isfinite(errors).all():
        raise InputError("a window's scatter is not a finite number; its readings are far beyond any sensor's range")
    size = errors[:, 4:, 0]
    source = Effects(
        "scatter of the window", "random", errors[:, :4, 0], errors[:, :4, 2], np.ones(len(windows), np.bool_)
    )
    return Scatter(source, shared[:, 0], shared[:, 1] * size[:, :, None] * size[:, None, :], errors[:, 4:, 1])


def cube_bias(turbulence: Floats, follow: tuple[float, float] | None) -> tuple[Floats, Effects | None]:
    """Correction factors, shape (n, 4), for turbulence that the machine does not follow, and their doubt.

    A probe's cube mean holds 1 + 3 TI^2; the machine follows a share f of it, so that the coefficients stand
    low by (3 - 3f) TI^2 for CP, (2 - 2f) for CQ and (2 - f) for CT, and the tip-speed ratio by (1 - f); f is
    taken as evenly spread over `follow`.
    """
    if follow is None:
        return np.ones((turbulence.size, 4)), None
    low, high = follow
    constant, slope = np.array([3.0, 2.0, 2.0, 1.0]), np.array([3.0, 2.0, 1.0, 1.0])
    square = turbulence**2
    factor = 1.0 + (constant - slope * 0.5 * (low + high)) * square[:, None]
    return factor, systematic("cube mean of the speed", slope * (high - low) / math.sqrt(12.0), square)


def total_covariance(sources: Sequence[Effects], random_correlation: Floats) -> Floats:
    """Relative covariance of the four coefficients from all sources, shape (n, 4, 4)."""
    total = np.zeros_like(random_correlation)
    for source in sources:
        outer = source.effect[:, :, None] * source.effect[:, None, :]
        total += outer * random_correlation if source.kind == "random" else outer
    return total


def measured(
    as_defined: Floats, factor: Floats, sources: Sequence[Effects], confidence: float
) -> list[tuple[Measured, ...]]:
    """The four coefficients of each window with their intervals, in the order of `NAMES`."""
    value = as_defined * factor
    random, fixed, weighted = np.zeros_like(value), np.zeros_like(value), np.zeros_like(value)
    for source in sources:
        part = random if source.kind == "random" else fixed
        part += source.effect**2
        weighted += source.effect**4 / source.degrees_of_freedom
    total = random + fixed
    freedom = np.full(total.shape, math.inf)
    np.divide(total**2, weighted, out=freedom, where=weighted > 0.0)
    half = coverage_factor(freedom, confidence) * np.sqrt(total) * np.abs(value)
    size = np.abs(value)
    table = np.stack(
        (value, as_defined, value - half, value + half, np.sqrt(total) * size, np.sqrt(random) * size,
         np.sqrt(fixed) * size, freedom), axis=2,
    )  # fmt: skip
    return [tuple(Measured(*one) for one in row) for row in table.tolist()]


def coverage_factor(degrees_of_freedom: ArrayLike, confidence: float) -> Floats:
    """Half-width of the interval over the standard uncertainty: Student's t, normal from 1e6 degrees on [-]."""
    tail, freedom = 0.5 * (1.0 + confidence), np.asarray(degrees_of_freedom, np.float64)
    few = freedom <= _MANY
    return np.asarray(np.where(few, stdtrit(np.where(few, freedom, 1.0), tail), ndtri(tail)))


def correlation(series: Sequence[Floats]) -> Floats:
    """Correlation of batch means of some series; a constant series is uncorrelated with all."""
    return np.asarray(correlation_of(np.array(series)))
