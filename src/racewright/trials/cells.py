"""From blocks of raw readings to cells: flags, calibration, sums, the shaft's angle."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.trials.cell_sums import BINS, COLUMNS, channel_sums, shaft_sums
from racewright.trials.channel import Channel
from racewright.trials.flags import GOOD, REASONS, Codes, FlagCount, flag_blocks
from racewright.trials.regroup import Blocks

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Complexes = NDArray[np.complex128]
Flagged = Callable[[str, Ints, Ints, Codes], None]
"""Takes a channel's name and runs of flagged readings: first and last reading since the record's start, reason."""


@dataclass(frozen=True)
class Cells:
    """A run of cells.

    Attributes
    ----------
    first : int
        Number of the first cell since the record's start [-].
    sums : ndarray, shape (n, channels, COLUMNS)
        By cell and channel, as `cell_sums` names the columns.
    product : ndarray, shape (n, 2)
        Count and sum of torque x rotor speed [-, W].
    orders : ndarray of complex, shape (n, 2, m)
        Readings and torque by the rotor's angle, as harmonics of two turns: orders 0.5, 1, 1.5 and so on [-, N m].
    """

    first: int
    sums: Floats
    product: Floats
    orders: Complexes

    @property
    def size(self) -> int:
        """How many cells."""
        return int(self.product.shape[0])

    def part(self, start: int, count: int) -> Cells:
        """Cells `start` to `start + count`, counted from the first one here."""
        cut = slice(start, start + count)
        return Cells(self.first + start, self.sums[cut], self.product[cut], self.orders[cut])

    @classmethod
    def joined(cls, parts: Sequence[Cells]) -> Cells:
        """Cells that follow one another, as one run; at least one part."""
        if len(parts) == 1:
            return parts[0]
        return cls(
            parts[0].first,
            np.concatenate([one.sums for one in parts]),
            np.concatenate([one.product for one in parts]),
            np.concatenate([one.orders for one in parts]),
        )


class Sieve:
    """Turns blocks into cells and counts the flags on the way.

    Each block is flagged by itself, so the answer does not depend on how the record was cut into chunks: a run
    of equal readings or a running median does not reach over a block's end.
    """

    def __init__(self, channels: Sequence[Channel], cell: float, orders: int, flagged: Flagged | None = None) -> None:
        self.channels = tuple(channels)
        self._flagged, self.cell = flagged, cell
        turn = np.outer(np.arange(BINS), np.arange(1, orders + 1)) % BINS * (2.0 * np.pi / BINS)
        self._cosine, self._sine = np.cos(turn), np.sin(turn)
        self.counts: Ints = np.zeros((len(self.channels), len(REASONS)), np.int64)
        self._torque = only(channels, "torque")
        self._speed = only(channels, "rotor_speed")
        self._angle = 0.0
        self._held = 0.0

    def cells(self, found: Iterable[Blocks]) -> Iterator[Cells]:
        """Cells, as many blocks at a time as come together."""
        for some in found:
            yield self._of(some)

    def flag_counts(self) -> tuple[FlagCount, ...]:
        """Flags of the whole record so far, one entry per channel."""
        return tuple(
            FlagCount(c.name, int(row.sum()), *(int(k) for k in row[1:]))
            for c, row in zip(self.channels, self.counts, strict=True)
        )

    def _of(self, some: Blocks) -> Cells:
        n = some.cells
        sums = np.empty((n, len(self.channels), COLUMNS))
        values: list[Floats] = []
        for k, channel in enumerate(self.channels):
            raw, code = some.raw[k], some.codes[k]
            bad = flag_blocks(
                raw, code, some.count, channel.low, channel.high, channel.stuck_count, channel.spike_factor,
                channel.spike_floor, self.counts[k],
            )  # fmt: skip
            if self._flagged is not None and bad:
                before = round(some.first_cell * self.cell * channel.rate)
                self._flagged(channel.name, *flag_runs(code, before, some.count))
            value = np.empty(raw.size)
            channel_sums(raw, code, channel.calibration.coefficients, n, value, sums[:, k])
            values.append(value)
        product, orders = np.empty((n, 2)), np.empty((n, 2, self._cosine.shape[1]), np.complex128)
        t, s = self._torque, self._speed
        speed, speed_code = self._aligned(values[t].size, values[s], some.codes[s], some.count)
        self._angle, self._held = shaft_sums(
            values[t], some.codes[t], speed, speed_code, self.channels[t].rate, self._angle, self._held, n,
            self._cosine, self._sine, product, orders,
        )  # fmt: skip
        return Cells(some.first_cell, sums, product, orders)

    def _aligned(self, count: int, value: Floats, code: Codes, blocks: int) -> tuple[Floats, Codes]:
        """Rotor speed at the instants of the torque: linear between good readings, held at a block's ends."""
        if value.size == count:
            return value, code
        parts = zip(np.split(value, blocks), np.split(code, blocks), strict=True)
        found = [self._between(count // blocks, *part) for part in parts]
        return np.concatenate([one for one, _code in found]), np.concatenate([one for _value, one in found])

    def _between(self, count: int, value: Floats, code: Codes) -> tuple[Floats, Codes]:
        """The same within one block."""
        good = code == GOOD
        if not good.any():
            return np.zeros(count), np.ones(count, np.uint8)
        own = np.arange(value.size) / self.channels[self._speed].rate
        wanted = np.arange(count) / self.channels[self._torque].rate
        nearest = np.minimum((wanted * self.channels[self._speed].rate).astype(np.int64), value.size - 1)
        return np.interp(wanted, own[good], value[good]), code[nearest]


def flag_runs(code: Codes, before: int, blocks: int = 1) -> tuple[Ints, Ints, Codes]:
    """Runs of equal flags within each of `blocks` equal blocks: first reading, last reading (counted from `before`),
    reason; good ones left out."""
    new = np.diff(code) != 0
    new[code.size // blocks - 1 :: code.size // blocks] = True
    edge = np.flatnonzero(new) + 1
    first = np.concatenate(([0], edge))
    last = np.concatenate((edge, [code.size])) - 1
    reason = code[first]
    bad = reason != GOOD
    return first[bad] + before, last[bad] + before, reason[bad]


@dataclass(frozen=True)
class Places:
    """Where the channels stand that the coefficients need.

    Attributes
    ----------
    probes : ndarray of int, shape (p,)
        Of the stream speed.
    torque, rotor_speed, thrust : int
    judged : ndarray of int
        Those that must be steady: probes, rotor speed, torque.
    all : ndarray of int
        All of them, rising.
    """

    probes: Ints
    torque: int
    rotor_speed: int
    thrust: int
    judged: Ints
    all: Ints


def places_of(channels: Sequence[Channel]) -> Places:
    """Places of the channels by their roles; errors as `only`."""
    probes = np.array([k for k, c in enumerate(channels) if c.role == "speed"], np.int64)
    torque, rotor, thrust = (only(channels, role) for role in ("torque", "rotor_speed", "thrust"))
    judged = np.append(probes, (rotor, torque))
    return Places(probes, torque, rotor, thrust, judged, np.sort(np.append(judged, thrust)))


def only(channels: Sequence[Channel], role: str) -> int:
    """Place of the one channel with a role.

    Raises
    ------
    InputError
        None, or more than one.
    """
    places = [k for k, c in enumerate(channels) if c.role == role]
    if len(places) != 1:
        raise InputError(f"{len(places)} channels have the role {role!r}; the reduction wants exactly one")
    return places[0]
