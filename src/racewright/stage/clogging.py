"""Loss in debris that closes part of the passage ahead of the rows."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError

Floats = NDArray[np.float64]


def debris_resistance(closed_share: Floats) -> Floats:
    """Head lost over the dynamic head of the mean axial speed, ((1/((1 - c) Cc) - 1)^2 [-].

    The water contracts behind the openings to Cc of them and then fills the passage again (Borda-Carnot).
    Cc = 0.63 + 0.37 (1 - c)^3 (Weisbach's contraction; from memory), 1 where nothing is closed.

    Parameters
    ----------
    closed_share : ndarray
        c, share of the passage that debris closes, 0 to below 1 [-].
    """
    share = np.asarray(closed_share, dtype=np.float64)
    if not np.all(np.isfinite(share)) or np.any(share < 0.0) or np.any(share >= 1.0):
        raise InputError("The share that debris closes must lie from 0 to below 1.")
    open_ = 1.0 - share
    return np.asarray((1.0 / (open_ * (0.63 + 0.37 * open_**3)) - 1.0) ** 2)
