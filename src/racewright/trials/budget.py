"""The uncertainty of the four coefficients: sources, covariance, intervals."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtri, stdtrit

from racewright.trials.result import Measured, Source
from racewright.trials.series_error import series_error
from racewright.trials.window import Window

Floats = NDArray[np.float64]
_MANY = 1e6


def systematic(name: str, effect: Sequence[float], degrees_of_freedom: float = math.inf) -> Source:
    """A source that does not fall with time: signed relative effects on CP, CQ, CT and TSR."""
    return Source(name, "systematic", np.asarray(effect, float), np.full(4, degrees_of_freedom))


def random_part(found: Window, torque_zero: float, thrust_zero: float) -> tuple[Source, Floats]:
    """Random relative uncertainty of the four coefficients, and their correlation.

    Each coefficient has one series of relative influences by cell, e.g. P/mean - U^3/mean for CP, so that
    what torque and speed share cancels cell by cell. Correlations are those of up to 20 batch means.
    """
    torque, thrust = found.torque - torque_zero, found.thrust - thrust_zero
    power = found.power - torque_zero * found.rotor_speed
    p, q, t, w, c = (_relative(x) for x in (power, torque, thrust, found.rotor_speed, found.cube))
    influence = (p - c, q - 2.0 * c / 3.0, t - 2.0 * c / 3.0, w - c / 3.0)
    errors = [series_error(z) for z in influence]
    effect = np.array([e.standard_error for e in errors])
    freedom = np.array([e.degrees_of_freedom for e in errors])
    return Source("scatter of the window", "random", effect, freedom), correlation(influence)


def mean_covariance(found: Window, torque_zero: float, thrust_zero: float, speed: float) -> tuple[Floats, Floats]:
    """Random covariance of the means (stream speed, torque, rotor speed, thrust) and their effective counts."""
    series = (
        speed * (1.0 + _relative(found.cube) / 3.0), found.torque - torque_zero, found.rotor_speed,
        found.thrust - thrust_zero,
    )  # fmt: skip
    errors = [series_error(s) for s in series]
    size = np.array([e.standard_error for e in errors])
    return correlation(series) * np.outer(size, size), np.array([e.effective_count for e in errors])


def cube_bias(turbulence: float, follow: tuple[float, float] | None) -> tuple[Floats, Source | None]:
    """Correction factors of the four coefficients for turbulence that the machine does not follow, and their doubt.

    A probe's cube mean holds 1 + 3 TI^2; the machine follows a share f of it, so that the coefficients stand
    low by (3 - 3f) TI^2 for CP, (2 - 2f) for CQ and (2 - f) for CT, and the tip-speed ratio by (1 - f); f is
    taken as evenly spread over `follow`.
    """
    if follow is None:
        return np.ones(4), None
    low, high = follow
    constant, slope = np.array([3.0, 2.0, 2.0, 1.0]), np.array([3.0, 2.0, 1.0, 1.0])
    square = turbulence**2
    factor = 1.0 + (constant - slope * 0.5 * (low + high)) * square
    effect = slope * (high - low) * square / math.sqrt(12.0)
    return factor, systematic("cube mean of the speed", list(effect))


def total_covariance(sources: Sequence[Source], random_correlation: Floats) -> Floats:
    """Relative covariance of the four coefficients from all sources, shape (4, 4)."""
    total = np.zeros((4, 4))
    for source in sources:
        outer = np.outer(source.effect, source.effect)
        total += outer * random_correlation if source.kind == "random" else outer
    return total


def measured(index: int, as_defined: float, factor: float, sources: Sequence[Source], confidence: float) -> Measured:
    """One coefficient with its interval; `index` as in `NAMES`."""
    value = as_defined * factor
    parts = [(s.kind, float(s.effect[index]), float(s.degrees_of_freedom[index])) for s in sources]
    random = math.fsum(e * e for kind, e, _ in parts if kind == "random")
    fixed = math.fsum(e * e for kind, e, _ in parts if kind == "systematic")
    total = random + fixed
    weighted = math.fsum(e**4 / nu for _, e, nu in parts)
    freedom = total**2 / weighted if weighted > 0.0 else math.inf
    half = coverage_factor(freedom, confidence) * math.sqrt(total) * abs(value)
    return Measured(
        value, as_defined, value - half, value + half, math.sqrt(total) * abs(value), math.sqrt(random) * abs(value),
        math.sqrt(fixed) * abs(value), freedom,
    )  # fmt: skip


def coverage_factor(degrees_of_freedom: float, confidence: float) -> float:
    """Half-width of the interval over the standard uncertainty: Student's t, normal from 1e6 degrees on [-]."""
    tail = 0.5 * (1.0 + confidence)
    return float(ndtri(tail) if degrees_of_freedom > _MANY else stdtrit(degrees_of_freedom, tail))


def correlation(series: Sequence[Floats]) -> Floats:
    """Correlation of batch means of some series; a constant series is uncorrelated with all."""
    n = series[0].size
    batches = min(20, n // 5)
    long = n // batches
    means = np.array([s[: batches * long].reshape(batches, long).mean(axis=1) for s in series])
    rest = means - means.mean(axis=1, keepdims=True)
    size = np.sqrt((rest**2).sum(axis=1))
    live = size > 1e-12 * np.abs(means).max(axis=1)
    unit = np.where(live[:, None], rest / np.where(live, size, 1.0)[:, None], 0.0)
    out = unit @ unit.T
    np.fill_diagonal(out, 1.0)
    return out


def _relative(x: Floats) -> Floats:
    """Relative deviations from the mean."""
    mean = float(x.mean())
    return x / mean - 1.0 if mean != 0.0 else np.zeros_like(x)
