"""The vortex behind the hub: its core, its pull on the tail, whether it bursts."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

CORE_SHARE = 0.5
"""Radius of the core over that of the hub: own choice; the boundary layers of hub and roots are wound into it [-]."""
BREAKDOWN = 1.3
"""Swirl ratio K/(r_c w) of the core above which vortices have been seen to burst; from memory [-]."""


@dataclass(frozen=True)
class HubCores:
    """As `HubCore` at p points, shape (p,) each."""

    strength: Floats
    radius: Floats
    tail_force: Floats
    lowest_pressure: Floats
    swirl_ratio: Floats
    breakdown: NDArray[np.bool_]


def hub_core(strength: Floats, hub_radius: float, far_wake_speed: Floats, density: float) -> HubCores:
    """Cores from the vortices' strength.

    Parameters
    ----------
    strength : ndarray, shape (p,)
        [m2/s]
    hub_radius : float
        At the rotor, > 0 [m].
    far_wake_speed : ndarray, shape (p,)
        [m/s]
    density : float
        [kg/m3]
    """
    radius = CORE_SHARE * hub_radius
    square = density * strength**2
    flows = far_wake_speed > 0.0
    ratio = np.where(flows, np.abs(strength) / (radius * np.where(flows, far_wake_speed, 1.0)), 0.0)
    return HubCores(
        strength,
        np.full(strength.shape, radius),
        np.pi * square * (np.log(hub_radius / radius) + 0.75),
        -square / radius**2,
        ratio,
        ratio > BREAKDOWN,
    )
