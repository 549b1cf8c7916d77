"""Readings that are not believed: flagged with a reason, counted, never removed in silence."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Codes = NDArray[np.uint8]

GOOD, BLANK, GAP, OUT_OF_RANGE, STUCK, SPIKE = 0, 1, 2, 3, 4, 5
REASONS = ("good", "blank", "gap", "out of range", "stuck", "spike")
"""What each code means: a blank cell, a gap in time, at or beyond the stated range, the same value many times in a
row, further from the running median than the stated factor of the robust scale."""
HALF = 4
"""The running median spans 2 HALF + 1 = 9 readings; a spike of up to four readings is seen. Own choice."""
_SAMPLES = 250


@dataclass(frozen=True)
class FlagCount:
    """How many readings of one channel carry each flag.

    Attributes
    ----------
    channel : str
    readings : int
        All of them, good or not [-].
    blank, gap, out_of_range, stuck, spike : int
        Readings with that reason [-].
    """

    channel: str
    readings: int
    blank: int
    gap: int
    out_of_range: int
    stuck: int
    spike: int

    @property
    def share(self) -> float:
        """Share of readings that carry any flag [-]."""
        bad = self.blank + self.gap + self.out_of_range + self.stuck + self.spike
        return bad / self.readings if self.readings else 0.0


@njit(cache=True)
def _median(buffer: Floats, count: int) -> float:
    """Median of the first `count` values, sorted in place by insertion."""
    for i in range(1, count):
        v = buffer[i]
        j = i - 1
        while j >= 0 and buffer[j] > v:
            buffer[j + 1] = buffer[j]
            j -= 1
        buffer[j + 1] = v
    middle = count // 2
    if count % 2:
        return float(buffer[middle])
    return float(0.5 * (buffer[middle - 1] + buffer[middle]))


@njit(cache=True)
def _window(x: Floats, code: Codes, i: int, buffer: Floats) -> int:
    """Copy the readings in range about i (the window is pushed inwards at the ends); their count."""
    n = x.size
    width = 2 * HALF + 1
    first = min(max(i - HALF, 0), max(n - width, 0))
    count = 0
    for j in range(first, min(first + width, n)):
        if code[j] == GOOD:
            buffer[count] = x[j]
            count += 1
    return count


@njit(cache=True)
def _scale(x: Floats, code: Codes, step: int, buffer: Floats) -> float:
    """1.4826 times the median distance from the running median, over every step-th good reading."""
    found = np.empty(x.size // step + 1)
    count = 0
    for i in range(0, x.size, step):
        if code[i] == GOOD:
            m = _window(x, code, i, buffer)
            found[count] = abs(x[i] - _median(buffer, m))
            count += 1
    if count == 0:
        return 0.0
    return 1.4826 * _median(found, count)


@njit(cache=True)
def _range_and_stuck(x: Floats, code: Codes, low: float, high: float, stuck_count: int) -> None:
    """Flag what lies out of range, then runs of equal values."""
    n = x.size
    for i in range(n):
        if code[i] == GOOD and (x[i] <= low or x[i] >= high):
            code[i] = OUT_OF_RANGE
    if stuck_count > 1:
        run = 0
        for i in range(n + 1):
            if i < n and run > 0 and code[i] == GOOD and x[i] == x[i - 1]:
                run += 1
                continue
            if run >= stuck_count:
                for j in range(i - run, i):
                    code[j] = STUCK
            run = 1 if i < n and code[i] == GOOD else 0


@njit(cache=True)
def flag(x: Floats, code: Codes, low: float, high: float, stuck_count: int, factor: float, floor: float) -> float:
    """Fill in `code` where it is GOOD and the reading is not; return the spike threshold used [raw unit].

    Readings are compared within the array only. The threshold is max(factor x scale, floor); below 20 good
    readings there is no scale and the floor alone decides.
    """
    n = x.size
    _range_and_stuck(x, code, low, high, stuck_count)
    if factor <= 0.0 or n < 3:
        return 0.0
    buffer = np.empty(2 * HALF + 1)
    threshold = floor
    if n >= 20:
        threshold = max(floor, factor * _scale(x, code, (n + _SAMPLES - 1) // _SAMPLES, buffer))
    if threshold <= 0.0:
        return 0.0
    need = HALF + 1
    spikes = np.zeros(n, np.bool_)
    for i in range(n):
        if code[i] != GOOD:
            continue
        close = 1
        for d in range(1, HALF + 1):
            j, k = i - d, i + d
            if j >= 0 and code[j] == GOOD and abs(x[j] - x[i]) <= threshold:
                close += 1
            if k < n and code[k] == GOOD and abs(x[k] - x[i]) <= threshold:
                close += 1
            if close >= need:
                break
        if close < need:
            m = _window(x, code, i, buffer)
            spikes[i] = abs(x[i] - _median(buffer, m)) > threshold
    for i in range(n):
        if spikes[i]:
            code[i] = SPIKE
    return threshold
