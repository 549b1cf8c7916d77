"""Froude scaling: from the model to a geometrically similar machine with the same Froude number."""

from __future__ import annotations

import math
from dataclasses import dataclass

from racewright.errors import InputError


@dataclass(frozen=True)
class FroudeScale:
    """Full-scale value over model value.

    Attributes
    ----------
    length, speed, time, rotor_speed, force, torque, power, reynolds : float
        [-]
    """

    length: float
    speed: float
    time: float
    rotor_speed: float
    force: float
    torque: float
    power: float
    reynolds: float


def froude_scale(length: float, density: float = 1.0, viscosity: float = 1.0) -> FroudeScale:
    """Scale factors at equal Froude number; coefficients stay, the Reynolds number does not.

    Parameters
    ----------
    length : float
        Full-scale length over model length [-].
    density, viscosity : float
        Full-scale water over model water, kinematic viscosity [-].
    """
    for name, number in (("length", length), ("density", density), ("viscosity", viscosity)):
        if not (math.isfinite(number) and number > 0.0):
            raise InputError(f"{name} ratio is {number!r}; wanted a finite number above 0, e.g. 10")
    root = math.sqrt(length)
    return FroudeScale(
        length=length,
        speed=root,
        time=root,
        rotor_speed=1.0 / root,
        force=density * length**3,
        torque=density * length**4,
        power=density * length**3 * root,
        reynolds=length * root / viscosity,
    )
