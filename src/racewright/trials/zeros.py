"""Tares: the zero of a channel, linear in time between them, and how well it is known."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from racewright.trials.cell_sums import COUNT, FIRST, RAW
from racewright.trials.cells import Cells
from racewright.trials.channel import Channel, Span
from racewright.trials.series_error import FEWEST, series_error

Floats = NDArray[np.float64]
LOADS = ("torque", "thrust")
"""Roles whose zero without load is nought."""
JUMP = 5.0
"""Standard deviations from which a change of zero is no wander. Own choice."""


@dataclass(frozen=True)
class Zero:
    """One tare of one channel.

    Attributes
    ----------
    channel : str
    time : float
        Middle of the tare after the record's start [s].
    value, standard_error : float
        Mean calibrated reading without load [SI unit of the channel].
    raw : float
        Mean raw reading [raw unit].
    """

    channel: str
    time: float
    value: float
    standard_error: float
    raw: float


@dataclass(frozen=True)
class ZerosAt:
    """The zero of one channel at some times.

    Attributes
    ----------
    value, uncertainty : ndarray, shape (n,)
        Standard uncertainty from the tares' scatter and the zero's random walk between them
        [SI unit of the channel].
    raw : ndarray, shape (n,)
        [raw unit]
    """

    value: Floats
    uncertainty: Floats
    raw: Floats


@dataclass(frozen=True)
class TareCells:
    """Means of the cells that lie wholly within tares.

    Attributes
    ----------
    tares : tuple of Span
        In order of time.
    still : ndarray, shape (n, 4)
        By cell of a tared channel or a load: number of the tare, of the channel, mean calibrated and mean raw reading
        [-, -, SI unit of the channel, raw unit].
    moving : ndarray, shape (m, 3)
        By cell of a speed or the rotor's: number of the tare, of the channel, mean [-, -, SI unit of the channel].
    """

    tares: tuple[Span, ...]
    still: Floats
    moving: Floats

    def median(self, tare: int, role: str, channels: Sequence[Channel]) -> float:
        """Median of the cells within a tare of the channels with a role, the largest of them; 0 without any
        [SI unit of the channel]."""
        within = self.moving[self.moving[:, 0] == tare]
        own = [within[within[:, 1] == k, 2] for k, c in enumerate(channels) if c.role == role]
        return max((abs(float(np.median(v))) for v in own if v.size), default=0.0)

    def moving_part(self, tare: int, role: str, channels: Sequence[Channel], least: float) -> tuple[float, float]:
        """Share of the cells within a tare in which a channel with a role reads more than `least`, of the channel
        that does so most; and its greatest reading [-, SI unit of the channel]."""
        within = self.moving[self.moving[:, 0] == tare]
        own = [np.abs(within[within[:, 1] == k, 2]) for k, c in enumerate(channels) if c.role == role]
        return max(((float(np.mean(v > least)), float(v.max())) for v in own if v.size), default=(0.0, 0.0))

    def zeros(self, channels: Sequence[Channel]) -> tuple[Zero, ...]:
        """All tares of tared channels, by channel and time; one with too few cells is left out."""
        return self._means(channels, tared=True)

    def left_in(self, channels: Sequence[Channel]) -> tuple[Zero, ...]:
        """The same of loads that are not tared: what their readings hold without any load."""
        return self._means(channels, tared=False)

    def _means(self, channels: Sequence[Channel], *, tared: bool) -> tuple[Zero, ...]:
        out = []
        for k, channel in enumerate(channels):
            if channel.tared != tared:
                continue
            for t, tare in enumerate(self.tares):
                own = self.still[(self.still[:, 0] == t) & (self.still[:, 1] == k)]
                if own.shape[0] >= FEWEST:
                    found = series_error(own[:, 2])
                    middle = 0.5 * (tare.start + tare.end)
                    raw = float(np.mean(own[:, 3].copy()))
                    out.append(Zero(channel.name, middle, found.mean, found.standard_error, raw))
        return tuple(out)


class TareCollector:
    """Gathers the cells that lie wholly within tares."""

    def __init__(self, channels: Sequence[Channel], tares: Sequence[Span], cell: float) -> None:
        self.tares = tuple(sorted(tares, key=lambda t: t.start))
        self._channels = channels
        self._cell = cell
        self._still: list[Floats] = [np.empty((0, 4))]
        self._moving: list[Floats] = [np.empty((0, 3))]

    def add(self, cells: Cells) -> None:
        """Look through some cells."""
        begin, end = cells.first * self._cell, (cells.first + cells.size) * self._cell
        near = [(t, tare) for t, tare in enumerate(self.tares) if tare.start < end and tare.end > begin]
        start = (cells.first + np.arange(cells.size)) * self._cell if near else np.zeros(0)
        for t, tare in near:
            inside = np.flatnonzero((start >= tare.start - 1e-9) & (start + self._cell <= tare.end + 1e-9))
            for k, channel in enumerate(self._channels):
                own = cells.sums[inside, k]
                own = own[own[:, COUNT] > 0]
                mean = own[:, FIRST] / own[:, COUNT]
                at, place = np.full(mean.size, float(t)), np.full(mean.size, float(k))
                if channel.role in ("speed", "rotor_speed"):
                    self._moving.append(np.stack((at, place, mean), axis=1))
                if channel.tared or channel.role in LOADS:
                    self._still.append(np.stack((at, place, mean, own[:, RAW] / own[:, COUNT]), axis=1))

    def cells(self) -> TareCells:
        """All that was found so far."""
        return TareCells(self.tares, np.concatenate(self._still), np.concatenate(self._moving))


def zeros_at(zeros: Sequence[Zero], channel: Channel, times: Floats) -> ZerosAt | None:
    """The zero of a channel at some times, shape (n,) [s]; None without any tare of it.

    Between two tares the zero is linear and its uncertainty that of a random walk tied down at both (Brownian
    bridge: wander^2 (t - a)(b - t)/(b - a)); outside it is held and its variance grows as wander^2 |t - a|.
    """
    own = sorted((z for z in zeros if z.channel == channel.name), key=lambda z: z.time)
    if not own:
        return None
    time, value, error, raw = (
        np.array([getattr(z, key) for z in own]) for key in ("time", "value", "standard_error", "raw")
    )
    jump = np.array([(b.value - a.value) ** 2 / 12.0 if jumped(a, b, channel) else 0.0 for a, b in pairwise(own)])
    after = np.searchsorted(time, times, side="right")
    a, b = np.maximum(after - 1, 0), np.minimum(after, time.size - 1)
    length = time[b] - time[a]
    between = length > 0.0
    f = np.where(between, (times - time[a]) / np.where(between, length, 1.0), 0.0)
    away = np.abs(times - time[a])
    walk = channel.zero_wander**2 * away * (1.0 - f)
    scatter = ((1.0 - f) * error[a]) ** 2 + (f * error[b]) ** 2
    moved = np.where(between, np.append(jump, 0.0)[a], 0.0)
    return ZerosAt(
        (1.0 - f) * value[a] + f * value[b], np.sqrt(walk + scatter + moved), (1.0 - f) * raw[a] + f * raw[b]
    )


def jumped(a: Zero, b: Zero, channel: Channel) -> bool:
    """Whether two tares differ by more than their scatter and the stated wander explain, `JUMP` times over.

    When the zero moved is then not known: its whole change over root 12 is counted as uncertainty between them.
    """
    told = channel.zero_wander**2 * (b.time - a.time) + a.standard_error**2 + b.standard_error**2
    return abs(b.value - a.value) > JUMP * math.sqrt(told)
