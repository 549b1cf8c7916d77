"""Beyond the loads that the wake can be solved for: an empirical closure, joined in value and slope."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

JOIN = 0.96
"""Thrust coefficient of an open disc up to which momentum theory is followed; axial induction is 0.4 there."""
HELD = 2.0
"""Thrust coefficient at which the open-disc curve stops the flow."""
BLUFF = 1.17
"""Drag coefficient of a flat disc across the stream, taken for a held machine over its frontal area.

From memory (Hoerner 1965, fluid-dynamic drag); within 10 %.
"""


def open_speed(thrust_coefficient: Floats | float) -> Floats:
    """Speed ratio u of a bare disc in an open stream at thrust coefficients from 0 to 2 [-].

    Momentum theory, u = (1 + sqrt(1 - CT))/2, to CT 0.96; above it the turbulent-wake state as a parabola in
    axial induction a = 1 - u: CT = 8/9 - 4a/9 + 14 a^2/9 (Buhl 2005, after Glauert's data; from memory). Both
    meet at a = 0.4 in value and slope.
    """
    load = np.asarray(thrust_coefficient, dtype=np.float64)
    momentum = 0.5 * (1.0 + np.sqrt(1.0 - np.minimum(load, JOIN)))
    return np.where(load <= JOIN, momentum, 1.0 - _induction(load))


def open_slope(thrust_coefficient: float) -> float:
    """d u / d CT of `open_speed` [-]."""
    if thrust_coefficient <= JOIN:
        return float(-0.25 / np.sqrt(1.0 - thrust_coefficient))
    return float(-9.0 / (28.0 * _induction(np.float64(thrust_coefficient)) - 4.0))


def _induction(thrust_coefficient: Floats | np.float64) -> Floats:
    above = np.maximum(thrust_coefficient, JOIN)
    return np.asarray((4.0 + np.sqrt(16.0 + 504.0 * (above - 8.0 / 9.0))) / 28.0)


@dataclass(frozen=True)
class Closure:
    """Speed and thrust of one machine from the last solved load to the load that stops the flow.

    The open-disc curve, scaled to the machine's own speed at the join and stretched over load until its slope
    there is the machine's own: u(CH) = u_s open_speed(CH_s + m (CH - CH_s)) / open_speed(CH_s).

    Attributes
    ----------
    start : float
        CH_s, the last solved load [-].
    speed, slope : float
        u and du/dCH there [-].
    thrust, thrust_slope : float
        Total thrust coefficient and its slope by CH there [-].
    frontal_area : float
        Frontal area over annulus area [-].
    """

    start: float
    speed: float
    slope: float
    thrust: float
    thrust_slope: float
    frontal_area: float

    @property
    def stretch(self) -> float:
        """m, how much faster than an open disc's the machine's flow falls with load [-]."""
        return self.slope / self.speed * float(open_speed(self.start)) / open_slope(self.start)

    @property
    def limit(self) -> float:
        """Head coefficient at which the flow stops [-]."""
        return self.start + (HELD - self.start) / self.stretch

    def speed_at(self, head_coefficient: Floats | float) -> Floats:
        """u, `speed` at the start and 0 at the limit [-]."""
        load = self.start + self.stretch * (np.asarray(head_coefficient, dtype=np.float64) - self.start)
        return np.maximum(self.speed * open_speed(np.minimum(load, HELD)) / open_speed(self.start), 0.0)

    def thrust_at(self, head_coefficient: Floats | float) -> Floats:
        """Total thrust coefficient, on annulus area [-].

        A parabola in the share of the flow that is lost, s = 1 - u/u_s: value and slope of the solved side at
        s = 0, the drag of a flat disc of the frontal area at s = 1.
        """
        lost = 1.0 - self.speed_at(head_coefficient) / self.speed
        rise = -self.thrust_slope * self.speed / self.slope
        found: Floats = self.thrust + rise * lost + (BLUFF * self.frontal_area - self.thrust - rise) * lost**2
        return found
