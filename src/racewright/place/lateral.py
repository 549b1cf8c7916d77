"""Depth-mean speed across the river: how much faster than the section mean the water runs at one place."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from racewright.place.result import Floats
from racewright.place.transect import Transect


def local_ratio(transect: Transect, distance: float, level: ArrayLike) -> Floats:
    """Depth-mean speed at one place over the mean of the whole transect.

    Each vertical follows Manning's law with one slope and one roughness for all, so its depth-mean speed goes
    with depth^(2/3) and its share of discharge per metre of width with depth^(5/3). Requiring that the shares
    add up to the whole discharge gives

        ratio = d^(2/3) * area / integral of depth^(5/3) over the width,

    exact for a bed of straight pieces. Mixing between verticals, bends and wakes of boulders are left out,
    and a side arm cut off upstream still counts as flowing: a ratio measured at the place is better.

    Parameters
    ----------
    transect : Transect
    distance : float
        Place across the river, within the survey [m].
    level : array_like
        Water level [m], any shape.

    Returns
    -------
    ndarray
        Ratio [-]; zero where the place, or the whole transect, is dry.
    """
    depth = transect.depth_at(distance, level)
    conveyance = transect.depth_power_integral(level, 5.0 / 3.0)
    wet = (depth > 0.0) & (conveyance > 0.0)
    ratio: Floats = np.where(
        wet, depth ** (2.0 / 3.0) * transect.wetted_area(level) / np.where(wet, conveyance, 1.0), 0.0
    )
    return ratio
