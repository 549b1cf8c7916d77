"""A fall of the torque that begins some time: least squares with flow and rotor speed taken out."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import fdtri

from racewright.trials.series_error import FEWEST, series_error

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
ONSETS = np.linspace(0.0, 0.8, 9)
"""Tried times of the beginning, over the time looked at. Own choice."""
EXPONENTS = 31
"""Exponents tried over their range. Own choice."""
SMOOTH = 13
"""Rows in the running mean of the speed, 130 s of 10 s means. Own choice."""


@dataclass(frozen=True)
class Tried:
    """Fits of ln(torque) for m onsets of the fall and p exponents of the speed.

    Attributes
    ----------
    onset : ndarray, shape (m,)
        When the fall begins [s].
    fall, after, gap_error : ndarray, shape (m, p)
        Fall of ln(torque) at the end of the fouled stretch; fall that is left after the cleaning, 0 where nothing
        was cleaned; standard error of their difference [-].
    fall_error : ndarray, shape (m, p)
        Standard error of the fall, memory counted [-].
    squares : ndarray, shape (m, p)
        Sums of squared residuals [-].
    kept : ndarray of bool, shape (p,)
        Exponents that the slow flow does not deny; at least one.
    effective : float
        Independent rows among the residuals [-].
    """

    onset: Floats
    fall: Floats
    after: Floats
    gap_error: Floats
    fall_error: Floats
    squares: Floats
    kept: Bools
    effective: float

    def best(self) -> tuple[int, int]:
        """Onset and exponent: the middle of the kept exponents, and its least squares."""
        places = np.flatnonzero(self.kept)
        exponent = int(places[places.size // 2])
        return int(np.argmin(self.squares[:, exponent])), exponent

    def near(self, k: float) -> Bools:
        """Fits of kept exponents whose onset is within k standard deviations of that exponent's best, (m, p)."""
        least = self.squares.min(axis=0)
        return np.asarray(self.kept & (self.squares <= least * (1.0 + k**2 / self.effective)))


def fits(
    time: Floats,
    speed: Floats,
    rotor: Floats,
    torque: Floats,
    exponents: tuple[float, float],
    cleaned: float = math.inf,
) -> Tried:
    """Fits for every onset and exponent tried.

    ln(torque) less exponent x slow ln(speed) is fitted by a constant, the fast rest of ln(speed), ln(rotor
    speed), a fall in a straight line from the onset to the end of the fouled stretch, and a step at the cleaning.
    A probe does not see quite the machine's flow: that noise would pull a fitted exponent towards 0 and a drift
    of the flow would be taken for a fall. So the exponent is not fitted but tried over its range, and denied
    where slow waves of time (cosines, shortest half-period 26 rows) still explain the remainder by an F test at
    0.1 %: waves know nothing of the probe's noise, and a flow without slow change denies nothing (after Anderson &
    Rubin 1949, from memory). Standard errors are those of least squares times the root of the residuals'
    variance inflation by memory.

    Parameters
    ----------
    time, speed, rotor, torque : ndarray, shape (n,)
        [s], [m/s], [rad/s], [N m]
    exponents : tuple of float
        Lowest and highest exponent of the torque in the speed at held rotor speed [-].
    cleaned : float
        Time of the cleaning [s].
    """
    slow = _smooth(np.log(speed))
    fast = np.log(speed) - slow
    before = time < cleaned
    first, last = float(time[0]), float(time[before][-1])
    columns = [np.ones(time.size), *(x - x.mean() for x in (fast, np.log(rotor)) if x.std() > 1e-9)]
    columns.append(np.where(before, 0.0, -1.0))
    powers = np.linspace(*exponents, EXPONENTS)
    remainder = np.log(torque)[:, None] - slow[:, None] * powers
    onset = first + ONSETS * (last - first)
    shape = (onset.size, powers.size)
    fall, after, gap, error, squares, excess = (np.empty(shape) for _ in range(6))
    rests = []
    for i, start in enumerate(onset):
        hinge = np.where(before, -np.maximum(time - start, 0.0) / (last - start), 0.0)
        design = np.column_stack([hinge, *columns])
        gain = np.linalg.pinv(design)
        answer = gain @ remainder
        rest = remainder - design @ answer
        squares[i] = (rest**2).sum(axis=0)
        fall[i], after[i] = answer[0], answer[-1]
        cov = gain @ gain.T
        error[i] = math.sqrt(cov[0, 0])
        gap[i] = math.sqrt(max(cov[0, 0] + cov[-1, -1] - 2.0 * cov[0, -1], 0.0))
        excess[i] = _excess(design, remainder, time)
        rests.append(rest)
    denied = excess.min(axis=0)
    least, j = divmod(int(np.argmin(excess)), powers.size)
    effective = min(series_error(rests[least][:, j]).effective_count, float(time.size))
    scatter = np.sqrt(squares / (time.size - len(columns) - 1) * time.size / effective)
    kept = (denied <= 1.0) | (np.arange(powers.size) == j)
    return Tried(onset, fall, after, gap * scatter, error * scatter, squares, kept, effective)


def enough(count: int) -> bool:
    """Whether so many rows bear a trend."""
    return count >= 2 * FEWEST


def _excess(design: Floats, remainder: Floats, time: Floats) -> Floats:
    """What slow waves explain beyond the fit, as F over its 0.1 % limit, one value per column of `remainder`."""
    n = time.size
    count = max(2, min(8, n // (2 * SMOOTH)))
    place = np.pi * (time - time[0]) / (time[-1] - time[0])
    waves = np.cos(place[:, None] * np.arange(1, count + 1))
    left, size, _ = np.linalg.svd(design, full_matrices=False)
    base = left[:, size > 1e-10 * size[0]]
    left, size, _ = np.linalg.svd(waves - base @ (base.T @ waves), full_matrices=False)
    left = left[:, size > 1e-6 * math.sqrt(n)]
    rest = remainder - base @ (base.T @ remainder)
    explained = ((left.T @ rest) ** 2).sum(axis=0)
    free = n - base.shape[1] - left.shape[1]
    noise = ((rest**2).sum(axis=0) - explained) / free
    limit = float(fdtri(left.shape[1], free, 0.999))
    return np.asarray(explained / left.shape[1] / noise / limit)


def _smooth(x: Floats) -> Floats:
    """Running mean over `SMOOTH` rows, fewer towards the ends."""
    total = np.concatenate(([0.0], np.cumsum(x)))
    place = np.arange(x.size)
    half = np.minimum(SMOOTH // 2, np.minimum(place, x.size - 1 - place))
    return np.asarray((total[place + half + 1] - total[place - half]) / (2 * half + 1))
