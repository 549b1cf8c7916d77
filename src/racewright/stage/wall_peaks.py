"""Highest speeds along the walls that the through-flow touches."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from racewright.flow.contours import inner_side
from racewright.flow.response import FlowTable

Floats = NDArray[np.float64]


class WallPeaks:
    """Highest speeds on the duct's inner wall and the hub ahead of the disc and behind it, over u, by load."""

    def __init__(self, table: FlowTable) -> None:
        flow = table.flow
        self.none = flow.duct_x.size == 0
        if self.none:
            return
        inner = inner_side(flow.duct_x, flow.duct_r)[0].size - 1
        x = np.concatenate([_middle(flow.duct_x[: inner + 1]), _middle(flow.hub_x)])
        speed = (
            np.abs(np.concatenate([flow.duct_speed[:, :inner], flow.hub_speed], axis=1)) / flow.speed_ratio[:, None]
        )
        behind = x > flow.rotor_x
        ahead = np.max(np.where(behind, 0.0, speed), axis=1)
        after = np.max(np.where(behind, speed, 0.0), axis=1)
        self._columns = table.of(np.stack([ahead**2, after**2], axis=1))

    def lowest(self, load: Floats, speed_ratio: Floats) -> Floats:
        """Lowest pressure coefficient on these walls [-]."""
        if self.none:
            return np.full(load.shape, np.inf)
        peaks = self._columns(load)
        return np.minimum(1.0 - peaks[:, 0] * speed_ratio**2, 1.0 - load - peaks[:, 1] * speed_ratio**2)


def _middle(x: Floats) -> Floats:
    return 0.5 * (x[1:] + x[:-1])
