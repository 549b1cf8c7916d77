"""How speed is spread inside the bins of a climate."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def bin_slopes(edge: Floats, share: Floats) -> Floats:
    """Slope of the probability density inside each bin [(s/m)^2], shape (b,).

    In each bin the density is share / width + slope (v - mid): the bin keeps its share exactly. The slope
    is the central difference over the neighbours, limited so that the density at an edge stays between the
    two bins that meet there and a bin at a peak stays flat (monotonised central limiter); in the first and
    last bin it is the one-sided difference, limited so that the density does not become negative.

    Parameters
    ----------
    edge : ndarray, shape (b+1,)
        Growing bin edges [m/s].
    share : ndarray, shape (b,)
        Fraction of time in each bin [-].

    References
    ----------
    van Leer (1977), J. Comput. Phys. 23, 263-275 (the limiter).
    """
    width = np.diff(edge)
    mid = 0.5 * (edge[1:] + edge[:-1])
    density = share / width
    slope = np.zeros_like(density)
    if density.size == 1:
        return slope
    step = np.diff(density)
    side = step / np.diff(mid)
    left, right = step[:-1], step[1:]
    central = (density[2:] - density[:-2]) / (mid[2:] - mid[:-2])
    limit = 2.0 * np.minimum(np.abs(left), np.abs(right)) / width[1:-1]
    slope[1:-1] = np.where(left * right > 0.0, np.sign(left) * np.minimum(np.abs(central), limit), 0.0)
    for end, one_sided in ((0, side[0]), (-1, side[-1])):
        most = 2.0 * density[end] / width[end]
        slope[end] = min(max(one_sided, -most), most)
    return slope
