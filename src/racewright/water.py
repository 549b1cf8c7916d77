"""Density, viscosity and vapour pressure of fresh and sea water."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True)
class Water:
    """Properties at one temperature and one atmosphere.

    Attributes
    ----------
    kind : {'fresh', 'sea'}
        Sea water has the reference salinity 35.16504 g/kg.
    temperature : float
        [K]
    density : float
        [kg/m3]
    viscosity : float
        Kinematic viscosity [m2/s].
    vapour_pressure : float
        [Pa]
    """

    kind: Literal["fresh", "sea"]
    temperature: float
    density: float
    viscosity: float
    vapour_pressure: float
