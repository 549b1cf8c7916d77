"""A metered series on even intervals, with its gaps known, and its move to other intervals."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.supply.time_grid import TimeGrid

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Gap:
    """Intervals without a value, one after the other.

    Attributes
    ----------
    start : int
        [s since 1970-01-01 UTC]
    duration : int
        [s]
    """

    start: int
    duration: int


@dataclass(frozen=True, slots=True)
class EvenSeries:
    """Mean power of each interval.

    Attributes
    ----------
    grid : TimeGrid
    value : ndarray, shape (n,)
        NaN where nothing was recorded: a balance refuses it until it is filled [W].
    gaps : tuple of Gap
        In order of time.
    repeated : int
        Rows left out because the same interval and value stood there already.
    clashing : int
        Rows left out because the interval had another value already; the first is kept.
    nowhere : int
        Rows left out because no clock of the zone ever showed their stamp (the hour skipped in spring).
    unsure : int
        Rows in the hour that comes twice in autumn, taken for the first pass because no second row stood there.
    largest_shift : float
        Largest distance of a stamp from the even intervals that it was moved to [s].
    remarks : tuple of Remark
    """

    grid: TimeGrid
    value: Floats
    gaps: tuple[Gap, ...] = ()
    repeated: int = 0
    clashing: int = 0
    nowhere: int = 0
    unsure: int = 0
    largest_shift: float = 0.0
    remarks: tuple[Remark, ...] = ()

    @property
    def recorded(self) -> float:
        """Part of the intervals that have a value [-]."""
        return float(np.mean(np.isfinite(self.value)))


def gaps_in(grid: TimeGrid, value: Floats) -> tuple[Gap, ...]:
    """Stretches of NaN."""
    missing = np.concatenate(([False], np.isnan(value), [False])).astype(np.int8)
    turn = np.diff(missing)
    first, last = np.flatnonzero(turn == 1), np.flatnonzero(turn == -1)
    step = grid.interval
    return tuple(Gap(grid.start + step * int(a), step * int(b - a)) for a, b in zip(first, last, strict=True))


def onto(series: EvenSeries, grid: TimeGrid, least_recorded: float = 0.5) -> EvenSeries:
    """The same series on other intervals, longer, shorter or shifted: means weighted by time.

    Parameters
    ----------
    series : EvenSeries
    grid : TimeGrid
        What lies outside the series is a gap.
    least_recorded : float
        An interval with less of its time recorded is a gap, above 0 to 1; default one half, own choice [-].

    Raises
    ------
    InputError
        `least_recorded` outside its range.
    """
    if not 0.0 < least_recorded <= 1.0:
        raise InputError(f"the least recorded part of an interval is {least_recorded!r}; wanted above 0 to 1")
    known = np.isfinite(series.value)
    old = series.grid.edges().astype(np.float64)
    step = float(series.grid.interval)
    energy = np.concatenate(([0.0], np.cumsum(np.where(known, series.value, 0.0)) * step))
    time = np.concatenate(([0.0], np.cumsum(known) * step))
    new = grid.edges().astype(np.float64)
    made, covered = np.diff(np.interp(new, old, energy)), np.diff(np.interp(new, old, time))
    enough = covered >= least_recorded * grid.interval * (1.0 - 1e-12)
    value = np.full(grid.count, np.nan)
    np.divide(made, covered, out=value, where=enough)
    return EvenSeries(grid, value, gaps_in(grid, value), remarks=series.remarks)
