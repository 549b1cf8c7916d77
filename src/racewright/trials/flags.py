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
PARTS = 8
"""Parts of a block with a noise scale of their own. Own choice."""
_SAMPLES = 500


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
def _sort(buffer: Floats, count: int) -> None:
    """Sort the first `count` values in place by insertion."""
    for i in range(1, count):
        v = buffer[i]
        j = i - 1
        while j >= 0 and buffer[j] > v:
            buffer[j + 1] = buffer[j]
            j -= 1
        buffer[j + 1] = v


@njit(cache=True)
def _nine(buffer: Floats) -> float:
    """Median of nine values by exchanges, which no order of them slows down (Paeth 1990, Graphics Gems)."""
    a, b, c, d, e = buffer[0], buffer[1], buffer[2], buffer[3], buffer[4]
    f, g, h, i = buffer[5], buffer[6], buffer[7], buffer[8]
    b, c = min(b, c), max(b, c)
    e, f = min(e, f), max(e, f)
    h, i = min(h, i), max(h, i)
    a, b = min(a, b), max(a, b)
    d, e = min(d, e), max(d, e)
    g, h = min(g, h), max(g, h)
    b, c = min(b, c), max(b, c)
    e, f = min(e, f), max(e, f)
    h, i = min(h, i), max(h, i)
    a, d = min(a, d), max(a, d)
    f, i = min(f, i), max(f, i)
    e, h = min(e, h), max(e, h)
    d, g = min(d, g), max(d, g)
    b, e = min(b, e), max(b, e)
    c, f = min(c, f), max(c, f)
    e, h = min(e, h), max(e, h)
    e, c = min(e, c), max(e, c)
    g, e = min(g, e), max(g, e)
    e, c = min(e, c), max(e, c)
    return float(e)


@njit(cache=True)
def _median(buffer: Floats, count: int) -> float:
    """Median of the first `count` values, which are put in another order."""
    if count == 2 * HALF + 1:
        return _nine(buffer)
    _sort(buffer, count)
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
def _scales(x: Floats, code: Codes, buffer: Floats) -> Floats:
    """Robust standard deviation about the running median in each of PARTS equal parts of the array.

    The distance that nine in ten of some 60 readings of the part keep, over 1.645 (normal noise); not the median
    distance, which is near 0 on the flanks of a ripple and would condemn its crests. The larger of the part's own
    and its two neighbours': where a still machine starts to turn, the quiet part must not judge the loud one.
    """
    n = x.size
    step = (n + _SAMPLES - 1) // _SAMPLES
    found = np.empty(_SAMPLES)
    own = np.zeros(PARTS)
    for p in range(PARTS):
        count = 0
        for i in range(p * n // PARTS, (p + 1) * n // PARTS, step):
            if code[i] == GOOD and count < _SAMPLES:
                m = _window(x, code, i, buffer)
                found[count] = abs(x[i] - _median(buffer, m))
                count += 1
        if count:
            _sort(found, count)
            own[p] = found[(9 * count) // 10] / 1.645
    wide = own.copy()
    for p in range(PARTS):
        for q in range(max(p - 1, 0), min(p + 2, PARTS)):
            wide[p] = max(wide[p], own[q])
    return wide


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
def _spread(x: Floats, code: Codes, first: int, end: int) -> float:
    """Largest less smallest of the good readings from `first` to `end`."""
    low, high = np.inf, -np.inf
    for i in range(first, end):
        if code[i] == GOOD:
            low, high = min(low, x[i]), max(high, x[i])
    return high - low


@njit(cache=True)
def flag(x: Floats, code: Codes, low: float, high: float, stuck_count: int, factor: float, floor: float) -> Floats:
    """Fill in `code` where it is GOOD and the reading is not; return the spike thresholds, shape (PARTS,).

    Readings are compared within the array only. Within HALF readings of its ends the running median is not
    centred and a ramp would stand off from it, so that a spike there must also differ from every neighbour
    within HALF: only spikes of one reading are seen. The threshold is max(factor x scale, floor) [raw unit];
    below 80 readings there is no scale and the floor alone decides.
    """
    n = x.size
    threshold = np.zeros(PARTS)
    _range_and_stuck(x, code, low, high, stuck_count)
    if factor <= 0.0 or n < 3:
        return threshold
    buffer = np.empty(2 * HALF + 1)
    if n >= 10 * PARTS:
        threshold = factor * _scales(x, code, buffer)
    threshold = np.maximum(threshold, floor)
    need = HALF + 1
    spikes = np.zeros(n, np.bool_)
    for p in range(PARTS):
        most = threshold[p]
        if most <= 0.0:
            continue
        first, end = p * n // PARTS, (p + 1) * n // PARTS
        if _spread(x, code, max(first - HALF, 0), min(end + HALF, n)) <= most:
            continue
        for i in range(first, end):
            if code[i] != GOOD:
                continue
            close = 1
            for d in range(1, HALF + 1):
                j, k = i - d, i + d
                if j >= 0 and code[j] == GOOD and abs(x[j] - x[i]) <= most:
                    close += 1
                if k < n and code[k] == GOOD and abs(x[k] - x[i]) <= most:
                    close += 1
                if close >= need:
                    break
            if close < need and ((HALF <= i < n - HALF) or close == 1):
                m = _window(x, code, i, buffer)
                spikes[i] = abs(x[i] - _median(buffer, m)) > most
    for i in range(n):
        if spikes[i]:
            code[i] = SPIKE
    return threshold
