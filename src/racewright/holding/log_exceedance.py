"""How often in a year a first blow or a line tension passes a level: Monte Carlo over the logs that pass."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.special import ndtri

from racewright.errors import InputError
from racewright.holding.contact_numbers import Floats
from racewright.holding.contact_table import contact_stiffnesses
from racewright.holding.log_draws import LogDraws
from racewright.holding.strike_figure import FIRST, SCREENING, SLOW, SafetyFigure
from racewright.machine.drive_checks import finite, number
from racewright.remark import Remark
from racewright.safety import SafetyBasis
from racewright.uncertainty.binomial import binomial_limits


@dataclass(frozen=True, slots=True)
class YearlyChance:
    """Chance that a level is passed at least once in a year.

    Attributes
    ----------
    level : ndarray, shape (n,)
        [N]
    chance, low, high : ndarray, shape (n,)
        Best value and confidence limits, from the count drawn and the pool [-].
    passed : ndarray of int, shape (n,)
        Draws above the level.
    confidence : float
        [-]
    safety : SafetyBasis
    """

    level: Floats
    chance: Floats
    low: Floats
    high: Floats
    passed: NDArray[np.intp]
    confidence: float
    safety: SafetyBasis


@dataclass(frozen=True, slots=True)
class LogExceedance:
    """Strikes of a log population on one machine.

    Attributes
    ----------
    draws : LogDraws
        The logs, with their expected number a year.
    first_low, first_high : ndarray, shape (n,)
        First-blow force with the softest and stiffest published contact; 0 for a log that passes by, infinite for
        one without an answer [N].
    slow : ndarray, shape (n,)
        Greatest line tension along the stream, pretension included; infinite for one without an answer [N].
    answered : ndarray of bool, shape (n,)
        False where a log jammed or was pressed through; its values are infinite, so it counts as passing any level.
    parting : YearlyChance
        Of the tether's capacity; empty where it is not said.
    figures : tuple of SafetyFigure
        First-blow force and slow line tension that one year in two, ten and fifty passes.
    remarks : tuple of Remark
    safety : tuple of SafetyBasis
        Of the first-blow forces; of the line tensions.
    """

    draws: LogDraws
    first_low: Floats
    first_high: Floats
    slow: Floats
    answered: NDArray[np.bool_]
    parting: YearlyChance
    figures: tuple[SafetyFigure, ...]
    remarks: tuple[Remark, ...]
    safety: tuple[SafetyBasis, SafetyBasis]


def yearly_chance(values: ArrayLike, levels: ArrayLike, draws: LogDraws, *, confidence: float = 0.95) -> YearlyChance:
    """Chance a year that some strike passes each level: 1 - exp(-encounters x share of draws above it).

    Strikes arrive independently (Poisson); the share's limits are Clopper and Pearson's, widened by the error of the
    expected number.

    Parameters
    ----------
    values : array_like, shape (n,)
        One a draw; infinite ones pass every level [N].
    levels : array_like, shape (k,)
        Finite [N].
    draws : LogDraws
    confidence : float
        0.5 to 0.9999 [-].
    """
    number("The confidence", confidence, 0.5, 0.9999)
    found = np.asarray(values, dtype=np.float64)
    if found.shape != draws.length.shape or np.any(np.isnan(found)):
        raise InputError(f"{found.size} values for {draws.length.size} draws: one a draw is wanted, none NaN")
    wanted = np.atleast_1d(finite("The levels", levels))
    passed = np.array([int(np.sum(found > level)) for level in wanted], dtype=np.intp)
    limits = [binomial_limits(int(one), found.size, level=confidence) for one in passed]
    spread = float(ndtri(0.5 + 0.5 * confidence)) * draws.encounter_error
    share = np.array([(one.share, one.low, one.high) for one in limits]).reshape(-1, 3)
    rate = draws.encounters * share * np.array([1.0, max(1.0 - spread, 0.0), 1.0 + spread])
    chance = -np.expm1(-rate)
    safety = SafetyBasis(
        f"{_drawn(draws)}; independent strikes, limits of Clopper and Pearson",
        "own simulation",
        "computed",
        SCREENING,
    )
    return YearlyChance(wanted, chance[:, 0], chance[:, 1], chance[:, 2], passed, confidence, safety)


def level_of_chance(
    values: Floats, chance: float, draws: LogDraws, *, confidence: float = 0.95
) -> tuple[float, float, float] | None:
    """Level that a year passes with that chance, between its limits by order; None with fewer than 5 draws above it.

    Parameters
    ----------
    values : ndarray, shape (n,)
        One a draw [N].
    chance : float
        Of a year, 0 to 1 [-].
    draws : LogDraws
    confidence : float
        [-]
    """
    rate = -np.log1p(-number("The yearly chance", chance, 1e-6, 1.0 - 1e-6))
    count = float(rate / draws.encounters * values.size)
    if count < _FEWEST:
        return None
    ordered = np.append(np.sort(values)[::-1], 0.0)
    spread = float(ndtri(0.5 + 0.5 * confidence)) * count**0.5
    places = [min(max(int(c), 0), values.size) for c in (count + spread, count, count - spread)]
    low, best, high = (float(ordered[place]) for place in places)
    return low, best, high


_FEWEST = 5.0
"""Draws above a level, below which it is not told; own choice [-]."""


def strike_safety(draws: LogDraws) -> tuple[SafetyBasis, SafetyBasis]:
    """What stands beside the first-blow forces and beside the line tensions of a log population."""
    basis, table = _drawn(draws), contact_stiffnesses()
    known = "; ".join(dict.fromkeys(f"{k.name} {k.status}" for k in (table[0], table[-1])))
    first = SafetyBasis(f"{basis}; published contact stiffnesses", "2002; ASCE 7-16", known, FIRST)
    return first, SafetyBasis(basis, "own simulation", "computed", SLOW)


def _drawn(draws: LogDraws) -> str:
    return f"{draws.length.size} strikes drawn from the log population, {draws.encounters:.3g} expected a year"


def figures_of(
    first_low: Floats, first_high: Floats, slow: Floats, draws: LogDraws, confidence: float
) -> tuple[tuple[SafetyFigure, ...], tuple[Remark, ...]]:
    """Levels that one year in two, ten and fifty passes.

    A remark says where the draws are too few for one, or where logs without an answer, which count as passing every
    level, may come as often by themselves: then no level is told.
    """
    found: list[SafetyFigure] = []
    of_first, of_slow = strike_safety(draws)
    for years in (2.0, 10.0, 50.0):
        soft, stiff, line = (
            level_of_chance(one, 1.0 / years, draws, confidence=confidence) for one in (first_low, first_high, slow)
        )
        if soft is None or stiff is None or line is None:
            text = (
                f"{slow.size} strikes are too few for the level that one year in {years:g} passes: fewer than "
                f"{_FEWEST:g} lie above it. {int(_FEWEST * draws.encounters * years * 1.2)} would do."
            )
            return tuple(found), (Remark("note", text, "few draws"),)
        if not np.isfinite((soft[0], stiff[2], *line)).all():
            text = (
                f"No force is told that one year in {years:g} passes: logs that jammed count as passing any, and may "
                "come as often by themselves."
            )
            return tuple(found), (Remark("caution", text, "strikes without an answer"),)
        said = f"passed in one year of {years:g}"
        found.append(SafetyFigure(f"first-blow force {said}", "N", soft[0], None, stiff[2], of_first))
        found.append(SafetyFigure(f"slow line tension {said}", "N", *line, of_slow))
    return tuple(found), ()
