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


class TareCollector:
    """Gathers the cells that lie wholly within tares."""

    def __init__(self, channels: Sequence[Channel], tares: Sequence[Span], cell: float) -> None:
        self.tares = tuple(sorted(tares, key=lambda t: t.start))
        self._channels = channels
        self._cell = cell
        self._found: dict[tuple[int, int], list[tuple[float, float]]] = {}
        self._moving: dict[tuple[int, int], list[float]] = {}

    def add(self, cells: Cells) -> None:
        """Look through some cells."""
        begin, end = cells.first * self._cell, (cells.first + cells.size) * self._cell
        near = [(t, tare) for t, tare in enumerate(self.tares) if tare.start < end and tare.end > begin]
        start = (cells.first + np.arange(cells.size)) * self._cell if near else np.zeros(0)
        for t, tare in near:
            inside = np.flatnonzero((start >= tare.start - 1e-9) & (start + self._cell <= tare.end + 1e-9))
            for k, channel in enumerate(self._channels):
                if channel.role in ("speed", "rotor_speed"):
                    own = cells.sums[inside, k]
                    known = own[:, COUNT] > 0
                    seen = (own[known, FIRST] / own[known, COUNT]).tolist()
                    self._moving.setdefault((t, k), []).extend(seen)
                if channel.tared:
                    kept = self._found.setdefault((t, k), [])
                    own = cells.sums[inside, k]
                    own = own[own[:, COUNT] > 0]
                    kept.extend(zip(own[:, FIRST] / own[:, COUNT], own[:, RAW] / own[:, COUNT], strict=True))

    def median(self, tare: int, role: str) -> float:
        """Median of the cells within a tare of the channels with a role, the largest of them; 0 without any
        [SI unit of the channel]."""
        own = [abs(float(np.median(v))) for (t, k), v in self._moving.items() if t == tare and v and
               self._channels[k].role == role]  # fmt: skip
        return max(own, default=0.0)

    def zeros(self) -> tuple[Zero, ...]:
        """All tares found, by channel and time; one with too few cells is left out."""
        out = []
        for k, channel in enumerate(self._channels):
            for t, tare in enumerate(self.tares):
                pairs = self._found.get((t, k), [])
                if len(pairs) >= FEWEST:
                    found = series_error([p[0] for p in pairs])
                    raw = float(np.mean([p[1] for p in pairs]))
                    middle = 0.5 * (tare.start + tare.end)
                    out.append(Zero(channel.name, middle, found.mean, found.standard_error, raw))
        return tuple(out)


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
