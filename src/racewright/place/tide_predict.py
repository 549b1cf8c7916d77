"""From constituents back to a tide: any stamps, any year, with the nodal factors of the day."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.place.guard import finite_array
from racewright.place.result import Floats
from racewright.place.tide_constants import angular_speed, arguments
from racewright.place.tide_result import Tide, TideConstituent
from racewright.tick import Tick, silent

KNOT = 2.0 * 86400.0
"""Time between stamps at which nodal factors and arguments are worked out; straight between them [s]."""
BLOCK = 1 << 16
"""Stamps predicted at a time, so that the steps between take little memory."""


def predict(tide: Tide, time: ArrayLike, *, tick: Tick = silent) -> Floats:
    """Kept constituents plus the mean, without trend, at the stamps.

    Parameters
    ----------
    tide : Tide
    time : array_like, shape (n,)
        Seconds since 1970-01-01 UTC, growing.
    tick : Tick

    Returns
    -------
    ndarray, shape (n, 1) or (n, 2)
        Level [m], speed along, or speeds to east and north [m/s].

    Raises
    ------
    InputError
        Stamps that are empty, not finite or falling.
    """
    stamp = finite_array("time", time)
    if (np.diff(stamp) < 0.0).any():
        raise InputError("stamps of a prediction must grow", key="time")
    kept = tuple(row for row in tide.constituents if row.kept)
    out: Floats = np.tile(np.array(tide.mean), (stamp.size, 1))
    if not kept:
        return out
    clock = _Clock(kept, stamp, tide)
    both = clock.even(stamp, tick) if _even(stamp) else clock.uneven(stamp, tick)
    out[:, 0] += both.real
    if out.shape[1] == 2:
        out[:, 1] += both.imag
    return out


def _even(stamp: Floats) -> bool:
    """True where every stamp lies on one grid that the knots fall on too."""
    step = float(stamp[1] - stamp[0]) if stamp.size > 1 else 0.0
    return step > 0.0 and KNOT % step == 0.0 and bool((np.diff(stamp) == step).all())


class _Clock:
    """Sum of all constituents at stamps from the first on, as level, or east + i north."""

    def __init__(self, rows: tuple[TideConstituent, ...], stamp: Floats, tide: Tide) -> None:
        names = tuple(row.name for row in rows)
        self.rate = np.array([angular_speed(name) for name in names])
        self.start = float(stamp[0])
        count = int((stamp[-1] - stamp[0]) // KNOT) + 2
        days: Floats = np.asarray((self.start + KNOT * np.arange(count)) / 86400.0, dtype=np.float64)
        f, u, self.v = arguments(days, names, tide.latitude, nodal=tide.nodal)
        self.slow = f * np.exp(1j * u)
        self.plus, self.minus = _rotaries(rows)

    def uneven(self, stamp: Floats, tick: Tick) -> NDArray[np.complex128]:
        """Shape (n,), at any stamps."""
        out = np.zeros(stamp.size, dtype=np.complex128)
        for start in range(0, stamp.size, BLOCK):
            part = slice(start, start + BLOCK)
            since = stamp[part] - self.start
            knot = (since // KNOT).astype(np.int64)
            after = since - knot * KNOT
            share = (after / KNOT)[:, None]
            slow = (1.0 - share) * self.slow[knot] + share * self.slow[knot + 1]
            turned = slow * np.exp(1j * (self.v[knot] + after[:, None] * self.rate))
            out[part] = turned @ self.plus + turned.conj() @ self.minus
            tick(min(1.0, (start + BLOCK) / stamp.size))
        return out

    def even(self, stamp: Floats, tick: Tick) -> NDArray[np.complex128]:
        """Shape (n,), at stamps of one step that divides `KNOT`: the turning within a knot is worked out once."""
        after = np.arange(round(KNOT / float(stamp[1] - stamp[0]))) * float(stamp[1] - stamp[0])
        share = (after / KNOT)[:, None]
        within = np.exp(1j * after[:, None] * self.rate)
        at = np.exp(1j * self.v[:-1])
        whole = 0.0
        for part, conjugate in ((self.plus, False), (self.minus, True)):
            first, second = (
                (s * at).conj() * part if conjugate else s * at * part for s in (self.slow[:-1], self.slow[1:])
            )
            spin = within.conj() if conjugate else within
            whole = whole + (1.0 - share) * (spin @ first.T) + share * (spin @ second.T)
        tick(1.0)
        joined: NDArray[np.complex128] = np.asarray(whole).T.reshape(-1)[: stamp.size]
        return joined


def _rotaries(rows: tuple[TideConstituent, ...]) -> tuple[NDArray[np.complex128], NDArray[np.complex128]]:
    """Anticlockwise and clockwise parts of each ellipse; one component is an ellipse without width."""
    major, minor = np.array([row.amplitude for row in rows]), np.array([row.minor for row in rows])
    lean, lag = np.array([row.inclination for row in rows]), np.array([row.phase for row in rows])
    plus: NDArray[np.complex128] = 0.5 * (major + minor) * np.exp(1j * (lean - lag))
    minus: NDArray[np.complex128] = 0.5 * (major - minor) * np.exp(1j * (lean + lag))
    return plus, minus
