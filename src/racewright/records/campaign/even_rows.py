"""Rows of a logger to evenly spaced readings of each channel at its own rate."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.records.campaign.form import Chunk as Rows
from racewright.trials.channel import Chunk

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

SLACK = 1.5
"""Rows by which a stamp may stand off from the even grid before it counts as a gap. Own choice."""
_LONG = 1 << 14
"""Rows that are waited for before they are handed on."""


class EvenRows:
    """Turns rows into chunks that begin where every channel has a reading.

    A row whose stamp is more than `SLACK` rows late begins a new stretch; the gap is left to the reduction. A
    channel slower than the logger is taken every so many rows, from the row on where its first value stands.
    """

    def __init__(self, names: Sequence[str], steps: Mapping[str, int], rate: float, shown_as: str) -> None:
        self._names, self._steps, self._rate, self._shown = tuple(names), steps, rate, shown_as
        self._period = math.lcm(*steps.values())
        self._phase: dict[str, int] = {}
        self._start = 0
        self._values: list[Floats] = []
        self._missing: list[Bools] = []
        self._size = 0

    def chunks(self, rows: Iterable[Rows]) -> Iterator[Chunk]:
        """All rows, in order."""
        for some in rows:
            yield from self._take(some)
        yield from self._flush(whole=True)

    def _take(self, rows: Rows) -> Iterator[Chunk]:
        place = np.rint(rows.time * self._rate).astype(np.int64)
        if not self._phase:
            self._set_phases(rows)
        at = 0
        while at < place.size:
            off = place[at:] - (self._start + self._size) - np.arange(place.size - at)
            if off[0] > SLACK:
                yield from self._flush(whole=True)
                self._begin(int(place[at]))
                continue
            late = off > SLACK
            end = at + (int(np.argmax(late)) if late.any() else late.size)
            if (off[: end - at] < -SLACK).any():
                self._too_many(rows, at)
            self._values.append(rows.values[at:end])
            self._missing.append(rows.missing[at:end])
            self._size += end - at
            at = end
        if self._size >= _LONG:
            yield from self._flush(whole=False)

    def _set_phases(self, rows: Rows) -> None:
        for k, name in enumerate(self._names):
            known = ~rows.missing[:, k]
            step = self._steps[name]
            self._phase[name] = int(np.argmax(known)) % step if step > 1 and known.any() else 0

    def _begin(self, place: int) -> None:
        """A new stretch at a row of the grid, its first period filled up with missing rows."""
        self._start = place - place % self._period
        self._pad(place % self._period)

    def _pad(self, count: int) -> None:
        if count:
            self._values.append(np.zeros((count, len(self._names))))
            self._missing.append(np.ones((count, len(self._names)), np.bool_))
            self._size += count

    def _flush(self, *, whole: bool) -> Iterator[Chunk]:
        """Whole periods that wait; with `whole` the last one is filled up with missing rows."""
        if whole:
            self._pad(-self._size % self._period)
        count = self._size - self._size % self._period
        if not count:
            return
        values, missing = _joined(self._values), _joined(self._missing)
        start = self._start / self._rate
        self._values, self._missing = ([], []) if count == self._size else ([values[count:]], [missing[count:]])
        self._start, self._size = self._start + count, self._size - count
        taken, blank = {}, {}
        for k, name in enumerate(self._names):
            cut = slice(self._phase.get(name, 0), count, self._steps[name])
            taken[name], blank[name] = values[cut, k], missing[cut, k]
        yield Chunk(start, taken, blank)

    def _too_many(self, rows: Rows, at: int) -> None:
        count = self._start + self._size
        message = (
            f"its rows come faster than the stated rate of {self._rate:g} Hz: about row {count + 1} the time is"
            f" {float(rows.time[at]):g} s; give the logger's true rate"
        )
        raise InputError(message, file=self._shown)


def _joined(parts: list[NDArray[Any]]) -> NDArray[Any]:
    """Rows that follow one another; those that came in one piece are not copied."""
    return parts[0] if len(parts) == 1 else np.concatenate(parts)
