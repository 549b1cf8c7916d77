"""Invented water: turbulence with a von Karman spectrum as a sum of first-order processes, and slow drift."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import nnls
from scipy.signal import lfilter

Floats = NDArray[np.float64]
_TIMES = np.geomspace(0.02, 6.0, 7)
"""Memory times of the processes, over the integral time L/U."""


def von_karman(frequency: Floats, time: float) -> Floats:
    """Longitudinal spectrum of unit variance, one-sided: 4 T / (1 + 70.8 (f T)^2)^(5/6) [1/Hz].

    Parameters
    ----------
    frequency : ndarray
        [Hz]
    time : float
        Integral time, length scale over mean speed [s].

    References
    ----------
    von Karman (1948) in the form of wind engineering, from memory.
    """
    return 4.0 * time / (1.0 + 70.8 * (frequency * time) ** 2) ** (5.0 / 6.0)


def mixture() -> tuple[Floats, Floats]:
    """Memory times over the integral time and variances, sum 1, of the processes that make up the spectrum.

    Least squares with no negative variance on 200 frequencies from 0.01 to 20 over the integral time, relative
    misfit; found once.
    """
    f = np.geomspace(0.01, 20.0, 200)
    target = von_karman(f, 1.0)
    basis = 4.0 * _TIMES / (1.0 + (2.0 * np.pi * f[:, None] * _TIMES) ** 2)
    variance, _ = nnls(basis / target[:, None], np.ones(f.size))
    kept = variance > 0.0
    return _TIMES[kept], variance[kept] / variance[kept].sum()


_MIX = mixture()


class Memory:
    """A stationary first-order process of unit variance, in pieces."""

    def __init__(self, rng: np.random.Generator, rate: float, time: float) -> None:
        self._rng = rng
        self._a = float(np.exp(-1.0 / (rate * time)))
        self._b = float(np.sqrt(1.0 - self._a**2))
        self._state = np.array([self._a * rng.standard_normal()])

    def take(self, count: int) -> Floats:
        """The next values."""
        out, self._state = lfilter([self._b], [1.0, -self._a], self._rng.standard_normal(count), zi=self._state)
        return np.asarray(out)


class Turbulence:
    """Speed fluctuation over the mean speed, as the machine and as point probes see it.

    The machine sees each process damped by 1/sqrt(1 + (size/(U time))^2): eddies smaller than it average out.
    A probe sees the full variance, the rest of it independent from probe to probe.
    """

    def __init__(
        self, seed: np.random.SeedSequence, rate: float, intensity: float, time: float, crossing: float, probes: int
    ) -> None:
        times, variance = _MIX
        amplitude = intensity * np.sqrt(variance)
        seen = 1.0 / np.sqrt(1.0 + (crossing / (times * time)) ** 2)
        streams = iter(seed.spawn(times.size * (1 + probes)))
        self._shared = [Memory(np.random.default_rng(next(streams)), rate, t * time) for t in times]
        self._own = [
            [Memory(np.random.default_rng(next(streams)), rate, t * time) for t in times] for _ in range(probes)
        ]
        self._seen = amplitude * seen
        self._unseen = amplitude * np.sqrt(1.0 - seen**2)
        self.machine_intensity = float(np.sqrt((self._seen**2).sum()))

    def take(self, count: int) -> tuple[Floats, list[Floats]]:
        """The machine's fluctuation and each probe's, over the mean speed [-]."""
        machine = np.zeros(count)
        for size, process in zip(self._seen, self._shared, strict=True):
            machine += size * process.take(count)
        probes = []
        for own in self._own:
            seen = machine.copy()
            for size, process in zip(self._unseen, own, strict=True):
                seen += size * process.take(count)
            probes.append(seen)
        return machine, probes
