"""An invented ducted model: power and thrust over tip-speed ratio as smooth curves, and its built-in errors."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Curve = Callable[[Floats], Floats]
_PER_DEGREE = 0.03
_LOSS_PER_DEGREE2 = 0.004


def invented_power(tip_speed_ratio: Floats) -> Floats:
    """CP = 0.762 TSR (1 - TSR/4.2): 0.8 at 2.1, on the rotor's annulus. Invented [-]."""
    return np.asarray(0.762 * tip_speed_ratio * (1.0 - tip_speed_ratio / 4.2))


def invented_thrust(tip_speed_ratio: Floats) -> Floats:
    """CT = 0.75 + 0.25 TSR - 0.05 TSR^2, on the rotor's annulus. Invented [-]."""
    return np.asarray(0.75 + 0.25 * tip_speed_ratio - 0.05 * tip_speed_ratio**2)


@dataclass(frozen=True)
class Model:
    """An invented half-kilowatt model, 0.55 m across the duct.

    Attributes
    ----------
    tip_radius, hub_radius, duct_radius : float
        [m]
    blades, vanes : int
        [-]
    power, thrust : callable
        Design curves: arrays of tip-speed ratio to CP and CT on the annulus.
    angle_error : float
        How far the blades stand off their design angle, as built [rad].
    blade_ripple, vane_ripple, turn_ripple : float
        Amplitudes of the torque at blade passing, vane passing and once per turn, over its mean [-].
    """

    tip_radius: float = 0.225
    hub_radius: float = 0.07
    duct_radius: float = 0.275
    blades: int = 5
    vanes: int = 9
    power: Curve = invented_power
    thrust: Curve = invented_thrust
    angle_error: float = 0.0
    blade_ripple: float = 0.01
    vane_ripple: float = 0.04
    turn_ripple: float = 0.005

    @property
    def annulus_area(self) -> float:
        """[m2]"""
        return float(np.pi * (self.tip_radius**2 - self.hub_radius**2))

    def power_built(self, tip_speed_ratio: Floats) -> Floats:
        """CP as built: the curve shifts 3 % in tip-speed ratio per degree and loses 0.4 % per degree squared.

        Invented effect of a blade angle off its design.
        """
        degrees = np.degrees(self.angle_error)
        shifted = self.power(tip_speed_ratio * (1.0 + _PER_DEGREE * degrees))
        return np.asarray(shifted * (1.0 - _LOSS_PER_DEGREE2 * degrees**2))

    def thrust_built(self, tip_speed_ratio: Floats) -> Floats:
        """CT as built: shifted as CP is."""
        return self.thrust(tip_speed_ratio * (1.0 + _PER_DEGREE * np.degrees(self.angle_error)))
