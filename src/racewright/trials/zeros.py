"""Tares: the zero of a channel, linear in time between them, and how well it is known."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from racewright.trials.cell_sums import COUNT, FIRST, RAW
from racewright.trials.cells import Cells
from racewright.trials.channel import Channel, Span
from racewright.trials.series_error import FEWEST, series_error

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
class ZeroAt:
    """The zero at one time.

    Attributes
    ----------
    value, uncertainty : float
        Standard uncertainty from the tares' scatter and the zero's random walk between them
        [SI unit of the channel].
    raw : float
        [raw unit]
    """

    value: float
    uncertainty: float
    raw: float


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
                    own = cells.sums[k, inside]
                    known = own[:, COUNT] > 0
                    seen = (own[known, FIRST] / own[known, COUNT]).tolist()
                    self._moving.setdefault((t, k), []).extend(seen)
                if channel.tared:
                    kept = self._found.setdefault((t, k), [])
                    for c in inside:
                        count = cells.sums[k, c, COUNT]
                        if count > 0:
                            kept.append((cells.sums[k, c, FIRST] / count, cells.sums[k, c, RAW] / count))

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


def zero_at(zeros: Sequence[Zero], channel: Channel, time: float) -> ZeroAt | None:
    """The zero of a channel at a time; None without any tare of it.

    Between two tares the zero is linear and its uncertainty that of a random walk tied down at both (Brownian
    bridge: wander^2 (t - a)(b - t)/(b - a)); outside it is held and its variance grows as wander^2 |t - a|.
    """
    own = [z for z in zeros if z.channel == channel.name]
    if not own:
        return None
    before = [z for z in own if z.time <= time]
    after = [z for z in own if z.time > time]
    wander = channel.zero_wander**2
    if before and after:
        a, b = before[-1], after[0]
        f = (time - a.time) / (b.time - a.time)
        walk = wander * (time - a.time) * (1.0 - f)
        scatter = ((1.0 - f) * a.standard_error) ** 2 + (f * b.standard_error) ** 2
        jump = (b.value - a.value) ** 2 / 12.0 if jumped(a, b, channel) else 0.0
        value, raw = (1.0 - f) * a.value + f * b.value, (1.0 - f) * a.raw + f * b.raw
        return ZeroAt(value, math.sqrt(walk + scatter + jump), raw)
    nearest = before[-1] if before else after[0]
    variance = wander * abs(time - nearest.time) + nearest.standard_error**2
    return ZeroAt(nearest.value, math.sqrt(variance), nearest.raw)


def jumped(a: Zero, b: Zero, channel: Channel) -> bool:
    """Whether two tares differ by more than their scatter and the stated wander explain, `JUMP` times over.

    When the zero moved is then not known: its whole change over root 12 is counted as uncertainty between them.
    """
    told = channel.zero_wander**2 * (b.time - a.time) + a.standard_error**2 + b.standard_error**2
    return abs(b.value - a.value) > JUMP * math.sqrt(told)
