"""The properties of water at one temperature and one atmosphere."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import gsw  # type: ignore[import-untyped, unused-ignore]
import numpy as np

from racewright.errors import InputError
from racewright.water.vapour import saturation_pressure, water_activity
from racewright.water.viscosity import fresh_viscosity, sea_ratio

_SALINITY = {"fresh": 0.0, "sea": 35.16504}
_COLDEST = 273.15
_WARMEST = 313.15


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


def properties(temperature: float, kind: Literal["fresh", "sea"]) -> Water:
    """Density, kinematic viscosity and vapour pressure at one atmosphere.

    Parameters
    ----------
    temperature : float
        273.15 to 313.15 (0 to 40 degC) [K].
    kind : {'fresh', 'sea'}
        Pure water, or sea water of the reference salinity 35.16504 g/kg.

    Returns
    -------
    Water

    Raises
    ------
    InputError
        Temperature outside the range or not finite, or another kind.

    References
    ----------
    Density: TEOS-10 Gibbs functions of pure and sea water. Viscosity: IAPWS R12-08, for sea water times the
    ratio of Sharqawy and others (2010). Vapour pressure: IAPWS R7-97, for sea water times the TEOS-10 water
    activity.

    Examples
    --------
    >>> round(properties(288.15, "fresh").density, 3)
    999.103
    """
    return properties_at([temperature], kind)[0]


def properties_at(temperatures: Sequence[float], kind: Literal["fresh", "sea"]) -> list[Water]:
    """`properties` at several temperatures, with the same answers."""
    if kind not in _SALINITY:
        raise InputError(f"kind of water is {kind!r}; write 'fresh' or 'sea'")
    for one in temperatures:
        if not (math.isfinite(one) and _COLDEST <= one <= _WARMEST):
            raise InputError(
                f"water temperature is {one!r} K; wanted 273.15 K to 313.15 K (0 to 40 degC), e.g. 288.15"
            )
    celsius = np.array(temperatures, np.float64) - _COLDEST
    pure = gsw.rho_t_exact(0.0, celsius, 0.0).tolist()
    if kind == "fresh":
        return [
            Water(kind, t, density, fresh_viscosity(t, density) / density, saturation_pressure(t))
            for t, density in zip(temperatures, pure, strict=True)
        ]
    salinity = _SALINITY[kind]
    salty = gsw.rho_t_exact(salinity, celsius, 0.0).tolist()
    found = []
    for t, fresh, density in zip(temperatures, pure, salty, strict=True):
        dynamic = fresh_viscosity(t, fresh) * sea_ratio(t, 1e-3 * salinity)
        pressure = saturation_pressure(t) * water_activity(t, salinity)
        found.append(Water(kind, t, density, dynamic / density, pressure))
    return found
