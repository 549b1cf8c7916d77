"""Invented sensors: a bent law, a wandering zero, noise, converter steps, spikes and drop-outs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.trials.calibration import Calibration, fit_calibration
from racewright.trials.channel import Channel, Role

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


@dataclass(frozen=True)
class Sensor:
    """One invented sensor.

    Attributes
    ----------
    name, raw_unit : str
        Channel name; unit of the logger's reading, e.g. 'mV'.
    role : str
        As in `Channel`.
    rate : float
        [Hz]
    full_scale : float
        [SI unit]
    gain, offset : float
        Raw reading at full scale less that at zero; raw reading at zero [raw unit].
    bend : float
        Share of the law that is a sine instead of a straight line [-].
    noise : float
        White, standard deviation [SI unit].
    step : float
        Of the converter [raw unit].
    wander : float
        Random walk of the zero after one second [SI unit / s^0.5].
    reference : float
        Relative standard deviation of the calibration's reference standard [-].
    tared : bool
    span : tuple of float
        What a calibration covers, lowest and highest over full scale [-].
    """

    name: str
    role: Role
    raw_unit: str
    rate: float
    full_scale: float
    gain: float
    offset: float
    bend: float
    noise: float
    step: float
    wander: float = 0.0
    reference: float = 0.0
    tared: bool = False
    span: tuple[float, float] = (-0.1, 1.15)

    def law(self, value: Floats) -> Floats:
        """Raw reading without noise: offset + gain ((1 - bend) s + bend sin(1.2 s)/1.2), s = value/full scale."""
        s = value / self.full_scale
        return np.asarray(self.offset + self.gain * ((1.0 - self.bend) * s + self.bend * np.sin(1.2 * s) / 1.2))

    @property
    def range(self) -> tuple[float, float]:
        """Lowest and highest raw reading of the converter: 130 % of full scale either way [raw unit]."""
        low, high = self.offset - 1.3 * self.gain, self.offset + 1.3 * self.gain
        return (low, high) if low < high else (high, low)

    def calibrate(self, rng: np.random.Generator, degree: int = 4, points: int = 15) -> tuple[Calibration, float]:
        """A calibration as a workshop would make it, and the relative error of its reference standard.

        The standard is off by one factor for all points; the rest is reading noise.
        """
        raw, value, error = self.calibration_points(rng, points)
        return fit_calibration(raw, value, degree, reference=self.reference), error

    def calibration_points(self, rng: np.random.Generator, points: int = 15) -> tuple[Floats, Floats, float]:
        """Raw readings, reference values as the workshop believes them, and the standard's relative error."""
        error = float(self.reference * rng.standard_normal())
        true = np.linspace(*self.span, points) * self.full_scale
        raw = self.law(true + 0.3 * self.noise * rng.standard_normal(points))
        return raw, true * (1.0 + error), error

    def channel(self, calibration: Calibration) -> Channel:
        """The channel as the reduction would be told of it."""
        low, high = self.range
        margin = 1e-6 * (high - low)
        fast = self.rate >= 20.0 and self.role != "rotor_speed"
        return Channel(
            self.name, self.role, self.rate, calibration, low + margin, high - margin,
            stuck_count=max(8, round(0.2 * self.rate)) if fast else 0, spike_floor=6.0 * self.step,
            tared=self.tared, zero_wander=self.wander, noise=self.noise,
        )  # fmt: skip


@dataclass(frozen=True)
class Faults:
    """How often an invented record is spoilt.

    Attributes
    ----------
    spikes, dropouts : float
        Per channel and hour: single wild readings; stretches of about half a second of a stuck value, full
        scale or blanks [1/h].
    nuts : float
        Per hour: a hard lump through the rotor, 15 ms of torque and thrust at three times the mean [1/h].
    """

    spikes: float = 0.0
    dropouts: float = 0.0
    nuts: float = 0.0


class SensorStream:
    """One sensor at work: true values in, raw readings and blanks out, piece by piece."""

    def __init__(self, sensor: Sensor, seed: np.random.SeedSequence, faults: Faults, duration: float) -> None:
        noise, walk, events = seed.spawn(3)
        self.sensor = sensor
        self._noise = np.random.default_rng(noise)
        self._walk = np.random.default_rng(walk)
        rng = np.random.default_rng(events)
        hours = duration / 3600.0
        total = round(duration * sensor.rate)
        self._spikes = np.sort(rng.integers(0, total, rng.poisson(faults.spikes * hours)))
        self._sizes = rng.choice([-1.0, 1.0], self._spikes.size) * rng.uniform(0.3, 0.9, self._spikes.size)
        starts = np.sort(rng.integers(0, total, rng.poisson(faults.dropouts * hours)))
        lengths = np.maximum(1, np.round(sensor.rate * rng.exponential(0.5, starts.size))).astype(np.int64)
        self._dropouts = list(zip(starts, starts + lengths, rng.integers(0, 3, starts.size), strict=True))
        self._zero = 0.0
        self._at = 0
        self._last = sensor.offset
        self.flag_truth = 0

    def take(self, true: Floats) -> tuple[Floats, Bools, Floats]:
        """Raw readings, blanks, and the zero's wander [SI unit] for the next true values."""
        sensor, n = self.sensor, true.size
        zero = np.zeros(n)
        if sensor.wander:
            step = sensor.wander / np.sqrt(sensor.rate)
            zero = self._zero + step * np.cumsum(self._walk.standard_normal(n))
            self._zero = float(zero[-1]) if n else self._zero
        raw = sensor.law(true + zero + sensor.noise * self._noise.standard_normal(n))
        low, high = sensor.range
        blank = np.zeros(n, np.bool_)
        first, last = np.searchsorted(self._spikes, [self._at, self._at + n])
        places = self._spikes[first:last] - self._at
        raw[places] += self._sizes[first:last] * sensor.gain
        if sensor.step:
            raw = np.round(raw / sensor.step) * sensor.step
        raw = np.clip(raw, low, high)
        self.flag_truth += places.size
        for start, end, kind in self._dropouts:
            a, b = max(start - self._at, 0), min(end - self._at, n)
            if a < b:
                self.flag_truth += int(b - a)
                if kind == 0:
                    raw[a:b] = raw[a - 1] if a else self._last
                elif kind == 1:
                    raw[a:b] = high
                else:
                    blank[a:b] = True
        self._at += n
        self._last = float(raw[-1]) if n else self._last
        return raw, blank, zero
