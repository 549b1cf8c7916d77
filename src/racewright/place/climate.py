"""The speed climate: share of the year by speed, from stamps or from a histogram."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from racewright.errors import InputError
from racewright.place.guard import finite_array, within
from racewright.place.result import Floats, SpeedClimate
from racewright.record_rules import check_bins, check_joined


def climate_from_values(speed: Floats, weight: Floats, bin_width: float = 0.1) -> SpeedClimate:
    """Sort speeds into bins [k w, (k+1) w) from zero, each stamp weighted by the time it stands for.

    Parameters
    ----------
    speed : ndarray, shape (n,)
        [m/s], finite, >= 0.
    weight : ndarray, shape (n,)
        Time each speed stands for, > 0, any unit.
    bin_width : float
        0.01 to 1, default 0.1 m/s [m/s].

    Notes
    -----
    Mean and cube mean come from the speeds themselves, not from the bins.
    """
    width = within("the bin width", bin_width, 0.01, 1.0, "m/s")
    count = int(np.floor(float(speed.max()) / width + 1e-9)) + 1
    edge: Floats = np.round(width * np.arange(count + 1), 12)
    time, _ = np.histogram(speed, edge, weights=weight)
    total = float(weight.sum())
    return SpeedClimate(
        edge=edge,
        share=time / total,
        mean_speed=float(weight @ speed) / total,
        mean_cube_speed=float(np.cbrt(float(weight @ speed**3) / total)),
    )


def climate_from_shares(edge: ArrayLike, share: ArrayLike) -> SpeedClimate:
    """Take a histogram of speed; inside a bin every speed is equally likely.

    Parameters
    ----------
    edge : array_like, shape (b+1,)
        Bin edges, from 0 up, growing, at most 20 [m/s].
    share : array_like, shape (b,)
        Fraction of time, >= 0, summing to 1 within 0.01 (then scaled to exactly 1) [-].

    Raises
    ------
    InputError
        Edges or shares that break these rules.

    Notes
    -----
    The mean cube of a bin of width w about v is v^3 (1 + w^2 / (4 v^2)), more than the cube of its middle.
    """
    edges, shares = finite_array("the histogram's edges", edge), finite_array("the histogram's shares", share)
    check_bins(edges.tolist(), shares.tolist())
    shares = shares / shares.sum()
    low, high = edges[:-1], edges[1:]
    mean_cube = (high + low) * (high**2 + low**2) / 4.0
    return SpeedClimate(
        edge=edges,
        share=shares,
        mean_speed=float(shares @ (low + high)) / 2.0,
        mean_cube_speed=float(np.cbrt(float(shares @ mean_cube))),
    )


def histogram_edges(speed_from: ArrayLike, speed_to: ArrayLike) -> Floats:
    """Join the lower and upper limits of neighbouring bins into one row of edges [m/s].

    Raises
    ------
    InputError
        When a bin does not start where the one before it ends.
    """
    low, high = finite_array("speed_from", speed_from), finite_array("speed_to", speed_to)
    if low.size != high.size:
        raise InputError(f"there are {low.size} lower but {high.size} upper limits of bins")
    check_joined(low.tolist(), high.tolist())
    return np.concatenate((low, high[-1:]))
