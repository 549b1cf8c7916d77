"""Gear, generator and control limits, as the thread needs them."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Drive:
    """From shaft power to electrical power.

    Attributes
    ----------
    gear_efficiency, generator_efficiency : float
        0 to 1, constant over load [-].
    cut_in_speed : float
        Cube-mean stream speed below which no power is made, > 0 [m/s].
    rated_power : float
        Electrical power that is not passed, > 0 [W].
    """

    gear_efficiency: float
    generator_efficiency: float
    cut_in_speed: float
    rated_power: float
