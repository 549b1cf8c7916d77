"""Exact limits of a share from so many of so many."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from scipy.special import betaincinv

from racewright.errors import InputError
from racewright.uncertainty.coverage import check_level

Sides = Literal["two-sided", "upper", "lower"]


@dataclass(frozen=True)
class BinomialLimits:
    """Limits of the chance of an event that was seen `events` times in `trials`.

    Attributes
    ----------
    events, trials : int
        What was counted [-].
    share : float
        events / trials [-].
    low, high : float
        Limits of the chance, 0 to 1; a one-sided limit leaves the other end at 0 or 1 [-].
    level : float
        Confidence, at least [-].
    sides : {'two-sided', 'upper', 'lower'}
        Which limits the level belongs to.
    label : str
        The statement in words; never quote the number without it.
    """

    events: int
    trials: int
    share: float
    low: float
    high: float
    level: float
    sides: Sides
    label: str


def binomial_limits(events: int, trials: int, *, level: float = 0.95, sides: Sides = "two-sided") -> BinomialLimits:
    """Clopper and Pearson's limits: chances at which the count, or a rarer one, has the remaining probability.

    Exact in that confidence never falls below `level`, for any chance (Clopper and Pearson 1934, Biometrika 26,
    404-413). Trials must be independent and of one chance.

    Parameters
    ----------
    events, trials : int
        0 <= events <= trials, trials >= 1 [-].
    level : float
        Confidence [-].
    sides : {'two-sided', 'upper', 'lower'}
        Both limits with half of the rest beyond each, or one limit with all of it.
    """
    check_level(level)
    if trials != int(trials) or events != int(events) or trials < 1 or not 0 <= events <= trials:
        raise InputError(f"{events} of {trials}: both must be whole numbers with 0 <= events <= trials, trials >= 1")
    if sides not in ("two-sided", "upper", "lower"):
        raise InputError(f"{sides!r} must be 'two-sided', 'upper' or 'lower'", key="sides")
    k, n = int(events), int(trials)
    tail = 0.5 * (1.0 - level) if sides == "two-sided" else 1.0 - level
    low = 0.0 if k == 0 or sides == "upper" else float(betaincinv(k, n - k + 1, tail))
    high = 1.0 if k == n or sides == "lower" else float(betaincinv(k + 1, n - k, 1.0 - tail))
    percent = f"{100.0 * level:g} %"
    if sides == "two-sided":
        said = f"{k} of {n}: {100.0 * low:.3g} % to {100.0 * high:.3g} % (two-sided {percent} limits)"
    elif sides == "upper":
        said = f"{k} of {n}: at most {100.0 * high:.3g} % (one-sided upper {percent} limit)"
    else:
        said = f"{k} of {n}: at least {100.0 * low:.3g} % (one-sided lower {percent} limit)"
    return BinomialLimits(k, n, k / n, low, high, level, sides, f"{said}, exact")
