"""Third-octave bands of base ten, and sums of levels."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.door import numbers, whole

Floats = NDArray[np.float64]

FIRST, LAST = 10, 50
"""10 Hz to 100 kHz."""


def third_octaves(first: int = FIRST, last: int = LAST) -> Floats:
    """Middle frequencies 10^(n/10), n from `first` to `last`, -10 to 70, shape (last - first + 1,) [Hz].

    Base ten as in IEC 61260-1 (2014): a tenth of a decade.
    """
    whole("first", first, -10, 70, FIRST)
    whole("last", last, first, 70, LAST)
    return np.asarray(10.0 ** (np.arange(first, last + 1) / 10.0), dtype=np.float64)


def bandwidth(frequency: ArrayLike) -> Floats:
    """Width of the third-octave band about a middle frequency, f (10^(1/20) - 10^(-1/20)) [Hz]."""
    middle = numbers("frequency", frequency, 1e-3, 1e7, "Hz")
    return np.asarray(middle * (10.0**0.05 - 10.0**-0.05), dtype=np.float64)


def level_sum(levels: ArrayLike, axis: int = -1) -> Floats:
    """Level of all together, 10 lg sum 10^(L/10), along one axis [dB]."""
    found = numbers("levels", levels, -1e9, 1e3, "dB")
    top = found.max(axis=axis, keepdims=True)
    added = np.log10(np.sum(10.0 ** ((found - top) / 10.0), axis=axis))
    return np.asarray(np.squeeze(top, axis=axis) + 10.0 * added, dtype=np.float64)


def exposure_gain(duration: float) -> float:
    """What an even sound of some duration adds to its level, 10 lg(T/1 s), T 1e-3 to 1e8 s [dB]."""
    return float(10.0 * np.log10(numbers("duration", duration, 1e-3, 1e8, "s")))
