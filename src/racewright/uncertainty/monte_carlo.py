"""Propagation of distributions by Monte Carlo (JCGM 101:2008, clause 7)."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.uncertainty.draws import Draws
from racewright.uncertainty.intervals import shortest, symmetric
from racewright.uncertainty.model import VectorModel

Floats = NDArray[np.float64]

LEAST_BLOCK = 10_000
LEAST_BLOCKS = 10
"""Blocks before the figures may be said to stand: with two, chance agreement passes for it. Own choice."""


@dataclass(frozen=True)
class MonteCarlo:
    """One output's distribution.

    Attributes
    ----------
    mean : float
        Average of the draws [unit of the output].
    standard_uncertainty : float
        Their standard deviation [unit of the output].
    level : float
        Coverage probability of the intervals [-].
    low, high : float
        Probabilistically symmetric interval [unit of the output].
    shortest_low, shortest_high : float
        Shortest interval; far from the symmetric one where the distribution leans [unit of the output].
    draws : int
        How many [-].
    settled : bool
        True when mean, uncertainty and both ends met the tolerance before the cap (JCGM 101 7.9.4).
    tolerance : float
        Half a unit in the last significant digit of the uncertainty asked for [unit of the output].
    seed : int
    first_order_agrees : bool
        First order's interval lies within the tolerance of the symmetric one at both ends (JCGM 101 8).
    """

    mean: float
    standard_uncertainty: float
    level: float
    low: float
    high: float
    shortest_low: float
    shortest_high: float
    draws: int
    settled: bool
    tolerance: float
    seed: int
    first_order_agrees: bool


def tolerance_of(uncertainty: float, digits: int) -> float:
    """Half a unit in the last of `digits` significant digits (JCGM 101 7.9.2)."""
    if uncertainty <= 0.0:
        return 0.0
    return float(0.5 * 10.0 ** (math.floor(math.log10(uncertainty)) + 1 - digits))


def monte_carlo(
    model: VectorModel,
    draws: Draws,
    *,
    level: float,
    digits: int,
    cap: int,
    seed: int,
    elementwise: bool,
    ends: list[tuple[float, float]],
    tick: Callable[[float], None],
) -> list[MonteCarlo]:
    """Draw blocks until every output's figures stand, or the cap is reached (JCGM 101 7.9.4).

    A block has 100/(1 - level) draws or 10 000, whichever is more. After each, the averages over blocks of
    mean, standard deviation and interval ends must have twice their standard error within the tolerance.

    Parameters
    ----------
    ends : list of (float, float)
        First order's intervals, for the comparison of clause 8.
    """
    size = min(max(math.ceil(100.0 / (1.0 - level)), LEAST_BLOCK), cap)
    most = max(cap // size, 1)
    kept: list[Floats] = []
    figures: list[Floats] = []
    settled = np.zeros(len(model.outputs), dtype=bool)
    while len(kept) < most and not settled.all():
        values = model.over(draws.take(size), elementwise)
        kept.append(values)
        figures.append(np.array([_figures(one, level) for one in values]))
        if len(kept) >= LEAST_BLOCKS:
            spread = np.std(figures, axis=0, ddof=1) / math.sqrt(len(kept))
            u = np.mean(figures, axis=0)[:, 1]
            wanted = np.array([tolerance_of(float(one), digits) for one in u])
            settled = np.all(2.0 * spread <= wanted[:, None], axis=1)
        tick(len(kept) / most)
    pooled = np.sort(np.concatenate(kept, axis=1), axis=1)
    found = []
    for row, done, (first_low, first_high) in zip(pooled, settled, ends, strict=True):
        mean, u = float(row.mean()), float(row.std(ddof=1))
        low, high = symmetric(row, level)
        near = tolerance_of(u, digits)
        agrees = abs(first_low - low) <= near and abs(first_high - high) <= near
        found.append(
            MonteCarlo(
                mean, u, level, low, high, *shortest(row, level), row.size, bool(done), near, seed, bool(agrees)
            )
        )
    return found


def _figures(values: Floats, level: float) -> tuple[float, float, float, float]:
    ordered = np.sort(values)
    return (float(ordered.mean()), float(ordered.std(ddof=1)), *symmetric(ordered, level))
