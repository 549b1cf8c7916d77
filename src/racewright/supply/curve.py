"""A power curve and a speed climate cut at the same speeds, so that each piece is linear in both."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError
from racewright.supply.density import bin_slopes

Floats = NDArray[np.float64]

_RATED_TOLERANCE = 1e-9


def sampled(name: str, values: Floats, size: int) -> Floats:
    """A power column of `size` finite values, 0 or more [W], or InputError."""
    column = np.asarray(values, dtype=np.float64)
    if column.shape != (size,) or not np.isfinite(column).all() or (column < 0.0).any():
        raise InputError(f"{name} wants {size} finite values of 0 or more, one for each speed of the power curve")
    return column


@dataclass(frozen=True)
class Pieces:
    """Stretches of speed inside one bin, between neighbouring points of the power curve.

    Attributes
    ----------
    start, end : ndarray, shape (p,)
        [m/s]
    bin : ndarray of int64, shape (p,)
        The bin each piece lies in.
    density_start, density_end : ndarray, shape (p,)
        Probability density of speed at its ends [s/m].
    running : ndarray of bool, shape (p,)
        True above cut-in and inside the power curve.
    width : ndarray, shape (b,)
        Of the bins [m/s].
    """

    start: Floats
    end: Floats
    bin: NDArray[np.int64]
    density_start: Floats
    density_end: Floats
    running: NDArray[np.bool_]
    width: Floats

    def integral(self, speed: Floats, power: Floats) -> Floats:
        """Power times density over each bin [W], shape (b,). Exact: Simpson's rule on a quadratic."""
        p0, p1 = self._powers(speed, power)
        g0, g1 = self.density_start, self.density_end
        whole = (self.end - self.start) / 6.0 * (p0 * g0 + (p0 + p1) * (g0 + g1) + p1 * g1)
        return self._by_bin(whole)

    def mean(self, speed: Floats, power: Floats) -> Floats:
        """Plain mean of power over each bin's speeds [W], shape (b,)."""
        p0, p1 = self._powers(speed, power)
        whole = 0.5 * (self.end - self.start) * (p0 + p1)
        return self._by_bin(whole) / self.width

    def share_below(self, limit: float) -> float:
        """Fraction of time below `limit` [m/s], a speed the pieces are cut at or one outside them."""
        return float(np.sum(self._shares()[self.end <= limit]))

    def share_above(self, limit: float) -> float:
        """Fraction of time above `limit` [m/s], a speed the pieces are cut at or one outside them."""
        return float(np.sum(self._shares()[self.start >= limit]))

    def share_at(self, speed: Floats, power: Floats, rated_power: float) -> float:
        """Fraction of time on stretches of the curve where both ends reach rated power [-]."""
        p0, p1 = self._powers(speed, power)
        return float(np.sum(self._shares()[np.minimum(p0, p1) >= rated_power * (1.0 - _RATED_TOLERANCE)]))

    def share_running(self, speed: Floats, power: Floats) -> float:
        """Fraction of time on stretches of the curve with power above zero [-]."""
        p0, p1 = self._powers(speed, power)
        return float(np.sum(self._shares()[np.maximum(p0, p1) > 0.0]))

    def _by_bin(self, pieces: Floats) -> Floats:
        return np.bincount(self.bin, weights=pieces, minlength=self.width.size).astype(np.float64)

    def _shares(self) -> Floats:
        shares: Floats = 0.5 * (self.end - self.start) * (self.density_start + self.density_end)
        return shares

    def _powers(self, speed: Floats, power: Floats) -> tuple[Floats, Floats]:
        return (
            np.where(self.running, np.interp(self.start, speed, power), 0.0),
            np.where(self.running, np.interp(self.end, speed, power), 0.0),
        )


def cut(edge: Floats, share: Floats, speed: Floats, cut_in_speed: float) -> Pieces:
    """Cut the climate at its edges, the power curve's speeds and the cut-in speed.

    Parameters
    ----------
    edge, share : ndarray, shapes (b+1,) and (b,)
        The climate [m/s], [-].
    speed : ndarray, shape (n,)
        Growing speeds of the power curve [m/s].
    cut_in_speed : float
        [m/s]
    """
    inner = np.append(speed, cut_in_speed)
    at = np.unique(np.concatenate([edge, inner[(inner > edge[0]) & (inner < edge[-1])]]))
    start, end = at[:-1], at[1:]
    where = np.searchsorted(edge, start, side="right") - 1
    width = np.diff(edge)
    mid = 0.5 * (edge[1:] + edge[:-1])
    density, slope = share / width, bin_slopes(edge, share)
    return Pieces(
        start=start,
        end=end,
        bin=where.astype(np.int64),
        density_start=density[where] + slope[where] * (start - mid[where]),
        density_end=density[where] + slope[where] * (end - mid[where]),
        running=(start >= cut_in_speed) & (start >= speed[0]) & (end <= speed[-1]),
        width=width,
    )
