"""A surface over a grid: smooth, without overshoot, and honest about where it was never computed."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Mask = NDArray[np.bool_]


class Surface:
    """Bicubic Hermite surface through z(x, y) with monotone slopes along both axes.

    It passes through every node, has continuous slopes, and keeps the rise or fall of the nodes along every grid
    line. Slopes are taken inside runs of answered nodes; a cell answers when its four corners are answered.
    Slopes of parabolas, limited as in Fritsch & Carlson, SIAM J. Numer. Anal. 17 (1980) 238 and Hyman, SIAM J. Sci.
    Stat. Comput. 4 (1983) 645 (from memory); along a grid line a parabola that does not turn is met exactly.

    Parameters
    ----------
    x, y : ndarray, shapes (p,) and (q,)
        Growing, two or more each.
    z : ndarray, shape (p, q)
        Finite where answered.
    answered : ndarray of bool, shape (p, q), optional
        All, when left out.
    """

    def __init__(self, x: Floats, y: Floats, z: Floats, answered: Mask | None = None) -> None:
        known = np.ones(z.shape, dtype=bool) if answered is None else answered
        value = np.where(known, z, 0.0)
        along_x = _slopes(x, value, known)
        along_y = _slopes(y, value.T, known.T).T
        both = _slopes(x, along_y, known)
        self._x, self._y = x, y
        self._nodes = np.stack([value, along_x, along_y, both])
        self._cell = known[:-1, :-1] & known[1:, :-1] & known[:-1, 1:] & known[1:, 1:]

    def answers(self, x: Floats, y: Floats) -> Mask:
        """True where the surface knows its value; arrays of one shape."""
        i, j, inside = self._where(x, y)
        found: Mask = inside & self._cell[i, j]
        return found

    def at(self, x: Floats, y: Floats) -> Floats:
        """Value at each (x, y), arrays that broadcast; NaN where the surface does not answer."""
        x, y = np.broadcast_arrays(np.asarray(x, dtype=np.float64), np.asarray(y, dtype=np.float64))
        i, j, inside = self._where(x, y)
        wide, high = self._x[i + 1] - self._x[i], self._y[j + 1] - self._y[j]
        across, up = _hermite((x - self._x[i]) / wide, wide), _hermite((y - self._y[j]) / high, high)
        total = np.zeros_like(x)
        for a in (0, 1):
            for b in (0, 1):
                z, zx, zy, zxy = self._nodes[:, i + a, j + b]
                total = total + up[b] * (across[a] * z + across[2 + a] * zx)
                total = total + up[2 + b] * (across[a] * zy + across[2 + a] * zxy)
        return np.where(inside & self._cell[i, j], total, np.nan)

    def _where(self, x: Floats, y: Floats) -> tuple[NDArray[np.intp], NDArray[np.intp], Mask]:
        slack_x, slack_y = 1e-12 * self._x[-1], 1e-12 * self._y[-1]
        inside = (x >= self._x[0] - slack_x) & (x <= self._x[-1] + slack_x)
        inside = inside & (y >= self._y[0] - slack_y) & (y <= self._y[-1] + slack_y)
        i = np.clip(np.searchsorted(self._x, x, side="right") - 1, 0, self._x.size - 2)
        j = np.clip(np.searchsorted(self._y, y, side="right") - 1, 0, self._y.size - 2)
        return i, j, inside


def _hermite(t: Floats, width: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Weights of the values at both ends, then of the slopes at both ends."""
    rest = 1.0 - t
    return (
        rest**2 * (1.0 + 2.0 * t),
        t**2 * (3.0 - 2.0 * t),
        width * t * rest**2,
        -width * t**2 * rest,
    )


def _slopes(x: Floats, z: Floats, known: Mask) -> Floats:
    """Monotone slopes of each column of z along x, inside its runs of known nodes; 0 at a node that stands alone."""
    if known.all():
        return _monotone(x, z)
    found = np.zeros_like(z)
    for k in range(z.shape[1]):
        edges = np.flatnonzero(np.diff(np.concatenate([[False], known[:, k], [False]]).astype(np.int8)))
        for start, stop in zip(edges[::2], edges[1::2], strict=True):
            if stop - start > 1:
                run = slice(start, stop)
                found[run, k] = _monotone(x[run], z[run, k : k + 1])[:, 0]
    return found


def _monotone(x: Floats, z: Floats) -> Floats:
    """Slopes of parabolas through three neighbours, held within 3 times the smaller chord's slope, 0 at a turn."""
    step = np.diff(x)[:, None]
    chord = np.diff(z, axis=0) / step
    if chord.shape[0] == 1:
        return np.concatenate([chord, chord])
    before, after = chord[:-1], chord[1:]
    inner = (step[1:] * before + step[:-1] * after) / (step[1:] + step[:-1])
    bend = (after - before) / (step[1:] + step[:-1])
    first = _held(chord[:1] - step[:1] * bend[:1], chord[:1], chord[:1])
    last = _held(chord[-1:] + step[-1:] * bend[-1:], chord[-1:], chord[-1:])
    return np.concatenate([first, _held(inner, before, after), last])


def _held(slope: Floats, before: Floats, after: Floats) -> Floats:
    least = 3.0 * np.minimum(np.abs(before), np.abs(after))
    same = (np.sign(before) == np.sign(after)) & (np.sign(slope) == np.sign(before))
    return np.where(same, np.sign(slope) * np.minimum(np.abs(slope), least), 0.0)
