"""The search over a record's cells: steady windows, what is refused and why, tares and the slow series."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.tick import Tick, silent
from racewright.trials.cells import Cells, places_of
from racewright.trials.channel import Channel, Span
from racewright.trials.result import Refusal
from racewright.trials.rig import Rig
from racewright.trials.series import SeriesCollector
from racewright.trials.settings import Settings
from racewright.trials.steady import refusals
from racewright.trials.window import Window, window
from racewright.trials.zeros import TareCells, TareCollector

Floats = NDArray[np.float64]
_TOGETHER = 8
"""Windows whose cells are gathered before the search goes over them."""
AFTER = ("follow", "confidence")
"""Fields of `Settings` that the search does not look at: they are of the readings alone."""


@dataclass(frozen=True)
class Found:
    """All that readings need of a record's cells, whatever the settings in `AFTER` and most of the rig.

    Attributes
    ----------
    windows : tuple of Window
        Steady, in order of time.
    refusals : tuple of Refusal
        Every stretch without a window, with the reasons.
    tares : TareCells
    blocks : ndarray, shape (blocks, channels, COLUMNS)
        Sums of all blocks, as `cell_sums` names the columns.
    cells : int
        How many the record has [-].
    """

    windows: tuple[Window, ...]
    refusals: tuple[Refusal, ...]
    tares: TareCells
    blocks: Floats
    cells: int


def search(
    found: Iterable[Cells],
    channels: Sequence[Channel],
    share: Floats,
    rig: Rig,
    tares: Sequence[Span],
    settings: Settings,
    duration: float | None = None,
    tick: Tick = silent,
) -> Found:
    """Go over a record's cells once.

    Parameters
    ----------
    found : iterable of Cells
        In order of time, in whole blocks of `settings.block_cells`; the last may be shorter.
    channels, rig, tares, settings, duration, tick
        As `reduce`. Of the rig only the annulus, the tip's radius and the numbers of blades and vanes are looked at.
    share : ndarray, shape (speed channels,)
        Weights of the probes, together 1 [-].
    """
    collector = TareCollector(channels, tares, settings.cell)
    walk = _Search(channels, share, collector.tares, rig, settings)
    rows = SeriesCollector(settings)
    seen = 0
    for cells in found:
        collector.add(cells)
        rows.add(cells)
        walk.add(cells)
        seen = cells.first + cells.size
        tick(min(1.0, seen * settings.cell / duration) if duration else 0.0)
    walk.close(seen)
    return Found(tuple(walk.windows), tuple(walk.refused), collector.cells(), rows.blocks(len(channels)), seen)


class _Search:
    """Walks over the cells: a steady window is taken whole, an unsteady one moves the search on by a hop."""

    def __init__(
        self, channels: Sequence[Channel], share: Floats, tares: Sequence[Span], rig: Rig, settings: Settings
    ) -> None:
        self.windows: list[Window] = []
        self.refused: list[Refusal] = []
        self._channels, self._share, self._rig, self._settings = channels, share, rig, settings
        self._places = places_of(channels)
        self._long = settings.window_cells
        self._hop = max(1, round(settings.hop * self._long))
        self._tares = [(t.start / settings.cell, t.end / settings.cell) for t in tares]
        self._held: list[Cells] = []
        self._count = 0

    def add(self, cells: Cells) -> None:
        self._held.append(cells)
        self._count += cells.size
        if self._count >= _TOGETHER * self._long:
            self._walk()

    def close(self, seen: int) -> None:
        """What is left is shorter than a window."""
        if self._count >= self._long:
            self._walk()
        if self._count:
            self._refuse(seen - self._count, seen, ("shorter than a window",))

    def _walk(self) -> None:
        """As far as whole windows go."""
        held = Cells.joined(self._held)
        while held.size >= self._long:
            step = self._step(held)
            held = held.part(step, held.size - step)
        self._held, self._count = [held], held.size

    def _step(self, held: Cells) -> int:
        first, last = held.first, held.first + self._long
        for start, end in self._tares:
            if start < last and end > first:
                step = min(max(int(np.ceil(end - 1e-9)) - first, 1), self._seen(held))
                self._refuse(first, first + step, ("tare",))
                return step
        part = held.part(0, self._long)
        reasons = refusals(part, self._channels, self._places, self._rig, self._settings)
        if reasons:
            self._refuse(first, first + self._hop, reasons)
            return self._hop
        self.windows.append(window(part, self._channels, self._places, self._share, self._rig, self._settings.cell))
        return self._long

    def _seen(self, held: Cells) -> int:
        """Cells up to the end of the block that completes the window: no step goes further, however many are held."""
        block = self._settings.block_cells
        return min(-(-(held.first + self._long) // block) * block - held.first, held.size)

    def _refuse(self, first: int, last: int, reasons: tuple[str, ...]) -> None:
        cell = self._settings.cell
        if self.refused:
            before = self.refused[-1]
            if abs(before.end - first * cell) < 1e-9 and _kinds(before.reasons) == _kinds(reasons):
                self.refused[-1] = Refusal(before.start, last * cell, before.reasons)
                return
        self.refused.append(Refusal(first * cell, last * cell, reasons))


def _kinds(reasons: tuple[str, ...]) -> tuple[str, ...]:
    """The reasons without their figures."""
    return tuple("".join(ch for ch in r if ch.isalpha() or ch in ": ") for r in reasons)
