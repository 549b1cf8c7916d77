"""The canonical ladder of loads."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.errors import InputError

LADDER = (0.0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.75, 0.8, 0.85, 8.0 / 9.0, 0.92, 0.95)
"""Head coefficients of every table: nearly even steps of far-wake speed, with 8/9 among them. Own choice."""


def check_loads(head_coefficients: tuple[float, ...]) -> NDArray[np.float64]:
    """The loads as an array; InputError unless they start at 0, grow and stay below 1."""
    loads = np.asarray(head_coefficients, dtype=np.float64)
    if loads.ndim != 1 or loads.size == 0 or not np.all(np.isfinite(loads)):
        raise InputError("must be a list of finite numbers; try (0, 0.2, 0.4)", key="head_coefficients")
    if loads[0] != 0.0 or np.any(np.diff(loads) <= 0.0) or loads[-1] >= 1.0:
        raise InputError("must start at 0, grow and stay below 1; try (0, 0.2, 0.4)", key="head_coefficients")
    return loads
