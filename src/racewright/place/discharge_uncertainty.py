"""Uncertainty of a discharge from soundings, in the manner of ISO 748."""

from __future__ import annotations

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from racewright.place.guard import within
from racewright.place.result import Floats

VERTICALS = ((5, 0.075), (10, 0.045), (15, 0.030), (20, 0.025), (25, 0.020), (30, 0.015), (35, 0.010), (45, 0.010))
"""Relative standard uncertainty from the limited number of verticals (ISO 748, from memory) [-]."""

POINTS = {0: 0.15, 1: 0.075, 2: 0.035, 3: 0.035}
"""The same from the limited number of points in a vertical (ISO 748, from memory; three taken as two; an unmeasured
edge taken as twice one point, rule of this program) [-]."""


@dataclass(frozen=True)
class GaugingErrors:
    """Relative standard uncertainties of what is measured (ISO 748, from memory), each 0 to 0.5.

    Attributes
    ----------
    width : float
        Of a distance, default 0.005 [-].
    depth : float
        Of a depth, default 0.01 [-].
    meter : float
        Of the meter's calibration, default 0.01 (from 0.3 m/s up) [-].
    pulsation : float
        Of one point speed from pulsations in its exposure time, default 0.06: some 0.3 m/s over one minute at
        0.6 of the depth [-].
    systematic : float
        Of all together, instruments alike, default 0.01 [-].
    """

    width: float = 0.005
    depth: float = 0.01
    meter: float = 0.01
    pulsation: float = 0.06
    systematic: float = 0.01

    def __post_init__(self) -> None:
        for field in fields(self):
            within(f"the {field.name} uncertainty", getattr(self, field.name), 0.0, 0.5, "[-]")


def relative_uncertainty(panel: Floats, points: NDArray[np.int64], errors: GaugingErrors) -> float:
    """Relative standard uncertainty of the sum of the panels [-].

    u^2 = u_systematic^2 + u_m^2 + sum of q_i^2 [u_width^2 + u_depth^2 + u_points^2 + (u_meter^2 +
    u_pulsation^2) / points] / (sum of q_i)^2, u_m from the number of verticals with water moving in them.

    Parameters
    ----------
    panel : ndarray, shape (n,)
        Discharge of each vertical, with a sum above zero [m3/s].
    points : ndarray of int, shape (n,)
        Measured speeds in each vertical, 0 to 3.
    errors : GaugingErrors
    """
    count, of_count = zip(*VERTICALS, strict=True)
    u_m = float(np.interp(np.count_nonzero(panel), count, of_count))
    limited = np.array([POINTS[int(n)] for n in points])
    point = (errors.meter**2 + errors.pulsation**2) / np.maximum(points, 1)
    own = errors.width**2 + errors.depth**2 + limited**2 + point
    scatter = float(np.sum(panel**2 * own)) / float(panel.sum()) ** 2
    return float(np.sqrt(errors.systematic**2 + u_m**2 + scatter))
