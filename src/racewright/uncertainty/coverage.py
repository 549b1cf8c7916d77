"""Effective degrees of freedom and the factor from a standard to an expanded uncertainty."""

from __future__ import annotations

import math
from collections.abc import Sequence

from scipy.special import ndtri, stdtrit

from racewright.errors import InputError


def effective_dof(contributions: Sequence[float], dof: Sequence[float]) -> float:
    """Welch-Satterthwaite: u^4 / sum(u_i^4 / nu_i), infinite when every contribution is certain (GUM G.4.1).

    Parameters
    ----------
    contributions : sequence of float
        |c_i| u_i of independent inputs [unit of the result].
    dof : sequence of float
        nu_i, above 0 or infinite [-].
    """
    variance = math.fsum(one * one for one in contributions)
    if variance == 0.0:
        return math.inf
    spread = math.fsum((one * one / variance) ** 2 / nu for one, nu in zip(contributions, dof, strict=True))
    return math.inf if spread == 0.0 else 1.0 / spread


def coverage_factor(level: float, dof: float = math.inf) -> float:
    """k for a two-sided interval: quantile of Student's t at (1 + level)/2 (GUM G.3.2).

    Parameters
    ----------
    level : float
        Coverage probability, above 0 and below 1 [-].
    dof : float
        Degrees of freedom, whole or not, above 0; infinite is the normal distribution [-].
    """
    check_level(level)
    if math.isnan(dof) or dof <= 0.0:
        raise InputError(f"the degrees of freedom are {dof}; they must be above 0", key="dof")
    p = 0.5 * (1.0 + level)
    return float(ndtri(p)) if math.isinf(dof) else float(stdtrit(dof, p))


def check_level(level: float) -> None:
    """Raise InputError unless a coverage probability lies between 0 and 1."""
    if not 0.0 < level < 1.0:
        raise InputError(f"the level is {level}; it must lie between 0 and 1, mostly 0.95", key="level")
