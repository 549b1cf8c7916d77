"""Poses and slow tensions over load states and stream speeds, as arrays."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.holding.checked import Floats


@dataclass(frozen=True, slots=True)
class StaticsTable:
    """Arrays over load states (s) and stream speeds at the stream's reference height (u), with lines (n).

    NaN or null where nothing settled.

    Attributes
    ----------
    lost : str
        The tether that is missing, '' when intact.
    states, lines : tuple of str
        Names along the first and the last axis.
    stream_speed : ndarray, shape (u,)
        [m/s]
    settled, feasible : ndarray of bool, shape (s, u)
        A rest was found; nothing stands against it.
    reason : tuple of tuple of str
        First reason against each, '' without one.
    height, knock_down, offset : ndarray, shape (s, u)
        Of the reference over the bed; below its height in still water; horizontally from the intended place [m].
    roll, pitch, yaw : ndarray, shape (s, u)
        [rad]
    cover, bed_clearance : ndarray, shape (s, u)
        [m]
    tension, utilisation, uplift : ndarray, shape (s, u, n)
        Slow tension [N], over strength [-], upward load on the fixed point [N].
    """

    lost: str
    states: tuple[str, ...]
    lines: tuple[str, ...]
    stream_speed: Floats
    settled: NDArray[np.bool_]
    feasible: NDArray[np.bool_]
    reason: tuple[tuple[str, ...], ...]
    height: Floats
    knock_down: Floats
    offset: Floats
    roll: Floats
    pitch: Floats
    yaw: Floats
    cover: Floats
    bed_clearance: Floats
    tension: Floats
    utilisation: Floats
    uplift: Floats
