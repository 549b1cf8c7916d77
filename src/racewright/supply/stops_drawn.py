"""Stops of a machine drawn over a year: when debris or faults keep it still."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.supply.availability import LostTime, stops
from racewright.supply.door import SECONDS_PER_YEAR
from racewright.supply.streams import stream
from racewright.supply.time_grid import TimeGrid

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class StopCause:
    """What stops a machine, how often and for how long.

    Attributes
    ----------
    cause : str
        Such as 'debris'.
    yearly : float
        Stops in a year of 8760 h, >= 0 [1/yr].
    each : float
        Mean time from stop to running again, waiting for people and parts included, >= 0 [s].
    lasting : {'exponential', 'fixed'}
        How the time varies from stop to stop: exponentially (the default: most are short, some long; own choice), or
        always the mean.
    """

    cause: str
    yearly: float
    each: float
    lasting: Literal["exponential", "fixed"] = "exponential"

    def __post_init__(self) -> None:
        self.lost()
        if self.lasting not in ("exponential", "fixed"):
            raise InputError(f"stops for {self.cause} last {self.lasting!r}; wanted 'exponential' or 'fixed'")

    def lost(self) -> LostTime:
        """The share of time that they cost in the long run."""
        return stops(self.cause, self.yearly, self.each)


@dataclass(frozen=True, slots=True)
class DrawnStops:
    """Stops of machines over the intervals.

    Attributes
    ----------
    running : ndarray, shape (machines, n)
        Part of each interval in which the machine is able to run [-].
    count : ndarray of int, shape (machines, causes)
        Stops that began, by cause in the order given.
    """

    running: Floats
    count: NDArray[np.int64]


def draw_stops(
    causes: tuple[StopCause, ...], grid: TimeGrid, seed: int, *, machines: int = 1, name: str | int = ""
) -> DrawnStops:
    """Draw when each machine stands still.

    Each cause lets the machine run for exponential times and then stops it; causes do not wait for each other, so the
    long-run share of time running is the product that `supply.availability` gives. The first interval finds the
    machine stopped with that same chance.

    Parameters
    ----------
    causes : tuple of StopCause
        Each named once.
    grid : TimeGrid
    seed : int
        0 or more.
    machines : int
        1 or more, each with its own draws.
    name : str or int
        Of the case or the year: other names draw other stops.

    Raises
    ------
    InputError
        A cause named twice, no machine, a bad seed.
    """
    names = [one.cause for one in causes]
    if len(set(names)) != len(names):
        raise InputError(f"a cause of stops is named twice in {', '.join(names)}")
    if isinstance(machines, bool) or not isinstance(machines, int) or machines < 1:
        raise InputError(f"{machines!r} machines; wanted a whole number, 1 or more")
    running = np.ones((machines, grid.count))
    count = np.zeros((machines, len(causes)), dtype=np.int64)
    edge = (grid.edges() - grid.start).astype(np.float64)
    for m in range(machines):
        spans = []
        for c, cause in enumerate(causes):
            start, end = _intervals(cause, float(grid.duration), stream(seed, "stops", name, m, cause.cause))
            count[m, c] = np.count_nonzero((start >= 0.0) & (start < grid.duration))
            spans.append((start, end))
        still = _still(spans, edge)
        running[m] = np.clip(1.0 - still / grid.interval, 0.0, 1.0)
    return DrawnStops(running, count)


def _intervals(cause: StopCause, duration: float, chance: np.random.Generator) -> tuple[Floats, Floats]:
    """Starts and ends of the stops of one cause; the first may have begun before the start."""
    if cause.yearly == 0.0 or cause.each == 0.0:
        return np.zeros(0), np.zeros(0)
    between = SECONDS_PER_YEAR / cause.yearly
    up = between - cause.each
    if up <= 0.0:
        return np.array([-1.0]), np.array([duration])
    fixed = cause.lasting == "fixed"
    starts, ends, now = [], [], 0.0
    if chance.random() < cause.each / between:
        left = cause.each * chance.random() if fixed else chance.exponential(cause.each)
        starts.append(np.array([-1.0]))
        ends.append(np.array([left]))
        now = left
    while now < duration:
        size = int((duration - now) / between * 1.2) + 8
        pause = chance.exponential(up, size)
        last = np.full(size, cause.each) if fixed else chance.exponential(cause.each, size)
        end = now + np.cumsum(pause + last)
        starts.append(end - last)
        ends.append(end)
        now = float(end[-1])
    return np.concatenate(starts), np.concatenate(ends)


def _still(spans: list[tuple[Floats, Floats]], edge: Floats) -> Floats:
    """Time within each interval that any of the spans covers [s]."""
    start = np.concatenate([s for s, _ in spans]) if spans else np.zeros(0)
    end = np.concatenate([e for _, e in spans]) if spans else np.zeros(0)
    start, end = np.clip(start, 0.0, edge[-1]), np.clip(end, 0.0, edge[-1])
    if start.size == 0:
        return np.zeros(edge.size - 1)
    order = np.argsort(start, kind="stable")
    start, end = start[order], np.maximum.accumulate(end[order])
    fresh = np.concatenate(([True], start[1:] > end[:-1]))
    first = start[fresh]
    last = end[np.concatenate((fresh[1:], [True]))]
    time = np.column_stack((first, last)).ravel()
    covered = np.column_stack((np.zeros_like(first), last - first)).ravel().cumsum()
    found: Floats = np.diff(np.interp(edge, time, covered))
    return found
