"""What the logger delivers: channels, and chunks of their raw readings."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.trials.calibration import Calibration

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Role = Literal["speed", "torque", "rotor_speed", "thrust", "level", "temperature", "other"]

WIDEST = 1e12
"""Widest range of raw readings [raw unit]."""


@dataclass(frozen=True)
class Channel:
    """One channel: how it is sampled, turned into SI, and what is not believed.

    Attributes
    ----------
    name : str
        Key of the channel in every chunk.
    role : {'speed', 'torque', 'rotor_speed', 'thrust', 'level', 'temperature', 'other'}
        What it measures: m/s, N m, rad/s, N, depth of water m, K. Several 'speed' channels form a profile.
    rate : float
        Samples per second [Hz].
    calibration : Calibration
    low, high : float
        A reading at or beyond these is out of range (full scale counts as out of range); 1e12 at most, so that
        no cube overflows [raw unit].
    stuck_count : int
        So many equal readings in a row are a stuck value; 0 leaves the test out [-].
    spike_factor : float
        A reading further than this many robust standard deviations from the running median is a spike; 0
        leaves the test out [-].
    spike_floor : float
        Smallest distance that can be a spike: six steps of the converter or more. At 0 a signal without noise
        has no scale of its own, and its crests pass for spikes [raw unit].
    tared : bool
        The zero is subtracted, linear in time between tares.
    zero_wander : float
        Standard deviation of the zero's random walk after one second; grows as the root of time
        [SI unit of the channel / s^0.5].
    noise : float
        Standard deviation of the sensor's own white noise, taken out of variance and cube of the speed
        [SI unit of the channel].
    """

    name: str
    role: Role
    rate: float
    calibration: Calibration
    low: float = -WIDEST
    high: float = WIDEST
    stuck_count: int = 0
    spike_factor: float = 8.0
    spike_floor: float = 0.0
    tared: bool = False
    zero_wander: float = 0.0
    noise: float = 0.0

    def __post_init__(self) -> None:
        """Refuse a rate, range or threshold that cannot be."""
        if not (math.isfinite(self.rate) and self.rate > 0.0):
            raise InputError(f"rate of channel {self.name!r} is {self.rate!r} Hz; wanted a number above 0, e.g. 100")
        if not -WIDEST <= self.low < self.high <= WIDEST:
            raise InputError(
                f"range of channel {self.name!r} is {self.low!r} to {self.high!r}; wanted low below high, within 1e12"
            )
        if self.stuck_count == 1 or self.stuck_count < 0:
            raise InputError(
                f"stuck_count of channel {self.name!r} is {self.stuck_count}; wanted 0 (off) or 2 or more"
            )
        for name in ("spike_factor", "spike_floor", "zero_wander", "noise"):
            number = getattr(self, name)
            if not (math.isfinite(number) and number >= 0.0):
                raise InputError(f"{name} of channel {self.name!r} is {number!r}; wanted a finite number, 0 or more")


@dataclass(frozen=True)
class Chunk:
    """A stretch of a record: raw readings of every channel from one instant on.

    Attributes
    ----------
    start : float
        Time of every channel's first reading in the chunk, after the record's start [s].
    values : mapping of str to ndarray
        Raw readings by channel, evenly spaced at the channel's own rate; finite throughout [raw unit].
    missing : mapping of str to ndarray of bool
        True where the file held a blank; a channel that is left out has none. The value there is not looked at.
    """

    start: float
    values: Mapping[str, Floats]
    missing: Mapping[str, Bools] = field(default_factory=dict)


@dataclass(frozen=True)
class Span:
    """A stretch of time in a record.

    Attributes
    ----------
    start, end : float
        After the record's start [s].
    """

    start: float
    end: float

    def __post_init__(self) -> None:
        """Refuse an empty stretch."""
        if not (math.isfinite(self.start) and math.isfinite(self.end) and self.start < self.end):
            raise InputError(f"a span of time runs from {self.start!r} s to {self.end!r} s; the end must come later")
