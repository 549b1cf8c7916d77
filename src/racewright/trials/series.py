"""The whole record as a slow series, one row a block: for trends, fouling and drawing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.trials.cell_sums import COUNT, FIRST, THIRD
from racewright.trials.cells import Cells, only
from racewright.trials.channel import Channel
from racewright.trials.zeros import Zero, zero_at

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Gap:
    """A stretch of the series without rows.

    Attributes
    ----------
    start, end : float
        After the record's start [s].
    channels : tuple of str
        Those without a good reading in some block of it.
    """

    start: float
    end: float
    channels: tuple[str, ...]


@dataclass(frozen=True)
class Series:
    """Means over blocks; a block that lacks any of the channels has no row.

    Attributes
    ----------
    time : ndarray, shape (n,)
        Middle of the block after the record's start [s].
    stream_speed : ndarray, shape (n,)
        Cube mean over time and probes [m/s].
    rotor_speed, torque, thrust : ndarray, shape (n,)
        Zeros taken off [rad/s], [N m], [N].
    gaps : tuple of Gap
        Where blocks have no row, and which channels lack there.
    """

    time: Floats
    stream_speed: Floats
    rotor_speed: Floats
    torque: Floats
    thrust: Floats
    gaps: tuple[Gap, ...] = ()

    def between(self, start: float, end: float) -> Series:
        """The rows between two times [s]."""
        kept = (self.time >= start) & (self.time <= end)
        return Series(
            self.time[kept],
            self.stream_speed[kept],
            self.rotor_speed[kept],
            self.torque[kept],
            self.thrust[kept],
            tuple(gap for gap in self.gaps if gap.start < end and gap.end > start),
        )


class SeriesCollector:
    """Adds one row per block."""

    def __init__(self, channels: Sequence[Channel], share: Floats, cell: float) -> None:
        self._channels, self._share, self._cell = channels, share, cell
        self._places = tuple(only(channels, role) for role in ("rotor_speed", "torque", "thrust"))
        self._probes = [k for k, c in enumerate(channels) if c.role == "speed"]
        self._rows: list[tuple[float, ...]] = []
        self._gaps: list[Gap] = []

    def add(self, cells: Cells) -> None:
        """One block."""
        totals = cells.sums.sum(axis=1)
        count = totals[:, COUNT]
        lacking = tuple(self._channels[k].name for k in (*self._places, *self._probes) if count[k] == 0.0)
        if lacking:
            self._lack(cells.first * self._cell, (cells.first + cells.size) * self._cell, lacking)
            return
        cube = 0.0
        for k, weight in zip(self._probes, self._share, strict=True):
            mean = totals[k, FIRST] / count[k]
            cube += weight * (totals[k, THIRD] / count[k] - 3.0 * self._channels[k].noise ** 2 * mean)
        middle = (cells.first + 0.5 * cells.size) * self._cell
        self._rows.append((middle, float(np.cbrt(cube)), *(totals[k, FIRST] / count[k] for k in self._places)))

    def _lack(self, start: float, end: float, channels: tuple[str, ...]) -> None:
        if self._gaps and abs(self._gaps[-1].end - start) < 1e-9:
            last = self._gaps.pop()
            start, channels = last.start, tuple(dict.fromkeys((*last.channels, *channels)))
        self._gaps.append(Gap(start, end, channels))

    def series(self, zeros: Sequence[Zero]) -> Series:
        """All rows, zeros taken off."""
        rows = np.array(self._rows).reshape(-1, 5)
        columns = [rows[:, j].copy() for j in range(5)]
        for j, k in ((3, self._places[1]), (4, self._places[2])):
            channel = self._channels[k]
            for i, time in enumerate(columns[0]):
                off = zero_at(zeros, channel, float(time)) if channel.tared else None
                columns[j][i] -= off.value if off else 0.0
        time, speed, rotor, torque, thrust = columns
        return Series(time, speed, rotor, torque, thrust, tuple(self._gaps))
