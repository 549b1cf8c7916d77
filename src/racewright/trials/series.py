"""The whole record as a slow series, one row a block: for trends, fouling and drawing."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.trials.cell_sums import COLUMNS, COUNT, FIRST, THIRD
from racewright.trials.cells import Cells, only
from racewright.trials.channel import Channel
from racewright.trials.settings import Settings
from racewright.trials.zeros import Zero, zeros_at

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
    """Adds one row per block of so many cells; cells come in whole blocks, the record's last one may be shorter."""

    def __init__(self, settings: Settings) -> None:
        self._block = settings.block_cells
        self._totals: list[Floats] = []

    def add(self, cells: Cells) -> None:
        """One block or more."""
        whole = cells.size - cells.size % self._block
        sums = cells.sums[:whole].reshape(-1, self._block, *cells.sums.shape[1:])
        self._totals.append(sums.sum(axis=1))
        if whole < cells.size:
            self._totals.append(cells.sums[whole:].sum(axis=0, keepdims=True))

    def blocks(self, channels: int) -> Floats:
        """Sums of all blocks so far, shape (blocks, channels, COLUMNS)."""
        return np.concatenate(self._totals) if self._totals else np.empty((0, channels, COLUMNS))


def block_series(
    totals: Floats,
    cells: int,
    channels: Sequence[Channel],
    share: Floats,
    zeros: Sequence[Zero],
    settings: Settings,
) -> Series:
    """The series of a record of so many cells from the sums of its blocks, zeros taken off."""
    if not totals.size:
        none = np.zeros(0)
        return Series(none, none, none, none, none)
    first = settings.block_cells * np.arange(totals.shape[0], dtype=np.float64)
    last = np.minimum(first + settings.block_cells, cells)
    middle = 0.5 * (first + last) * settings.cell
    probes = [k for k, c in enumerate(channels) if c.role == "speed"]
    places = [only(channels, role) for role in ("rotor_speed", "torque", "thrust")]
    wanted = [*places, *probes]
    lacking = totals[:, wanted, COUNT] == 0.0
    gaps = _gaps(lacking, settings.cell * first, settings.cell * last, [channels[k].name for k in wanted])
    known = ~lacking.any(axis=1)
    totals, middle = totals[known], middle[known]
    cube = np.zeros(middle.size)
    for k, weight in zip(probes, share, strict=True):
        count, first_sum, third = (totals[:, k, column] for column in (COUNT, FIRST, THIRD))
        cube += weight * (third / count - 3.0 * channels[k].noise ** 2 * (first_sum / count))
    means = [totals[:, k, FIRST] / totals[:, k, COUNT] for k in places]
    for j in (1, 2):
        channel = channels[places[j]]
        off = zeros_at(zeros, channel, middle) if channel.tared else None
        means[j] = means[j] - off.value if off else means[j]
    rotor, torque, thrust = means
    return Series(middle, np.cbrt(cube), rotor, torque, thrust, gaps)


def _gaps(lacking: NDArray[np.bool_], start: Floats, end: Floats, names: Sequence[str]) -> tuple[Gap, ...]:
    """Runs of blocks that lack a channel, `lacking` of shape (blocks, channels); a gap names those that lack in the
    order in which they fail."""
    edge = np.flatnonzero(np.diff(lacking.any(axis=1), prepend=False, append=False))
    out = []
    for a, b in edge.reshape(-1, 2).tolist():
        own = lacking[a:b]
        failed, since = np.flatnonzero(own.any(axis=0)).tolist(), own.argmax(axis=0).tolist()
        channels = tuple(names[k] for k in sorted(failed, key=since.__getitem__))
        out.append(Gap(float(start[a]), float(end[b - 1]), channels))
    return tuple(out)
