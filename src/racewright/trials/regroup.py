"""Chunks of any length to blocks of one length, gaps in time filled with flagged places."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from racewright.errors import InputError
from racewright.trials.channel import Channel, Chunk
from racewright.trials.flags import BLANK, GAP, GOOD, Codes, Floats

_TOGETHER = 2048
"""Most cells that are handed on together, in whole blocks; bounds memory where cells hold few readings."""


@dataclass(frozen=True)
class Blocks:
    """All channels over one block of time or several that follow one another.

    Attributes
    ----------
    first_cell, cells, count : int
        Number of the first block's first cell, how many cells they have together, how many blocks they are [-].
    raw : tuple of ndarray
        Raw readings, one array per channel [raw unit].
    codes : tuple of ndarray of uint8
        GOOD, BLANK or GAP per reading.
    """

    first_cell: int
    cells: int
    count: int
    raw: tuple[Floats, ...]
    codes: tuple[Codes, ...]


class _Queue:
    """Readings of one channel that wait for their block."""

    def __init__(self, channel: Channel) -> None:
        self.channel = channel
        self.parts: list[tuple[Floats, Codes]] = []
        self.held = 0
        self.taken = 0

    def push(self, raw: Floats, code: Codes) -> None:
        self.parts.append((raw, code))
        self.held += raw.size

    def together(self, count: int) -> int:
        """How many times `count` readings wait in one piece, so that they can be taken without a copy."""
        return self.parts[0][0].size // count

    def take(self, count: int) -> tuple[Floats, Codes]:
        """The next `count` readings; those inside one chunk are a view, not a copy."""
        raws, codes, need = [], [], count
        while need:
            raw, code = self.parts[0]
            if raw.size <= need:
                self.parts.pop(0)
            else:
                self.parts[0] = (raw[need:], code[need:])
                raw, code = raw[:need], code[:need]
            raws.append(raw)
            codes.append(code)
            need -= raw.size
        self.held -= count
        self.taken += count
        if len(raws) == 1:
            return raws[0], codes[0]
        return (np.concatenate(raws), np.concatenate(codes)) if raws else (np.empty(0), np.empty(0, np.uint8))


def blocks(chunks: Iterable[Chunk], channels: Sequence[Channel], cell: float, cells: int) -> Iterator[Blocks]:
    """Blocks of `cells` cells of `cell` seconds, as many together as lie in one chunk.

    The record's last block may be shorter and comes alone; its incomplete cell is left out.

    Raises
    ------
    InputError
        A chunk that lacks a channel, holds NaN or infinity, starts before the last one ended, or a rate that
        has no whole number of readings in a block.
    """
    counts = [_whole(c, cell * cells) for c in channels]
    queues = [_Queue(c) for c in channels]
    origin: float | None = None
    first = 0
    for chunk in chunks:
        origin = chunk.start if origin is None else origin
        behind = max(round((chunk.start - origin) * q.channel.rate) - (q.taken + q.held) for q in queues)
        while behind > 0:  # a long gap goes through block by block, so that it costs no memory
            for queue, count in zip(queues, counts, strict=True):
                lag = round((chunk.start - origin) * queue.channel.rate) - (queue.taken + queue.held)
                fill = min(max(lag, 0), count)
                queue.push(np.zeros(fill), np.full(fill, GAP, np.uint8))
            for found in _whole_blocks(queues, counts, first, cells):
                yield found
                first += found.cells
            behind = max(round((chunk.start - origin) * q.channel.rate) - (q.taken + q.held) for q in queues)
        for queue in queues:
            _push(queue, chunk, origin)
        for found in _whole_blocks(queues, counts, first, cells):
            yield found
            first += found.cells
    left = min(int(q.held / q.channel.rate / cell + 1e-9) for q in queues)
    if left:
        yield _taken(queues, [round(left * cell * q.channel.rate) for q in queues], first, left, 1)


def _whole(channel: Channel, seconds: float) -> int:
    count = channel.rate * seconds
    if abs(count - round(count)) > 1e-6 or round(count) < 1:
        raise InputError(
            f"channel {channel.name!r} has {count:g} readings in a block of {seconds:g} s; choose a block that "
            f"holds a whole number of them"
        )
    return round(count)


def _whole_blocks(queues: list[_Queue], counts: list[int], first: int, cells: int) -> Iterator[Blocks]:
    """All blocks that are whole in every channel; one that lies over the edge of two chunks comes alone."""
    while all(q.held >= n for q, n in zip(queues, counts, strict=True)):
        together = min(q.together(n) for q, n in zip(queues, counts, strict=True))
        count = max(1, min(together, _TOGETHER // cells))
        yield _taken(queues, [count * n for n in counts], first, count * cells, count)
        first += count * cells


def _taken(queues: list[_Queue], counts: list[int], first: int, cells: int, blocks: int) -> Blocks:
    pairs = [q.take(min(n, q.held)) for q, n in zip(queues, counts, strict=True)]
    return Blocks(first, cells, blocks, tuple(p[0] for p in pairs), tuple(p[1] for p in pairs))


def _push(queue: _Queue, chunk: Chunk, origin: float) -> None:
    name = queue.channel.name
    if name not in chunk.values:
        raise InputError(
            f"the chunk at {chunk.start:g} s has no channel {name!r}; every chunk must hold every channel"
        )
    raw = np.ascontiguousarray(chunk.values[name], np.float64)
    if raw.ndim != 1:
        raise InputError(f"channel {name!r} must be a row of readings; its shape is {raw.shape}")
    expected = round((chunk.start - origin) * queue.channel.rate)
    if expected < queue.taken + queue.held:
        raise InputError(
            f"the chunk at {chunk.start:g} s starts before channel {name!r} ended; chunks must follow one another"
        )
    code = np.full(raw.size, GOOD, np.uint8)
    missing = chunk.missing.get(name)
    if missing is not None:
        if missing.shape != raw.shape:
            raise InputError(f"channel {name!r} has {raw.size} readings and {missing.size} marks of missing ones")
        if missing.any():
            code[missing] = BLANK
            raw = np.where(missing, 0.0, raw)
    if not np.isfinite(raw).all():
        raise InputError(
            f"channel {name!r} holds a reading that is not a finite number in the chunk at {chunk.start:g} s; "
            f"mark a blank in 'missing' instead"
        )
    queue.push(raw, code)
