"""Many cells at once: the common forms by whole arrays, every other cell through `cells`."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.place.result import Floats
from racewright.records.cells import number, stamp
from racewright.records.csv_form import Decimal

Bytes = NDArray[np.uint8]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_ZERO = 48
_EXACT_DIGITS = 15
"""Digits that a double holds exactly, so that one division by an exact power of ten rounds as `float` does."""
_POWERS = 10.0 ** np.arange(_EXACT_DIGITS + 1)
_MONTH_DAYS = np.array([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31], dtype=np.int64)
_DAYS_BEFORE = np.concatenate(([0, 0], np.cumsum(_MONTH_DAYS[1:12])))
_DAYS_TO_EPOCH = 719162
"""Days from 0001-01-01 to 1970-01-01."""
_FORMS = {10: (0, 0), 16: (5, 0), 17: (5, 1), 22: (5, 6), 19: (8, 0), 20: (8, 1), 25: (8, 6)}
"""Length of a stamp: length of its clock (hh:mm or hh:mm:ss), length of its zone (none, Z, +hh:mm)."""


def bulk_numbers(text: Bytes, begin: Ints, end: Ints, decimal: Decimal) -> tuple[Floats, Flags]:
    """Read cells as `cells.number` does, to the bit.

    Parameters
    ----------
    text : ndarray of uint8
        Bytes of the file.
    begin, end : ndarray of int64, shape (n,)
        First byte of each cell and the one behind its last.
    decimal : {'point', 'comma'}

    Returns
    -------
    value : ndarray, shape (n,)
        0 where blank.
    blank : ndarray of bool, shape (n,)

    Raises
    ------
    ValueError
        Of some cell, from `cells.number`.
    """
    length = end - begin
    blank = length == 0
    plain = length <= _EXACT_DIGITS + 1
    mark = ord("." if decimal == "point" else ",")
    mantissa, digits = np.zeros(length.size, dtype=np.int64), np.zeros(length.size, dtype=np.int64)
    marks, decimals = np.zeros(length.size, dtype=np.int64), np.zeros(length.size, dtype=np.int64)
    longest = int(length[plain].max(initial=0))
    last = text.size - 1
    for k in range(longest):
        inside = plain & (length > k)
        byte = text[np.minimum(begin + k, last)]
        figure = byte - np.uint8(_ZERO)
        is_digit = inside & (figure < 10)
        mantissa = np.where(is_digit, 10 * mantissa + figure, mantissa)
        digits += is_digit
        decimals += is_digit & (marks > 0)
        marks += inside & (byte == mark)
    clean = plain & (digits + marks == length) & (marks <= 1) & (digits > 0) & (digits <= _EXACT_DIGITS)
    value: Floats = mantissa / _POWERS[np.where(clean, decimals, 0)]
    for i in np.flatnonzero(~clean & ~blank):
        value[i] = number(_cell(text, begin[i], end[i]), decimal)
    return value, blank


def bulk_stamps(text: Bytes, begin: Ints, end: Ints, shift: int) -> Ints:
    """Read stamps as `cells.stamp` does: seconds since 1970-01-01 UTC; parameters as for `bulk_numbers`.

    Raises
    ------
    ValueError
        Of some cell, from `cells.stamp`.
    """
    length = end - begin
    out = np.zeros(length.size, dtype=np.int64)
    clean = np.zeros(length.size, dtype=np.bool_)
    for form in np.unique(length):
        if int(form) in _FORMS:
            chosen = np.flatnonzero(length == form)
            out[chosen], clean[chosen] = _stamps(text, begin[chosen], *_FORMS[int(form)], shift)
    for i in np.flatnonzero(~clean):
        out[i] = stamp(_cell(text, begin[i], end[i]), shift)
    return out


def _stamps(text: Bytes, begin: Ints, clock: int, zone: int, shift: int) -> tuple[Ints, Flags]:
    """Stamps of one length, and which of them are clean."""
    clean = np.ones(begin.size, dtype=np.bool_)

    def figures(at: int, count: int) -> Ints:
        total = np.zeros(begin.size, dtype=np.int64)
        for k in range(at, at + count):
            figure = text[begin + k] - np.uint8(_ZERO)
            np.logical_and(clean, figure < 10, out=clean)
            total = 10 * total + figure
        return total

    def marked(at: int, *marks: str) -> Flags:
        byte = text[begin + at]
        return np.isin(byte, [ord(mark) for mark in marks])

    year, month, day = figures(0, 4), figures(5, 2), figures(8, 2)
    clean &= marked(4, "-") & marked(7, "-") & (year >= 1) & (month >= 1) & (month <= 12) & (day >= 1)
    month = np.where(clean, month, 1)
    leap = (year % 4 == 0) & ((year % 100 != 0) | (year % 400 == 0))
    clean &= day <= _MONTH_DAYS[month] + (leap & (month == 2))
    before = year - 1
    days = 365 * before + before // 4 - before // 100 + before // 400
    days += _DAYS_BEFORE[month] + (leap & (month > 2)) + day - 1 - _DAYS_TO_EPOCH
    seconds: Ints = days * 86400
    if clock:
        hour, minute = figures(11, 2), figures(14, 2)
        second = figures(17, 2) if clock == 8 else np.zeros_like(hour)
        clean &= marked(10, "T", " ") & marked(13, ":") & (hour < 24) & (minute < 60) & (second < 60)
        if clock == 8:
            clean &= marked(16, ":")
        seconds += 3600 * hour + 60 * minute + second
    if zone == 0:
        return seconds - shift, clean
    at = 11 + clock
    if zone == 1:
        return seconds, clean & marked(at, "Z")
    hour, minute = figures(at + 1, 2), figures(at + 4, 2)
    east = marked(at, "+")
    clean &= (east | marked(at, "-")) & marked(at + 3, ":") & (hour < 24) & (minute < 60)
    offset = 3600 * hour + 60 * minute
    return seconds - np.where(east, offset, -offset), clean


def _cell(text: Bytes, begin: int, end: int) -> str:
    return text[begin:end].tobytes().decode("utf-8").strip()
