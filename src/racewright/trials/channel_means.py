"""What each channel says over each window of a record, zeros taken off."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.remark import Remark
from racewright.trials.cell_sums import ALL, COUNT, FIRST, RAW, SECOND, SPIKE_SUM, SPIKES, THIRD
from racewright.trials.channel import Channel
from racewright.trials.result import ChannelMean
from racewright.trials.zeros import Zero, ZerosAt, zeros_at

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class ChannelMeans:
    """Channels over n windows; NaN where a channel has no good reading in one.

    Attributes
    ----------
    totals : ndarray, shape (n, channels, COLUMNS)
        As `cell_sums` names the columns.
    offs : tuple of ZerosAt or None, one per channel
        None without tare.
    zero, mean, with_spikes, deviation, flagged, raw : ndarray, shape (n, channels)
        As `ChannelMean` says; mean raw reading, zero left in [raw unit].
    """

    totals: Floats
    offs: tuple[ZerosAt | None, ...]
    zero: Floats
    mean: Floats
    with_spikes: Floats
    deviation: Floats
    flagged: Floats
    raw: Floats

    def rows(self, names: Sequence[str]) -> list[tuple[ChannelMean, ...]]:
        """By window, the channels with a good reading."""
        table = np.stack((self.mean, self.with_spikes, self.deviation, self.zero), axis=2).tolist()
        readings, flagged = self.totals[:, :, ALL].astype(np.int64).tolist(), self.flagged.tolist()
        return [
            tuple(
                ChannelMean(name, mean, spikes, deviation, zero, count, share)
                for name, (mean, spikes, deviation, zero), count, share in zip(names, *columns, strict=True)
                if share < 1.0
            )
            for columns in zip(table, readings, flagged, strict=True)
        ]


def channel_means(totals: Floats, times: Floats, channels: Sequence[Channel], zeros: Sequence[Zero]) -> ChannelMeans:
    """From the sums of n windows, their middles at `times` [s]."""
    offs = tuple(zeros_at(zeros, c, times) if c.tared else None for c in channels)
    zero = np.zeros(totals.shape[:2])
    for k, off in enumerate(offs):
        if off:
            zero[:, k] = off.value
    count = totals[:, :, COUNT]
    n = np.where(count > 0.0, count, math.nan)
    own = totals[:, :, FIRST] / n
    square = np.maximum(totals[:, :, SECOND] / n - own**2, 0.0)
    both = (totals[:, :, FIRST] + totals[:, :, SPIKE_SUM]) / (n + totals[:, :, SPIKES])
    flagged = np.where(count > 0.0, 1.0 - count / np.maximum(totals[:, :, ALL], 1.0), 1.0)
    raw = totals[:, :, RAW] / n
    return ChannelMeans(totals, offs, zero, own - zero, both - zero, np.sqrt(square), flagged, raw)


def speed_moments(totals: Floats, channels: Sequence[Channel], weights: Floats) -> tuple[Floats, Floats, Floats]:
    """Cube mean [m/s], plain mean [m/s] and turbulence intensity [-] of n windows, over all good readings."""
    cube, mean, variance = (np.zeros(totals.shape[0]) for _k in range(3))
    probes = [k for k, c in enumerate(channels) if c.role == "speed"]
    for k, weight in zip(probes, weights, strict=True):
        n, first, second, third = (totals[:, k, column] for column in (COUNT, FIRST, SECOND, THIRD))
        noise = channels[k].noise ** 2
        own = first / n
        cube += weight * (third / n - 3.0 * noise * own)
        mean += weight * own
        variance += weight * np.maximum(second / n - own**2 - noise, 0.0)
    return np.cbrt(cube), mean, np.sqrt(variance) / mean


def channel_remarks(found: ChannelMeans, channels: Sequence[Channel]) -> list[list[Remark]]:
    """By window: channels without tare or reading, and those outside their calibration."""
    known = found.totals[:, :, COUNT] > 0.0
    low, high = (np.array([getattr(c.calibration, key) for c in channels]) for key in ("raw_low", "raw_high"))
    outside = known & ~((low <= found.raw) & (found.raw <= high))
    out: list[list[Remark]] = [[] for _window in range(known.shape[0])]
    for k, channel in enumerate(channels):
        if channel.tared and found.offs[k] is None:
            text = f"{channel.name} has no tare: its zero is taken as 0 and its doubt is not counted."
            for own in out:
                own.append(Remark("warning", text, "tare"))
        for i in np.flatnonzero(~known[:, k]).tolist():
            out[i].append(Remark("warning", f"{channel.name} has no good reading in this window.", "flags"))
        for i in np.flatnonzero(outside[:, k]).tolist():
            text = f"{channel.name} reads {found.raw[i, k]:.4g} on average, outside its calibration."
            out[i].append(Remark("caution", text, "calibration range"))
    return out
