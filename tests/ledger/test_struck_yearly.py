"""A year of logs: those that jam count as passing every level, in curves, limits and figures."""

from __future__ import annotations

from dataclasses import replace
from math import expm1, inf, isfinite

import numpy as np
import pytest

from racewright.holding.log_exceedance import LogExceedance, figures_of
from racewright.ledger.struck_yearly import yearly_curves
from racewright.uncertainty.binomial import binomial_limits
from tests.dossier import holding_sample

JAMMED = 12
"""Of the 400 logs of the sample."""
ENCOUNTERS = 3.0


def jammed(count: int = JAMMED) -> LogExceedance:
    """The sample's year, three logs of which meet the machine, with so many of those drawn jammed."""
    found = holding_sample.years()
    answered = np.arange(found.slow.size) >= count
    low, high, slow = (np.where(answered, v, inf) for v in (found.first_low, found.first_high, found.slow))
    draws = replace(found.draws, encounters=ENCOUNTERS, encounter_error=0.0)
    return replace(found, draws=draws, answered=answered, first_low=low, first_high=high, slow=slow)


def chance(share: float) -> float:
    return -expm1(-ENCOUNTERS * share)


def test_a_log_that_jams_passes_every_level_of_the_curves() -> None:
    year = yearly_curves(jammed(), None)
    least = chance(JAMMED / year.strikes)
    limits = binomial_limits(JAMMED, year.strikes, level=year.confidence)
    for curve in (year.first_low, year.first_high, year.slow):
        assert np.all(curve >= least * (1.0 - 1e-12))
    assert np.all(np.isfinite(year.level))
    assert year.first_high[-1] == pytest.approx(least, rel=1e-12)
    assert year.first_high_upper[-1] == pytest.approx(chance(limits.high), rel=1e-12)
    assert year.slow[-1] == pytest.approx(least, rel=1e-12)
    assert year.slow_low[-1] == pytest.approx(chance(limits.low), rel=1e-12)
    assert year.slow_high[-1] == pytest.approx(chance(limits.high), rel=1e-12)


def test_without_a_jam_the_curves_fall_to_nothing() -> None:
    year = yearly_curves(jammed(0), None)
    assert year.first_high[-1] == year.slow[-1] == 0.0
    assert year.level[-1] == pytest.approx(float(year.drawn.first_high.max()), rel=1e-9)


def test_where_all_jam_every_level_is_passed_alike() -> None:
    year = yearly_curves(jammed(holding_sample.years().slow.size), None)
    for curve in (year.first_low, year.first_high, year.slow):
        assert curve == pytest.approx(chance(1.0), rel=1e-12)


def test_no_force_is_told_that_jammed_logs_alone_pass_as_often() -> None:
    """Of one year in two, 92 of 400 draws lie above the level; of one in ten 14, of which 12 jam and 20 may."""
    found = jammed()
    figures, remarks = figures_of(found.first_low, found.first_high, found.slow, found.draws, 0.95)
    assert [f.name.rsplit(" ", 1)[-1] for f in figures] == ["2", "2"]
    assert all(isfinite(f.low) and isfinite(f.high) for f in figures)
    assert [r.about for r in remarks] == ["strikes without an answer"]
    assert "one year in 10" in remarks[0].text
