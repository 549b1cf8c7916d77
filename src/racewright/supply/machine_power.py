"""Power that machines could give in each interval: power curve, stops and ice."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from racewright.errors import InputError
from racewright.supply.door import power_row
from racewright.supply.power_table import PowerTable

Floats = NDArray[np.float64]


def power_at(table: PowerTable, speed: ArrayLike) -> Floats:
    """Power of one machine at stream speeds, before availability [W], shape as given.

    Linear between the points of the curve, 0 below cut-in and outside its first and last speed, as in the yearly
    energy.

    Raises
    ------
    InputError
        A speed that is negative or not finite.
    """
    v = np.asarray(speed, dtype=np.float64)
    if not (np.isfinite(v) & (v >= 0.0)).all():
        raise InputError("stream speeds must be finite and 0 or more; fill the record's gaps first")
    power = np.interp(v, table.speed, table.power, left=0.0, right=0.0)
    found: Floats = np.where(v < table.cut_in_speed, 0.0, power)
    return found


def machine_series(power: ArrayLike, running: Floats, out: NDArray[np.bool_] | None = None) -> Floats:
    """Power of all machines with what keeps them still taken off [W], shape (n,).

    Parameters
    ----------
    power : array_like, shape (n,)
        Of one machine that never stops, >= 0 [W].
    running : ndarray, shape (n,) or (machines, n)
        Part of each interval in which a machine is able to run, 0 to 1; one row for each machine [-].
    out : ndarray of bool, shape (n,), optional
        Intervals with the machines out of the water, for ice or another cause of the season.

    Raises
    ------
    InputError
        Unlike lengths, numbers out of range or not finite.
    """
    row = power_row("power of a machine", power, None)
    share = np.atleast_2d(np.asarray(running, dtype=np.float64))
    if share.shape[1:] != row.shape or not (np.isfinite(share) & (share >= 0.0) & (share <= 1.0)).all():
        raise InputError(
            f"the running share wants rows of {row.size} numbers from 0 to 1; its shape is {share.shape}"
        )
    together: Floats = row * share.sum(axis=0)
    if out is not None:
        if np.shape(out) != row.shape or np.asarray(out).dtype != np.bool_:
            raise InputError(f"the intervals out of the water want {row.size} truth values")
        together = np.where(out, 0.0, together)
    return together
