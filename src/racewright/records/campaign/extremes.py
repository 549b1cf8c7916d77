"""A raw channel in few stretches, each with its least and greatest value: what a screen draws of 10^7 readings."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pyarrow.parquet as pq
from numpy.typing import NDArray

from racewright.records.campaign.raw_file import TIME

Floats = NDArray[np.float64]

FINE = 256
"""Rows of a stretch of the overview, from which longer stretches are joined. Own choice."""


@dataclass(frozen=True)
class Extremes:
    """Least and greatest of a channel by stretches of rows, in order.

    Attributes
    ----------
    time : ndarray, shape (n,)
        Of each stretch's first row, after the run's first row [s].
    least, greatest : ndarray, shape (n,)
        As logged, in the channel's unit; NaN where a stretch holds blank cells alone.
    """

    time: Floats
    least: Floats
    greatest: Floats

    def between(self, start: float, end: float) -> Extremes:
        """Stretches that reach into a span of time [s]."""
        first = max(int(np.searchsorted(self.time, start, "right")) - 1, 0)
        last = int(np.searchsorted(self.time, end, "right"))
        return Extremes(self.time[first:last], self.least[first:last], self.greatest[first:last])

    def joined(self, most: int) -> Extremes:
        """At most so many stretches; neighbours become one, no extreme is lost."""
        size = self.time.size
        if size <= most:
            return self
        first = np.arange(0, size, -(-size // most))
        return Extremes(self.time[first], np.fmin.reduceat(self.least, first), np.fmax.reduceat(self.greatest, first))


def overview(path: Path, channel: str) -> Extremes:
    """A whole run in stretches of `FINE` rows.

    Parameters
    ----------
    path : Path
        Of the run's raw file.
    channel : str
        One of its columns.
    """
    with pq.ParquetFile(path) as file:
        parts = [_rows(file, group, channel, FINE) for group in range(file.num_row_groups)]
    return _together(parts)


def window(path: Path, channel: str, start: float, end: float) -> Extremes:
    """Every row between two times, each a stretch of its own.

    Parameters
    ----------
    path, channel
        As for `overview`.
    start, end : float
        After the run's first row [s]; only the row groups that reach into it are read.
    """
    with pq.ParquetFile(path) as file:
        wanted = [group for group in range(file.num_row_groups) if _reaches(file, group, start, end)]
        parts = [_rows(file, group, channel, 1) for group in wanted]
    return _together(parts).between(start, end)


def _reaches(file: pq.ParquetFile, group: int, start: float, end: float) -> bool:
    told = file.metadata.row_group(group).column(0).statistics
    return told is None or not told.has_min_max or (told.min <= end and told.max >= start)


def _rows(file: pq.ParquetFile, group: int, channel: str, step: int) -> Extremes:
    table = file.read_row_group(group, columns=[TIME, channel])
    time, values = table.column(TIME).to_numpy(), table.column(channel).to_numpy()
    if step == 1 or time.size == 0:
        return Extremes(time, values, values)
    first = np.arange(0, time.size, step)
    return Extremes(time[first], np.fmin.reduceat(values, first), np.fmax.reduceat(values, first))


def _together(parts: list[Extremes]) -> Extremes:
    if not parts:
        nothing = np.empty(0)
        return Extremes(nothing, nothing, nothing)
    return Extremes(*(np.concatenate([getattr(p, f) for p in parts]) for f in ("time", "least", "greatest")))
