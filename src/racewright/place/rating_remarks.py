"""What the reader of a fitted rating must know: few gaugings, outliers, bends, shifts over time."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray
from scipy.special import bdtr, stdtr, stdtrit

from racewright.place.result import Floats
from racewright.remark import Remark

WANTED = 10
"""Gaugings below this number make a rating weak (common practice, no source)."""

LEVEL = 0.05
"""Chance of a false alarm of each test here, over all its comparisons together [-]."""

_LEAST_PART = 3
"""Gaugings on either side of a shift in time."""

_EXACT = 1e-9
"""Log residuals this small are rounding: such gaugings were computed from a rating, and nothing is judged."""


def outliers(residual: Floats, leverage: Floats, error: float, degrees: int) -> NDArray[np.bool_]:
    """Gaugings whose residual, judged by a fit without them, passes a t-test at 5 % over all gaugings.

    Externally studentised residuals with Bonferroni's limit (Cook & Weisberg 1982, from memory). With two
    degrees of freedom or fewer nothing can be told and nothing is flagged.
    """
    if degrees < 2 or error < _EXACT:
        return np.zeros(residual.size, dtype=np.bool_)
    free = np.maximum(1.0 - leverage, 1e-12)
    left = (degrees * error**2 - residual**2 / free) / (degrees - 1)
    studentised = np.abs(residual) / np.sqrt(np.maximum(left, 1e-300) * free)
    limit = float(stdtrit(degrees - 1, 1.0 - LEVEL / (2 * residual.size)))
    flagged: NDArray[np.bool_] = studentised > limit
    return flagged


def fit_remarks(
    level: Floats, residual: Floats, flagged: NDArray[np.bool_], error: float, time: Floats | None
) -> list[Remark]:
    """Remarks on number, outliers, systematic bends over level, and a shift in time."""
    found = []
    if residual.size < WANTED:
        text = f"Only {residual.size} gaugings: a rating wants about {WANTED} or more (common practice, no source)."
        found.append(Remark("caution", text, "gaugings"))
    for i in np.flatnonzero(flagged):
        text = (
            f"Gauging {i + 1} (level {level[i]:.2f} m) lies {100.0 * math.expm1(residual[i]):+.0f} % from the "
            "rating, an outlier (t-test without it, 5 % over all); it is kept, so check its notes."
        )
        found.append(Remark("caution", text, "gaugings"))
    found += _bend(level, residual)
    if time is not None:
        found += _shift(time, residual, error)
    return found


def _bend(level: Floats, residual: Floats) -> list[Remark]:
    """Run test: signs of residuals in order of level should change about every second time."""
    signs = np.sign(residual[np.argsort(level, kind="stable")])
    signs = signs[signs != 0.0]
    if signs.size < 6 or float(np.abs(residual).max()) < _EXACT:
        return []
    changes = int(np.count_nonzero(np.diff(signs)))
    if float(bdtr(changes, signs.size - 1, 0.5)) > LEVEL / 2.0:
        return []
    text = (
        f"The residuals change sign only {changes} times in {signs.size - 1} steps of level: one power law bends "
        "away from the gaugings (run test at 2.5 %); a break in the control or another zero level is likely."
    )
    return [Remark("caution", text, "rating")]


def _shift(time: Floats, residual: Floats, error: float) -> list[Remark]:
    """Best split of the gaugings in time, by a two-sample t-test with Bonferroni's limit over the splits."""
    order = np.argsort(time, kind="stable")
    r, n = residual[order], residual.size
    splits = range(_LEAST_PART, n - _LEAST_PART + 1)
    if len(splits) == 0 or error < _EXACT:
        return []
    best, step, at = 1.0, 0.0, 0
    for k in splits:
        before, after = r[:k], r[k:]
        pooled = (float(np.sum((before - before.mean()) ** 2)) + float(np.sum((after - after.mean()) ** 2))) / (n - 2)
        difference = float(after.mean() - before.mean())
        t = abs(difference) / math.sqrt(max(pooled, 1e-300) * (1.0 / k + 1.0 / (n - k)))
        chance = 2.0 * float(stdtr(n - 2, -t))
        if chance < best:
            best, step, at = chance, difference, k
    if best * len(splits) > LEVEL:
        return []
    day = np.datetime64(int(time[order[at]]), "s").astype("datetime64[D]")
    text = (
        f"From {day} (UTC) on, the gaugings lie {100.0 * math.expm1(step):+.0f} % from those before: the rating has "
        f"shifted (t-test of the best split, chance {best * len(splits):.1g} without one); fit the later part alone."
    )
    return [Remark("warning", text, "rating")]
