"""Readings that are not believed: flagged with a reason, counted, never removed in silence."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numba import njit
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Codes = NDArray[np.uint8]
Ints = NDArray[np.int64]

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


@njit(cache=True, nogil=True)
def _sort(buffer: Floats, count: int) -> None:
    """Sort the first `count` values in place by insertion."""
    for i in range(1, count):
        v = buffer[i]
        j = i - 1
        while j >= 0 and buffer[j] > v:
            buffer[j + 1] = buffer[j]
            j -= 1
        buffer[j + 1] = v


@njit(cache=True, nogil=True)
def _nine(x: Floats, at: int) -> float:
    """Median of nine values from `at` on by exchanges, which no order slows down (Paeth 1990, Graphics Gems)."""
    a, b, c, d, e = x[at], x[at + 1], x[at + 2], x[at + 3], x[at + 4]
    f, g, h, i = x[at + 5], x[at + 6], x[at + 7], x[at + 8]
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


@njit(cache=True, nogil=True)
def _median(buffer: Floats, count: int) -> float:
    """Median of the first `count` values, which are put in another order."""
    if count == 2 * HALF + 1:
        return _nine(buffer, 0)
    _sort(buffer, count)
    middle = count // 2
    if count % 2:
        return float(buffer[middle])
    return float(0.5 * (buffer[middle - 1] + buffer[middle]))


@njit(cache=True, nogil=True)
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


@njit(cache=True, nogil=True)
def _clean(code: Codes, first: int, end: int) -> bool:
    """Whether all readings from `first` to `end` are good."""
    marks = np.uint8(0)
    for i in range(first, end):
        marks |= code[i]
    return bool(marks == GOOD)


@njit(cache=True, nogil=True)
def _ranked(found: Floats, count: int, rank: int) -> float:
    """The value that `rank` of the first `count` stand below, as sorting would tell: the least of the largest few."""
    few = count - rank
    top = np.full(few, -np.inf)
    for i in range(count):
        v = found[i]
        if v <= top[0]:
            continue
        j = 1
        while j < few and top[j] < v:
            top[j - 1] = top[j]
            j += 1
        top[j - 1] = v
    return float(top[0])


@njit(cache=True, nogil=True)
def _scales(x: Floats, code: Codes, buffer: Floats) -> Floats:
    """Robust standard deviation about the running median in each of PARTS equal parts of the array.

    The distance that nine in ten of some 60 readings of the part keep, over 1.645 (normal noise); not the median
    distance, which is near 0 on the flanks of a ripple and would condemn its crests. The larger of the part's own
    and its two neighbours': where a still machine starts to turn, the quiet part must not judge the loud one.
    """
    n = x.size
    width = 2 * HALF + 1
    step = (n + _SAMPLES - 1) // _SAMPLES
    found = np.empty(_SAMPLES)
    own = np.zeros(PARTS)
    for p in range(PARTS):
        count = 0
        first, end = p * n // PARTS, (p + 1) * n // PARTS
        clean = _clean(code, max(first - width, 0), min(end + width, n))
        for i in range(first, end, step):
            if clean:
                found[count] = abs(x[i] - _nine(x, min(max(i - HALF, 0), n - width)))
                count += 1
            elif code[i] == GOOD:
                m = _window(x, code, i, buffer)
                found[count] = abs(x[i] - _median(buffer, m))
                count += 1
        if count:
            own[p] = _ranked(found, count, (9 * count) // 10) / 1.645
    wide = own.copy()
    for p in range(PARTS):
        for q in range(max(p - 1, 0), min(p + 2, PARTS)):
            wide[p] = max(wide[p], own[q])
    return wide


@njit(cache=True, nogil=True)
def _equal_run(x: Floats, count: int) -> bool:
    """Whether `count` equal readings, good or not, stand in a row: one of their places is a multiple of count - 1."""
    n = x.size
    for i in range(count - 1, n, count - 1):
        if x[i] == x[i - 1]:
            first, last = i - 1, i
            while first > 0 and x[first - 1] == x[i]:
                first -= 1
            while last + 1 < n and x[last + 1] == x[i]:
                last += 1
            if last - first + 1 >= count:
                return True
    return False


@njit(cache=True, nogil=True)
def _range_and_stuck(x: Floats, code: Codes, low: float, high: float, stuck_count: int) -> None:
    """Flag what lies out of range, then runs of equal values."""
    n = x.size
    beyond = False
    for i in range(n):
        beyond |= (x[i] <= low) | (x[i] >= high)
    if beyond:
        for i in range(n):
            if code[i] == GOOD and (x[i] <= low or x[i] >= high):
                code[i] = OUT_OF_RANGE
    if stuck_count > 1 and _equal_run(x, stuck_count):
        run = 0
        for i in range(n + 1):
            if i < n and run > 0 and code[i] == GOOD and x[i] == x[i - 1]:
                run += 1
                continue
            if run >= stuck_count:
                for j in range(i - run, i):
                    code[j] = STUCK
            run = 1 if i < n and code[i] == GOOD else 0


@njit(cache=True, nogil=True)
def _spread(x: Floats, code: Codes, first: int, end: int) -> float:
    """Largest less smallest of the good readings from `first` to `end`."""
    low, high = np.inf, -np.inf
    if not _clean(code, first, end):
        for i in range(first, end):
            if code[i] == GOOD:
                low, high = min(low, x[i]), max(high, x[i])
        return high - low
    low2, high2 = np.inf, -np.inf  # two at a time: the processor need not wait for the one before
    for i in range(first, end - 1, 2):
        low, high = min(low, x[i]), max(high, x[i])
        low2, high2 = min(low2, x[i + 1]), max(high2, x[i + 1])
    low, high = min(low, x[end - 1]), max(high, x[end - 1])
    return float(max(high, high2) - min(low, low2))


@njit(cache=True, nogil=True)
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
    need, some = HALF + 1, False
    spikes = np.empty(0, np.bool_)
    for p in range(PARTS):
        most = threshold[p]
        if most <= 0.0:
            continue
        first, end = p * n // PARTS, (p + 1) * n // PARTS
        if _spread(x, code, max(first - HALF, 0), min(end + HALF, n)) <= most:
            continue
        if not some:
            some, spikes = True, np.zeros(n, np.bool_)
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
    for i in range(n if some else 0):
        if spikes[i]:
            code[i] = SPIKE
    return threshold


@njit(cache=True, nogil=True)
def flag_blocks(
    x: Floats,
    code: Codes,
    blocks: int,
    low: float,
    high: float,
    stuck_count: int,
    factor: float,
    floor: float,
    counts: Ints,
) -> bool:
    """Flag `blocks` blocks of equal length, each by itself as `flag` does; add how often each code stands to
    `counts`, shape (reasons,). Tells whether any reading carries a flag."""
    n = x.size // blocks
    bad = 0
    for b in range(blocks):
        flag(x[b * n : (b + 1) * n], code[b * n : (b + 1) * n], low, high, stuck_count, factor, floor)
    for i in range(x.size):
        bad += code[i] != GOOD
    counts[GOOD] += x.size - bad
    for i in range(x.size if bad else 0):
        if code[i] != GOOD:
            counts[code[i]] += 1
    return bad > 0
