"""The reduction of a test record: from raw logger chunks to readings with their uncertainty."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.remark import Remark
from racewright.tick import Tick, silent
from racewright.trials.cell_sums import COUNT, FIRST
from racewright.trials.cells import Cells, Flagged, Sieve, only
from racewright.trials.channel import Channel, Chunk, Span
from racewright.trials.finish import readings
from racewright.trials.flags import FlagCount
from racewright.trials.regroup import blocks
from racewright.trials.result import Reduction
from racewright.trials.rig import Rig
from racewright.trials.ripple import most_orders
from racewright.trials.search import Found, search
from racewright.trials.series import Gap, block_series
from racewright.trials.settings import Settings
from racewright.trials.zeros import JUMP, TareCells, Zero, jumped

Floats = NDArray[np.float64]
_DEFAULT = Settings()
MOVING = 0.02
"""Share of a tare in which the rotor may read more than standing, as a probe that is jolted does. Own choice [-]."""
LEFT_IN = 0.002
"""A zero that is left in is told from this share of the readings on. Own choice [-]."""
_NAMED_GAPS = 5
"""Gaps of the series that a remark names, the longest first."""


def reduce(
    chunks: Iterable[Chunk],
    channels: Sequence[Channel],
    rig: Rig,
    *,
    tares: Sequence[Span] = (),
    weights: ArrayLike | None = None,
    settings: Settings = _DEFAULT,
    duration: float | None = None,
    flagged: Flagged | None = None,
    tick: Tick = silent,
) -> Reduction:
    """Reduce a record to steady readings, in one pass and in memory that does not grow with the logger's rate.

    Parameters
    ----------
    chunks : iterable of Chunk
        The record, in order of time; any length of chunk gives the same answer. A jump in `start` is a gap.
    channels : sequence of Channel
        Exactly one torque, rotor speed and thrust, at least one speed; levels, temperatures and others as
        there are.
    rig : Rig
    tares : sequence of Span
        When the machine stood without load; no window overlaps one [s].
    weights : array_like, shape (speed channels,), optional
        Parts of the capture area that the probes stand for, in the channels' order; equal where left out [any unit].
    settings : Settings
    duration : float, optional
        Expected length of the record, for `tick` only [s].
    flagged : callable, optional
        Told every run of flagged readings as it is found: channel, first and last reading since the record's
        start at the channel's own rate, reason as in `flags.REASONS`.
    tick : Tick

    Returns
    -------
    Reduction
        Readings are values; flagged readings are counted, and means with spikes kept stand beside.

    Raises
    ------
    InputError
        Channels, chunks, weights or tares that do not fit together.

    Examples
    --------
    See the theory note on the reduction of trials.
    """
    sieve = sieve_of(channels, rig, settings, flagged)
    cells = sieve.cells(blocks(chunks, sieve.channels, settings.cell, settings.block_cells))
    return reduce_cells(
        cells, sieve.flag_counts, channels, rig, tares=tares, weights=weights, settings=settings, duration=duration,
        tick=tick,
    )  # fmt: skip


def sieve_of(
    channels: Sequence[Channel], rig: Rig, settings: Settings = _DEFAULT, flagged: Flagged | None = None
) -> Sieve:
    """The first half of the reduction: from raw readings to cells. Arguments as `reduce`."""
    channels = tuple(channels)
    for role in ("torque", "rotor_speed", "thrust"):
        only(channels, role)
    if len({c.name for c in channels}) != len(channels):
        raise InputError("two channels share a name; every channel needs its own")
    return Sieve(channels, settings.cell, most_orders(rig.blades, rig.vanes), flagged)


def reduce_cells(
    found: Iterable[Cells],
    flags: Callable[[], tuple[FlagCount, ...]],
    channels: Sequence[Channel],
    rig: Rig,
    *,
    tares: Sequence[Span] = (),
    weights: ArrayLike | None = None,
    settings: Settings = _DEFAULT,
    duration: float | None = None,
    tick: Tick = silent,
) -> Reduction:
    """The second half of the reduction: from cells, in whole blocks of `settings.block_cells`, to readings.

    `flags` is asked for the flags' counts when the cells are through; other arguments as `reduce`.
    """
    channels = tuple(channels)
    share = shares(channels, weights)
    searched = search(found, channels, share, rig, tares, settings, duration, tick)
    return reduce_found(searched, flags(), channels, rig, tares=tares, share=share, settings=settings)


def reduce_found(
    found: Found,
    flags: tuple[FlagCount, ...],
    channels: Sequence[Channel],
    rig: Rig,
    *,
    tares: Sequence[Span],
    share: Floats,
    settings: Settings = _DEFAULT,
) -> Reduction:
    """The last part of the reduction: from what `search` found, with the same tares and weights, to readings.

    Other arguments as `reduce`, `share` as `search`.
    """
    zeros = found.tares.zeros(channels)
    remarks = [*_tare_remarks(found.tares, zeros, channels, settings), *_left_in(found, channels)]
    for channel in channels:
        count = sum(z.channel == channel.name for z in zeros)
        if channel.tared and count < len(tares):
            text = f"{channel.name}: {count} of {len(tares)} tares hold enough readings."
            remarks.append(Remark("caution", text, "tare"))
    series = block_series(found.blocks, found.cells, channels, share, zeros, settings)
    remarks += _gap_remarks(series.gaps)
    return Reduction(
        readings(found.windows, channels, share, zeros, rig, settings),
        found.refusals,
        zeros,
        flags,
        found.cells * settings.cell,
        series,
        tuple(remarks),
    )


def _gap_remarks(gaps: Sequence[Gap]) -> list[Remark]:
    """Where the series has no row and which channels are to blame, the longest few by name."""
    if not gaps:
        return []
    longest = sorted(sorted(gaps, key=lambda g: g.start - g.end)[:_NAMED_GAPS], key=lambda g: g.start)
    told = "; ".join(f"{g.start:.0f} to {g.end:.0f} s ({', '.join(g.channels)})" for g in longest)
    more = f"; and {len(gaps) - len(longest)} shorter ones" if len(gaps) > len(longest) else ""
    lost = sum(g.end - g.start for g in gaps)
    text = f"The series has gaps of {lost:.0f} s in all, where a channel has no good reading: {told}{more}."
    return [Remark("caution", text, "series")]


def shares(channels: Sequence[Channel], weights: ArrayLike | None) -> Floats:
    """Parts of the speed channels, together 1 [-]; equal where `weights` are left out.

    Raises
    ------
    InputError
        No speed channel, or weights that do not fit them.
    """
    count = sum(c.role == "speed" for c in channels)
    if count == 0:
        raise InputError("no channel has the role 'speed'; the reduction wants at least one")
    given = np.ones(count) if weights is None else np.asarray(weights, np.float64)
    if given.shape != (count,) or not np.isfinite(given).all() or (given < 0.0).any() or given.sum() <= 0.0:
        raise InputError(f"weights want {count} finite numbers, 0 or more and not all 0: one for each speed channel")
    return np.asarray(given / given.sum())


def _left_in(found: Found, channels: Sequence[Channel]) -> list[Remark]:
    """Loads that are not tared and read more than nought in a tare."""
    remarks = []
    for zero in found.tares.left_in(channels):
        k = next(k for k, c in enumerate(channels) if c.name == zero.channel)
        loads = [abs(w.totals[k, FIRST] / w.totals[k, COUNT]) for w in found.windows if w.totals[k, COUNT] > 0]
        part = abs(zero.value) / float(np.median(loads)) if loads else 0.0
        if part > LEFT_IN and abs(zero.value) > JUMP * zero.standard_error:
            text = (
                f"{zero.channel} is not tared, yet reads {zero.value:.3g} (SI) without load in the tare about"
                f" {zero.time:.0f} s, {100.0 * part:.2g} % of its readings: that stays in all of them and in no"
                " interval. Say tared = true."
            )
            remarks.append(Remark("warning", text, "tare"))
    return remarks


def _tare_remarks(
    found: TareCells, zeros: Sequence[Zero], channels: Sequence[Channel], settings: Settings
) -> list[Remark]:
    """Flow within a tare, and zeros that moved by more than was said; a turning rotor is refused."""
    remarks = []
    for t, tare in enumerate(found.tares):
        flowing = found.median(t, "speed", channels)
        where = f"the tare from {tare.start:g} s to {tare.end:g} s"
        share, most = found.moving_part(t, "rotor_speed", channels, settings.least_rotor)
        if share > MOVING:
            raise InputError(
                f"in {where} the rotor turns at {most:.3g} rad/s, for {100.0 * share:.0f} % of the time; a tare"
                " wants it standing: let it end before the start or begin after the stop"
            )
        if flowing > settings.least_speed:
            text = f"In {where} the water runs at {flowing:.3g} m/s: drag is taken off as if it were zero."
            remarks.append(Remark("warning", text, "tare"))
    for channel in channels:
        own = [z for z in zeros if z.channel == channel.name]
        for a, b in pairwise(own):
            if jumped(a, b, channel):
                text = (
                    f"The zero of {channel.name} moved by {b.value - a.value:.3g} (SI) between the tares at"
                    f" {a.time:.0f} s and {b.time:.0f} s, far beyond its stated wander; when is not known. Its change"
                    " over root 12 is counted; look at the trace before any of these readings is used."
                )
                remarks.append(Remark("warning", text, "tare"))
    return remarks
