"""The fixed geometry that a table of loads is about."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Rig:
    """Contours, disc and wake places; lengths in one unit.

    Attributes
    ----------
    duct_x, duct_r, hub_x, hub_r : ndarray
        Panel end points; hub arrays empty without a hub.
    rotor_x : float
        Axial place of the disc.
    wall_radius, hub_radius : float
        Radii of duct and hub there.
    exit_hub_radius : float
        Radius of the hub at the duct's trailing edge.
    wake_x : ndarray
        Wake nodes.
    channel_radius : float
        Radius of the channel's wall, 0 without one.
    channel_x : ndarray
        Its panel ends.
    """

    duct_x: Floats
    duct_r: Floats
    hub_x: Floats
    hub_r: Floats
    rotor_x: float
    wall_radius: float
    hub_radius: float
    exit_hub_radius: float
    wake_x: Floats
    channel_radius: float
    channel_x: Floats

    @property
    def annulus_area(self) -> float:
        """Area between hub and wall at the disc."""
        return math.pi * (self.wall_radius**2 - self.hub_radius**2)

    @property
    def exit_area(self) -> float:
        """Area between hub and trailing edge."""
        return math.pi * (float(self.duct_r[0]) ** 2 - self.exit_hub_radius**2)
